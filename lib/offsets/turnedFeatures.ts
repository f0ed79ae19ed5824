import type { Outcome } from "../base/outcome.ts";
import { success } from "../base/outcome.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import type { ZeroPlace } from "../datum/strategy.ts";
import { type Budget, budgetsOf } from "../uncertainty/budget.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import { placeOnPart } from "./moveZero.ts";
import { type TurnedPart, turnedOver } from "./turnedOver.ts";

/** Where an element is after the part was turned, from the new zero, mm; undefined along axes where it has no place. */
export interface TurnedFeature {
  readonly element: string;
  readonly place: readonly [Budget | undefined, Budget | undefined, Budget | undefined];
}

/**
 * Every element of the part in the coordinates of the next operation: from the zero of this one, turned over or end for end. Sizes are as this part is known to
 * have them, and bring their doubt along.
 *
 * @param zero where the zero of this operation sits on the part
 */
export function turnedFeatures(
  zero: readonly [ZeroPlace, ZeroPlace, ZeroPlace],
  turn: TurnedPart,
  location: PartLocation,
): Outcome<readonly TurnedFeature[]> {
  if (!location.thisPart.ok) return location.thisPart;
  const { sizes } = location.thisPart.value;
  const along = (place: ZeroPlace, axis: 0 | 1 | 2): Uncertain | undefined => {
    const found = placeOnPart(place, axis, sizes, location);
    return found.ok ? found.value : undefined;
  };
  const features = location.setup.part.elements.map(({ id: element }) => {
    const known = ([0, 1, 2] as const).map((axis) => {
      const [at, from] = [along({ kind: "element", element }, axis), along(zero[axis], axis)];
      return at && from && at.minus(from);
    });
    const [x, y, z] = known.map((each) => each ?? certain(0)) as [Uncertain, Uncertain, Uncertain];
    return { element, known, place: turnedOver([x, y, z], turn) };
  });
  const budgets = budgetsOf(features.flatMap(({ place }) => place));
  return success(
    features.map(({ element, known }, i) => ({
      element,
      place: known.map((each, axis) => each && budgets[3 * i + axis]) as unknown as TurnedFeature["place"],
    })),
  );
}
