import { failure, type Outcome, success } from "../base/outcome.ts";
import { mm } from "../base/quantity.ts";
import { type Axis, axes, indexOfAxis } from "../base/vector.ts";
import type { Operation } from "../datum/earlierWork.ts";
import { turnedZero } from "../datum/operationSetup.ts";
import type { ZeroPlace } from "../datum/strategy.ts";
import { parseLength } from "../formula/parseQuantity.ts";

/**
 * Where a zero is to be moved, from a text such as `X=bore, Y=bore, Z=0`: names of elements, or coordinates in the drawing's frame. Names may hold blanks, and
 * no commas or equals signs.
 *
 * @param before where it sits: an axis that is not named stays
 * @param unit of bare numbers
 * @param operation in which the part may lie turned
 */
export function readPlaces(
  text: string,
  before: readonly [ZeroPlace, ZeroPlace, ZeroPlace],
  unit: "mm" | "inch",
  operation?: Pick<Operation, "signs">,
): Outcome<readonly [ZeroPlace, ZeroPlace, ZeroPlace]> {
  const places = new Map<Axis, ZeroPlace>();
  for (const piece of text.split(",")) {
    const match = /^\s*([XYZ])\s*=\s*([^\s=](?:[^=]*[^\s=])?)\s*$/iu.exec(piece);
    const axis = axes.find((each) => each === match?.[1]?.toUpperCase());
    if (match === null || axis === undefined || places.has(axis))
      return failure({
        at: "",
        what: axis !== undefined && places.has(axis) ? `${axis} is named twice` : "these places are not understood",
        expected: "axes and places, such as X=bore, Y=bore, Z=0",
        got: text,
      });
    const name = match[2] as string;
    const length = parseLength(name, { unit });
    const place: ZeroPlace = length.ok ? { kind: "coordinate", value: mm(length.value.value) } : { kind: "element", element: name };
    places.set(axis, turnedZero(place, operation?.signs[indexOfAxis(axis)] ?? 1));
  }
  const [x, y, z] = axes.map((axis, i) => places.get(axis) ?? before[i as 0 | 1 | 2]) as [ZeroPlace, ZeroPlace, ZeroPlace];
  return success([x, y, z]);
}
