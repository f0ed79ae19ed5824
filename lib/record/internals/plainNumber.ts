/** A number as JSON data: JSON has no word for what has no end, so that is a text. */
export type PlainNumber = number | "infinite" | "-infinite";

/** @throws RangeError for NaN: such a number must not be handed on */
export function plainNumber(value: number): PlainNumber {
  if (Number.isNaN(value)) throw new RangeError("value: expected a number, got NaN");
  if (Number.isFinite(value)) return value;
  return value > 0 ? "infinite" : "-infinite";
}
