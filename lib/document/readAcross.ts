import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Axis, axes } from "../base/vector.ts";
import type { TurnedPart } from "../offsets/turnedOver.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import { newReading } from "./reading.ts";
import { RowReader } from "./rowReader.ts";

/**
 * Along which axes the zero of a turned part goes to the opposite face, and where that is from the zero, from a text such as `Z=-30 mm ± 0.01 mm`;
 * empty for none.
 *
 * @param about the axis of the turn, along which nothing changes
 */
export function readAcross(text: string, about: Axis, unit: "mm" | "inch"): Outcome<TurnedPart["across"]> {
  const row = new RowReader("across", newReading(unit));
  const sizes = new Map<Axis, Uncertain>();
  for (const piece of text.trim() === "" ? [] : text.split(/,(?=\s*[XYZ]\s*=)/iu)) {
    const match = /^\s*([XYZ])\s*=(.*)$/iu.exec(piece);
    const axis = axes.find((each) => each === match?.[1]?.toUpperCase());
    if (match === null || axis === undefined || axis === about || sizes.has(axis))
      return failure({
        at: "across",
        what: axis === about ? `nothing changes along ${about}, about which the part is turned` : "these sizes are not understood",
        expected: "an axis and where the opposite face is from the zero, such as Z=-30 mm ± 0.01 mm of a zero at the top",
        got: text,
      });
    const label = `size across ${axis}`;
    const read = row.doubtfulLength(
      axis,
      match[2] as string,
      { id: label, label, family: "part", evidence: { kind: "stated" } },
      { entry: axis, text: "" },
    );
    if (read === undefined && !row.failed)
      row.refuse(axis, { what: "where the opposite face is from the zero is missing", expected: "a length", got: piece });
    if (read !== undefined) sizes.set(axis, read.doubtful ?? certain(read.value));
  }
  if (row.failed) return failure(...row.problems);
  return success([sizes.get("X"), sizes.get("Y"), sizes.get("Z")]);
}
