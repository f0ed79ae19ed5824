import { once } from "../base/once.ts";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import { type ClampCheck, clampReactions, unpressed } from "../fixture/clampReactions.ts";
import { type FixtureLocation, freeProblems, locateInFixture, redundancyProblems } from "../fixture/locateInFixture.ts";
import { type LocatorSensitivity, locatingDeviations, locatorSensitivities, openPlaces } from "../fixture/locatingDeviations.ts";
import type { LocatorContact } from "../fixture/locatorContacts.ts";
import { detectionOf, type SeatCheck, seatCheck } from "../fixture/seatCheck.ts";
import { type Budget, budgetsTogether } from "../uncertainty/budget.ts";
import type { Draws } from "../uncertainty/draws.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { type Judgement, judgeStrategy } from "./judgeStrategy.ts";
import { type LocatorSpacing, locatorSpacings } from "./locatorSpacing.ts";
import { type PinPair, pinPairOf } from "./pinPair.ts";

/** What the fixture does to a part of the batch, before any touch. */
export interface FixtureEvaluation {
  readonly located: Outcome<LocatingEvaluation>;
  /** Undefined where no touches of the seat are stated. */
  readonly seat: Outcome<SeatEvaluation> | undefined;
  /** Why something that is asked of the fixture is not known, at its place. */
  readonly problems: readonly Problem[];
  /** What can be worked with and still looks wrong: free motions, redundant locators, clamps that lift, a seat that is not good. */
  readonly findings: readonly Problem[];
}

/** The part set against its locators. */
export interface LocatingEvaluation {
  readonly location: FixtureLocation;
  /** Turns about X, Y and Z, radians; undefined where nothing holds the turn. */
  readonly turns: readonly [Budget | undefined, Budget | undefined, Budget | undefined];
  /** How far each contact moves the metal on it, in the order of the location's contacts, mm. */
  readonly errors: readonly Budget[];
  /** What redundant contacts stand off the part, mm. */
  readonly gaps: readonly { readonly contact: LocatorContact; readonly repeats: readonly string[]; readonly gap: Budget }[];
  /** What locating alone does to the characteristics, as if everything else were perfect. */
  readonly judgement: Judgement;
  /** How every component of every characteristic follows the locators' errors. */
  readonly sensitivities: readonly (readonly LocatorSensitivity[])[];
  /** Coordinates that count and are not stated, taken as 0. */
  readonly openPlaces: readonly string[];
  readonly clamps: readonly ClampCheck[];
  /** Contacts onto which no clamp presses; none where no clamp is stated. */
  readonly unpressed: readonly LocatorContact[];
  /** What a round and a diamond pin leave by their clearances; undefined without one of each. */
  readonly pins: PinPair | undefined;
  /** What the wanted error asks for; none where no error is stated. Worked out when first asked for. */
  readonly spacings: readonly LocatorSpacing[];
}

export interface SeatEvaluation {
  readonly touched: readonly { readonly id: string; readonly lift: Budget }[];
  readonly pads: readonly SeatedPad[];
  /** How far the part stands higher over all pads alike: another thickness does that as well, and it is not judged. Undefined without a pad. */
  readonly common: Budget | undefined;
  readonly twist: Budget | undefined;
}

export interface SeatedPad {
  readonly pad: string;
  readonly lift: Budget;
  /** The lift beside the mean of the other pads, by which the seat is judged; undefined where there is no other pad. */
  readonly judged:
    | {
        readonly beside: Budget;
        /** Lift beside the others above which the seat is called bad, mm. */
        readonly noticedAbove: number;
        /** The thinnest chip under this pad alone that these touches find, mm. */
        readonly smallestFound: number;
      }
    | undefined;
}

/** The fixture of a setup, judged by the drawing; undefined where nothing is stated of it. */
export function judgeFixture(location: PartLocation, draws: Draws): FixtureEvaluation | undefined {
  const { fixture, unread } = location.setup;
  const hasLocators = fixture.locators.length > 0 || [...unread].some((row) => row.startsWith("fixture.locators."));
  if (!hasLocators && fixture.clamps.length === 0 && fixture.seatTouches.length === 0) return undefined;
  const found = locateInFixture(location);
  const located = found.ok ? success(judgeLocating(found.value, location, draws)) : found;
  const pads = found.ok ? found.value.contacts.filter(({ normal }) => normal[2] === 1) : [];
  const seat =
    fixture.seatTouches.length === 0 ? undefined : judgeSeat(seatCheck(fixture.seatTouches, pads, fixture.seatScatter, location.book));
  return {
    located,
    seat,
    problems: [
      ...(located.ok ? (isMissed(located.value) ? freeProblems(located.value.location) : []) : located.problems),
      ...(seat?.ok === false ? seat.problems : []),
    ],
    findings: [...(located.ok ? locatingFindings(located.value) : []), ...(seat?.ok ? seatFindings(seat.value) : [])],
  };
}

function judgeLocating(found: FixtureLocation, location: PartLocation, draws: Draws): LocatingEvaluation {
  const { setup } = location;
  const { clamps, wantedError } = setup.fixture;
  const deviations = locatingDeviations(found, location);
  const known = <T>(value: T | undefined): T[] => (value === undefined ? [] : [value]);
  const budgetOf = budgetsTogether([
    ...found.turns.flatMap(known),
    ...found.contacts.map(({ displacement }) => displacement),
    ...found.gaps.map(({ gap }) => gap),
    ...deviations.flatMap((each) => (each.ok ? each.value : [])),
  ]);
  const turn = (about: 0 | 1 | 2) => found.turns[about] && budgetOf(found.turns[about] as Uncertain);
  const checks = clampReactions(found, clamps);
  const spacings = once(() => (wantedError === undefined ? [] : locatorSpacings(found, location, wantedError)));
  return {
    location: found,
    turns: [turn(0), turn(1), turn(2)],
    errors: found.contacts.map(({ displacement }) => budgetOf(displacement)),
    gaps: found.gaps.map(({ contact, repeats, gap }) => ({ contact, repeats, gap: budgetOf(gap) })),
    judgement: judgeStrategy(setup, () => deviations, budgetOf, draws),
    sensitivities: locatorSensitivities(found, location),
    openPlaces: openPlaces(found, location),
    clamps: checks,
    pins: pinPairOf(found, location),
    unpressed: clamps.length === 0 ? [] : unpressed(found, checks),
    get spacings() {
      return spacings();
    },
  };
}

/** Whether a motion is free that moves what the drawing demands. */
function isMissed({ judgement }: LocatingEvaluation): boolean {
  return judgement.stacks.some((stack) => !stack.ok);
}

function locatingFindings(locating: LocatingEvaluation): Problem[] {
  const { location } = locating;
  return [...(isMissed(locating) ? [] : freeProblems(location)), ...redundancyProblems(location), ...clampFindings(locating)];
}

function seatFindings({ pads }: SeatEvaluation): Problem[] {
  const bad = pads.filter(({ judged }) => judged && judged.beside.value > judged.noticedAbove);
  if (bad.length === 0) return [];
  return [
    {
      at: "fixture.seatTouches",
      what: `the part stands higher above ${bad.map(({ pad }) => `"${pad}"`).join(", ")} than above the other pads, by more than the readings scatter`,
      remedy: "look for a chip or a burr",
    },
  ];
}

function clampFindings({ clamps, unpressed: loose }: LocatingEvaluation): Problem[] {
  return [
    ...clamps.flatMap(({ clamp, reactions, liftsOff }): Problem[] => {
      const at = `fixture.clamps.${clamp.id}`;
      if (reactions === undefined)
        return [
          { at, what: "this clamp pushes the part along a motion that no locator holds", remedy: "press against a locator, or add one" },
        ];
      if (liftsOff.length === 0) return [];
      const names = liftsOff.map(({ label }) => `"${label}"`).join(", ");
      return [
        {
          at,
          what: `without friction and by itself, this clamp lifts the part off ${names}`,
          expected: "a line of force that passes between the locators it presses onto",
          remedy: "press opposite the locators, at their height",
        },
      ];
    }),
    ...(loose.length > 0
      ? [{ at: "fixture.clamps", what: `no clamp presses the part onto ${loose.map(({ label }) => `"${label}"`).join(", ")}` }]
      : []),
  ];
}

function judgeSeat(check: Outcome<SeatCheck>): Outcome<SeatEvaluation> {
  if (!check.ok) return failure(...check.problems);
  const { touched, pads, common, twist } = check.value;
  const budgetOf = budgetsTogether([
    ...[...touched, ...pads].map(({ lift }) => lift),
    ...pads.flatMap(({ beside }) => beside ?? []),
    ...[common, twist].flatMap((value) => value ?? []),
  ]);
  return success({
    touched: touched.map(({ id, lift }) => ({ id, lift: budgetOf(lift) })),
    pads: pads.map(({ pad, lift, beside }) => {
      const budget = beside && budgetOf(beside);
      return { pad, lift: budgetOf(lift), judged: budget && { beside: budget, ...detectionOf(budget.standardUncertainty) } };
    }),
    common: common && budgetOf(common),
    twist: twist && budgetOf(twist),
  });
}
