import type { PartLocation } from "../datum/locatePart.ts";
import type { Locator } from "../equipment/fixture.ts";
import { turnWeightsOf } from "../fixture/layout.ts";
import type { FixtureLocation } from "../fixture/locateInFixture.ts";

/** A round and a diamond pin that hold the part between them. */
export interface PinPair {
  readonly round: string;
  readonly diamond: string;
  /** Between their axes, mm. */
  readonly distance: number;
  /** How far the middle of each hole may be from that of its pin, on the smallest pin in the largest hole: half of the clearance, mm. */
  readonly play: readonly [round: number, diamond: number];
  /** The largest turn about Z that the clearances leave to either side, radians; undefined where the part is not held against it. */
  readonly turn: number | undefined;
}

/**
 * What two pins in two holes leave by their clearances: φ = (c₁ + c₂)/L with c half of the clearance at each pin and L the distance of their axes, where the
 * diamond holds across the line to the round one (closed form of two contacts); read off the layout, so that a diamond that holds another way counts as it does.
 * Undefined without one of each.
 */
export function pinPairOf({ contacts, layout }: FixtureLocation, { setup }: Pick<PartLocation, "setup">): PinPair | undefined {
  const { locators } = setup.fixture;
  const only = (kind: Locator["kind"]) => {
    const [first, ...others] = locators.filter((locator) => locator.kind === kind);
    return others.length === 0 ? first : undefined;
  };
  const [round, diamond] = [only("round pin"), only("diamond pin")];
  if (round === undefined || diamond === undefined) return undefined;
  const pointOf = (id: string) => contacts.find(({ locator }) => locator === id)?.point;
  const [from, to] = [pointOf(round.id), pointOf(diamond.id)];
  if (from === undefined || to === undefined) return undefined;
  const weights = turnWeightsOf(layout, [0, 0, 1]);
  // The middle of a round pin's hole is anywhere in a circle: what turns the part most is its full radius along the sum of both weights.
  const of = (id: string) => Math.hypot(...layout.bearing.map((i, k) => (contacts[i]?.locator === id ? (weights?.[k] ?? 0) : 0)));
  const play = [round.clearance.loosest, diamond.clearance.loosest] as const;
  return {
    round: round.id,
    diamond: diamond.id,
    distance: Math.hypot(to[0] - from[0], to[1] - from[1]),
    play,
    turn: weights && play[0] * of(round.id) + play[1] * of(diamond.id),
  };
}
