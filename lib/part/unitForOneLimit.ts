import { failure, type Outcome } from "../base/outcome.ts";
import type { ParsedQuantity } from "../formula/parseQuantity.ts";

/**
 * Refuses two limits of which one has a unit of its own and the other is a bare number: in `+2 -1 arcmin` the unit may be meant for both. Zero is zero in
 * any unit.
 *
 * @param own in what a bare number is read, as it is typed
 * @returns undefined where nothing is in doubt
 */
export function unitForOneLimit(
  limits: readonly [ParsedQuantity<number>, ParsedQuantity<number>],
  own: string,
  { text, expected }: { readonly text: string; readonly expected: string },
): Outcome<never> | undefined {
  const isBare = ({ typedUnit, decimals, value }: ParsedQuantity<number>) =>
    typedUnit === undefined && decimals !== undefined && value !== 0;
  const units = limits.flatMap(({ typedUnit }) => (typedUnit === undefined ? [] : [typedUnit]));
  const [unit] = units;
  if (unit === undefined || units.length !== 1 || unit === own || !limits.some(isBare)) return undefined;
  return failure({
    at: "",
    what: `${unit} stands behind one of the two limits, and the other has no unit`,
    expected,
    got: text,
    remedy: `write ${unit} behind both if it goes for both, else ${own} behind the other`,
  });
}
