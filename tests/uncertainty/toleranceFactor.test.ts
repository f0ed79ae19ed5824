import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { normalQuantile } from "../../lib/uncertainty/special/normalQuantile.ts";
import { toleranceFactor } from "../../lib/uncertainty/toleranceFactor.ts";
import { relativeError } from "./special/specialFunctions.reference.ts";

type Factors = readonly (readonly [count: number, content: number, confidence: number, factor: number])[];
/** tests/reference/statistics.py: mpmath with 30 digits. */
const reference: { readonly toleranceOneSided: Factors; readonly toleranceTwoSided: Factors } = JSON.parse(
  readFileSync(new URL("../reference/statistics.json", import.meta.url), "utf8"),
);

it.each(reference.toleranceOneSided)(
  "toleranceFactor(%d, {content: %d, confidence: %d, sides: one}) is %d (mpmath)",
  (count, content, confidence, factor) => {
    expect(relativeError(toleranceFactor(count, { content, confidence, sides: "one" }), factor)).toBeLessThan(1e-10);
  },
);
it.each(reference.toleranceTwoSided)(
  "toleranceFactor(%d, {content: %d, confidence: %d, sides: both}) is %d (mpmath)",
  (count, content, confidence, factor) => {
    expect(relativeError(toleranceFactor(count, { content, confidence, sides: "both" }), factor)).toBeLessThan(1e-10);
  },
);
it("toleranceFactor(very many values) is the quantile of the content", () => {
  expect(toleranceFactor(1e6, { content: 0.95, confidence: 0.95, sides: "both" })).toBeCloseTo(normalQuantile(0.975), 2);
  expect(toleranceFactor(1e6, { content: 0.95, confidence: 0.95, sides: "one" })).toBeCloseTo(normalQuantile(0.95), 2);
});
it("toleranceFactor names the argument and the value it rejects", () => {
  const request = { content: 0.9, confidence: 0.95, sides: "both" } as const;
  expect(() => toleranceFactor(1, request)).toThrow("count: expected a whole number of at least 2, got 1");
  expect(() => toleranceFactor(5, { ...request, content: 0.5 })).toThrow("content: expected above 0.5 and below 1, got 0.5");
  expect(() => toleranceFactor(5, { ...request, confidence: 1 })).toThrow("confidence: expected 0.5 to below 1, got 1");
});
