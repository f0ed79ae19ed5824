import { readFileSync } from "node:fs";

/** Values of tests/reference/specialFunctions.py: mpmath with 40 digits, quantiles by scipy. */
export interface SpecialReference {
  readonly sineIntegral: readonly [x: number, value: number][];
  readonly normalTail: readonly [z: number, tail: number][];
  readonly normalQuantile: readonly [p: number, z: number][];
  readonly studentTail: readonly [t: number, degreesOfFreedom: number, tail: number][];
  readonly studentQuantile: readonly [p: number, degreesOfFreedom: number, t: number][];
  readonly studentFarQuantile: readonly [p: number, degreesOfFreedom: number, t: number][];
  readonly chiSquare: readonly [x: number, degreesOfFreedom: number, lower: number, upper: number][];
  readonly chiSquareQuantile: readonly [p: number, degreesOfFreedom: number, x: number][];
  readonly fisherTail: readonly [x: number, numerator: number, denominator: number, tail: number][];
  readonly logGamma: readonly [x: number, value: number][];
  readonly studentCharacteristic: readonly [degreesOfFreedom: number, s: number, value: number][];
}

export const specialReference: SpecialReference = JSON.parse(
  readFileSync(new URL("../../reference/specialFunctions.json", import.meta.url), "utf8"),
);

/** |got / expected - 1|; values too small for a normal double are taken as equal. */
export function relativeError(got: number, expected: number): number {
  if (Math.abs(expected) < 1e-300) return Math.abs(got) < 1e-290 ? 0 : Number.POSITIVE_INFINITY;
  return Math.abs(got / expected - 1);
}
