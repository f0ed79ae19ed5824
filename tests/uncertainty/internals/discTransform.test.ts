import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { discTransform } from "../../../lib/uncertainty/internals/discTransform.ts";

/** J1 to 30 digits by mpmath: tests/reference/besselCoefficients.py. */
const { values }: { values: readonly (readonly [x: number, j0: number, j1: number])[] } = JSON.parse(
  readFileSync(new URL("../../reference/besselJ.json", import.meta.url), "utf8"),
);

it("discTransform(x) is 2 J1(x)/x within 1e-11, in and beyond its table", () => {
  for (const [x, , j1] of values) expect(Math.abs(discTransform(x) - (x === 0 ? 1 : (2 * j1) / x)), `x = ${x}`).toBeLessThan(1e-11);
});
it("discTransform(0) is 1, and near it 1 - x²/8", () => {
  expect(discTransform(0)).toBeCloseTo(1, 12);
  for (const x of [1e-8, 1e-3]) expect(discTransform(x)).toBeCloseTo(1 - (x * x) / 8, 11);
});
it("discTransform(x) has no step where pieces of its table meet", () => {
  for (const x of [0.25, 1, 7.75, 100, 255.75, 256])
    expect(Math.abs(discTransform(x + 1e-12) - discTransform(x - 1e-12))).toBeLessThan(1e-11);
});
