import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { conformance } from "../../lib/decision/conformance.ts";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { type Described, type DescribedLimits, distributionOf, intervalOf, normal } from "./distributionOf.ts";

interface Reference {
  readonly name: string;
  readonly knowledge: Described;
  readonly limits: DescribedLimits;
  readonly probability: number;
  readonly below: number;
  readonly above: number;
}

/** scipy's own distribution functions: tests/reference/conformity.py. */
const references: { readonly probabilities: readonly Reference[] } = JSON.parse(
  readFileSync(new URL("../reference/conformity.json", import.meta.url), "utf8"),
);

it.each(references.probabilities)("conformance($name) has the chances of scipy", ({ knowledge, limits, probability, below, above }) => {
  const found = conformance(distributionOf(knowledge), intervalOf(limits));
  expect(Math.abs(found.probability - probability)).toBeLessThan(1e-12);
  expect(Math.abs(found.below - below)).toBeLessThan(1e-12);
  expect(Math.abs(found.above - above)).toBeLessThan(1e-12);
});

describe("without any doubt", () => {
  const exactly = (value: number) => conformance(linearDistribution(value, []), { lower: -1, upper: 1 });
  it("conformance(a point at a limit) conforms for certain", () => {
    for (const limit of [-1, 1])
      expect(exactly(limit)).toEqual({ probability: 1, below: 0, above: 0, specificConsumersRisk: 0, specificProducersRisk: 1 });
  });
  it("conformance(a point outside) conforms in no case, and says on which side", () => {
    expect(exactly(-1.001)).toMatchObject({ probability: 0, below: 1, above: 0, specificConsumersRisk: 1 });
    expect(exactly(1.001)).toMatchObject({ probability: 0, below: 0, above: 1, specificConsumersRisk: 1 });
  });
});

it("conformance(any, no limits) conforms for certain", () => {
  expect(conformance(normal(3, 2), { lower: Number.NEGATIVE_INFINITY, upper: Number.POSITIVE_INFINITY }).probability).toBe(1);
});

it("conformance(…) names the limit that it refuses", () => {
  expect(() => conformance(normal(0, 1), { lower: 1, upper: -1 })).toThrow("limits: expected lower <= upper, got 1 and -1");
  expect(() => conformance(normal(0, 1), { lower: Number.NaN, upper: 1 })).toThrow("limits.lower: expected a number or -Infinity, got NaN");
  expect(() => conformance(normal(0, 1), { lower: 0, upper: Number.NaN })).toThrow("limits.upper: expected a number or Infinity, got NaN");
});

it("conformance(any) has chances from 0 to 1 that make 1 together, and the same on the other side of the mirror", () => {
  const value = fc.double({ min: -3, max: 3, noNaN: true });
  fc.assert(
    fc.property(
      value,
      fc.oneof(fc.constant(0), fc.double({ min: 1e-9, max: 2, noNaN: true })),
      value,
      fc.double({ min: 0, max: 4, noNaN: true }),
      (mean, u, lower, width) => {
        const upper = lower + width;
        const found = conformance(normal(mean, u), { lower, upper });
        for (const chance of Object.values(found)) {
          expect(chance).toBeGreaterThanOrEqual(0);
          expect(chance).toBeLessThanOrEqual(1);
        }
        expect(Math.abs(found.below + found.probability + found.above - 1)).toBeLessThan(1e-12);
        expect(Math.abs(found.specificConsumersRisk + found.specificProducersRisk - 1)).toBeLessThan(1e-12);
        const mirrored = conformance(normal(-mean, u), { lower: -upper, upper: -lower });
        expect(Math.abs(mirrored.below - found.above)).toBeLessThan(1e-12);
        expect(Math.abs(mirrored.probability - found.probability)).toBeLessThan(1e-12);
      },
    ),
  );
});
