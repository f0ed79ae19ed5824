import { failure, type Outcome, success } from "../base/outcome.ts";
import { addScaled, dot, type Vector } from "../base/vector.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import { layoutOf, widthOf } from "../fixture/layout.ts";
import type { FixtureLocation } from "../fixture/locateInFixture.ts";
import { locatingDeviations } from "../fixture/locatingDeviations.ts";
import type { LocatorContact } from "../fixture/locatorContacts.ts";
import { isRound, unitOf } from "../part/part.ts";
import { budgetsTogether } from "../uncertainty/budget.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { type PinPair, pinPairOf } from "./pinPair.ts";
import { stackOf } from "./stack.ts";

/** How far apart locators that push the same way, or two pins, would have to stand, the others left where they are. */
export interface LocatorSpacing {
  /** Labels of the contacts. */
  readonly contacts: readonly string[];
  /** Between the two farthest, mm. */
  readonly width: number;
  /** The width at which no characteristic is moved farther than wanted by locating, mm. */
  readonly needed: Outcome<number>;
}

/** No part is this much larger than its locators' spacing. */
const widestSpread = 1000;
const mostSteps = 60;
/** Of a narrowing: finer than any spacing is told. */
const finest = 1e-6;

/**
 * The farthest that locating can move any characteristic from where the drawing wants it, mm: worst case, the distance from the place in a
 * round zone; undefined where one is not known.
 */
function worstOfLocating(fixture: FixtureLocation, location: PartLocation): number | undefined {
  const { characteristics } = location.setup.part;
  const found = locatingDeviations(fixture, location);
  // An angle is no way that a feature is moved.
  const moved = characteristics.flatMap((characteristic, i) =>
    unitOf(characteristic) === "mm" ? [{ characteristic, deviation: found[i] as (typeof found)[number] }] : [],
  );
  const deviations = moved.flatMap(({ deviation }) => (deviation.ok ? [deviation.value] : []));
  if (deviations.length < moved.length) return undefined;
  const budgetOf = budgetsTogether(deviations.flat());
  let worst = 0;
  for (const [i, { characteristic }] of moved.entries()) {
    const { lower, upper } = stackOf(characteristic, (deviations[i] as readonly Uncertain[]).map(budgetOf)).worstCase;
    worst = Math.max(worst, isRound(characteristic) ? upper / 2 : Math.max(Math.abs(lower), Math.abs(upper)));
  }
  return worst;
}

/**
 * For every set of locators that push the same way the spacing that a wanted error asks for, each set spread about its middle; for a round and a diamond pin the
 * same along the line between them, the round one left where it is, as the hole that a drawing measures from.
 */
export function locatorSpacings(fixture: FixtureLocation, location: PartLocation, wanted: number): LocatorSpacing[] {
  const pair = pinPairOf(fixture, location);
  return [
    ...alike(fixture).map((group): Movable => {
      const members = group.map((i) => fixture.contacts[i] as LocatorContact);
      return { contacts: members.map(({ label }) => label), width: widthOf(members), by: (factor) => spread(fixture, group, factor) };
    }),
    ...(pair === undefined || !(pair.distance > 0)
      ? []
      : [{ contacts: [pair.round, pair.diamond], width: pair.distance, by: (factor: number) => pinsApart(fixture, pair, factor) }]),
  ].map(({ contacts, width, by }) => {
    const excess = (narrowing: number) => (worstOfLocating(by(1 / narrowing), location) ?? Number.POSITIVE_INFINITY) - wanted;
    const narrowing = mostNarrowing(excess);
    return {
      contacts,
      width,
      needed:
        narrowing === undefined
          ? failure({
              at: "fixture.wantedError",
              what: "no spacing of these locators alone keeps locating within this error",
              expected: "a larger error, or better locators",
            })
          : success(width / narrowing),
    };
  });
}

/**
 * How much narrower the locators may stand, as a factor: the largest at which the error is not above what is wanted; undefined where there is
 * none. A worst case is a sum of magnitudes of terms that are linear in 1/spacing, so it rises with a growing slope: a chord from a
 * narrowing that meets the wish to one that does not cuts too early, and false position with the weight of a standing end halved
 * (the Illinois method, M. Dowell and P. Jarratt, BIT 11 (1971) 168) closes in from both sides.
 */
function mostNarrowing(excess: (narrowing: number) => number): number | undefined {
  let [low, high] = [1 / widestSpread, 1];
  let atLow = excess(low);
  if (atLow > 0) return undefined;
  let atHigh = excess(high);
  while (atHigh <= 0) {
    if (high > widestSpread) return high;
    [low, atLow, high] = [high, atHigh, 2 * high];
    atHigh = excess(high);
  }
  for (let step = 0; step < mostSteps && high - low > finest * high; step++) {
    const next = atHigh === Number.POSITIVE_INFINITY ? (low + high) / 2 : Math.max(low + ((high - low) * atLow) / (atLow - atHigh), low);
    const there = excess(next);
    if (there <= 0) {
      if (next - low <= finest * high) return next;
      [low, atLow, atHigh] = [next, there, atHigh / 2];
    } else [high, atHigh, atLow] = [next, there, atLow / 2];
  }
  return low;
}

/** Locators that are moved together, as many times as far from each other. */
interface Movable extends Pick<LocatorSpacing, "contacts" | "width"> {
  readonly by: (factor: number) => FixtureLocation;
}

/** The diamond pin, and with it its hole, moved along the line from the round one. */
function pinsApart(fixture: FixtureLocation, { round, diamond }: PinPair, factor: number): FixtureLocation {
  const from = fixture.contacts.find(({ locator }) => locator === round)?.point ?? [0, 0, 0];
  const contacts = fixture.contacts.map((contact) => {
    if (contact.locator !== diamond) return contact;
    const [x, y] = addScaled(from, factor, addScaled(contact.point, -1, from));
    return { ...contact, point: [x, y, contact.point[2]] as const };
  });
  return { ...fixture, contacts, layout: layoutOf(contacts) };
}

/** Indices of bearing contacts that only push, by the way they push; sets of one can be set nowhere else. */
function alike({ contacts, layout }: FixtureLocation): number[][] {
  const groups: number[][] = [];
  for (const i of layout.bearing) {
    const { normal, pushesOnly } = contacts[i] as LocatorContact;
    if (!pushesOnly) continue;
    const group = groups.find(([first]) => dot((contacts[first as number] as LocatorContact).normal, normal) > 1 - 1e-12);
    if (group) group.push(i);
    else groups.push([i]);
  }
  return groups.filter(({ length }) => length > 1);
}

function spread(fixture: FixtureLocation, group: readonly number[], factor: number): FixtureLocation {
  const middle = group.reduce<Vector>(
    (total, i) => addScaled(total, 1 / group.length, (fixture.contacts[i] as LocatorContact).point),
    [0, 0, 0],
  );
  const contacts = fixture.contacts.map((contact, i) =>
    group.includes(i) ? { ...contact, point: addScaled(middle, factor, addScaled(contact.point, -1, middle)) } : contact,
  );
  return { ...fixture, contacts, layout: layoutOf(contacts) };
}
