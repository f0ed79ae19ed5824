import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
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
 * Refused is an opposite face on the side of the zero where nothing of the part is: a zero at the top has it below, at a negative coordinate.
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
    return { element, known };
  });
  const problems = ([0, 1, 2] as const).flatMap((axis) => wrongSide(axis, turn, features) ?? []);
  if (problems.length > 0) return failure(...problems);
  const places = features.map(({ known }) => {
    const [x, y, z] = known.map((each) => each ?? certain(0)) as [Uncertain, Uncertain, Uncertain];
    return turnedOver([x, y, z], turn);
  });
  const budgets = budgetsOf(places.flat());
  return success(
    features.map(({ element, known }, i) => ({
      element,
      place: known.map((each, axis) => each && budgets[3 * i + axis]) as unknown as TurnedFeature["place"],
    })),
  );
}

/** Elements that are as good as level with the zero are at neither side, mm. */
const level = 1e-6;

function wrongSide(
  axis: 0 | 1 | 2,
  { across }: TurnedPart,
  features: readonly { readonly element: string; readonly known: readonly (Uncertain | undefined)[] }[],
): Problem | undefined {
  const size = across[axis]?.value;
  if (size === undefined) return undefined;
  const placed = features.flatMap(({ element, known }) => {
    const at = known[axis]?.value;
    return at === undefined || Math.abs(at) <= level ? [] : [{ element, isThere: at * size > 0 }];
  });
  const [other] = placed;
  if (other === undefined || placed.some(({ isThere }) => isThere)) return undefined;
  const name = axes[axis];
  return {
    at: "across",
    what: `along ${name} the part lies at the ${size > 0 ? "negative" : "positive"} side of its zero, as "${other.element}" does, and so does its opposite face`,
    remedy: `state where that face is from the zero, with its sign: ${size > 0 ? "negative" : "positive"}`,
  };
}
