import type { Limits } from "../../../lib/part/part.ts";
import type { UnitWriter } from "../displayUnit.ts";

/**
 * A tolerance as it stands behind a size: ` ±0.1`, ` +0.02 0`; nothing where there is none.
 *
 * @param turn -1 for a size that is told by its length although it goes against its axis
 */
export function toleranceInWords({ lower, upper }: Limits, turn: 1 | -1, writer: UnitWriter): string {
  if (lower === upper) return "";
  if (lower === -upper) return ` ±${writer.stated(upper)}`;
  const [low, high] = turn < 0 ? [-upper, -lower] : [lower, upper];
  return ` ${writer.statedSigned(high)} ${writer.statedSigned(low)}`;
}
