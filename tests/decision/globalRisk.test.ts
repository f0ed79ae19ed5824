import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import type { Interval } from "../../lib/decision/conformance.ts";
import { type GlobalRisk, globalRisk } from "../../lib/decision/globalRisk.ts";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import type { SourceDistribution } from "../../lib/uncertainty/sourceDistribution.ts";
import { type Described, type DescribedLimits, distributionOf, intervalOf, normal } from "./distributionOf.ts";

// Many integrals a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });
const runs = { numRuns: 40 };

interface Reference extends Omit<GlobalRisk, "error"> {
  readonly name: string;
  readonly process: Described;
  readonly measuring: Described;
  readonly tolerance: DescribedLimits;
  readonly acceptance: DescribedLimits;
}

/** Double integrals of densities by scipy: tests/reference/conformity.py. */
const references: { readonly risks: readonly Reference[] } = JSON.parse(
  readFileSync(new URL("../reference/conformity.json", import.meta.url), "utf8"),
);
const chances = ["consumersRisk", "producersRisk", "conformingAccepted", "nonconformingRejected"] as const;
const one: Interval = { lower: -1, upper: 1 };

it.each(references.risks)("globalRisk($name) has the chances of the double integrals, and states its error", (reference) => {
  const { process, measuring, tolerance, acceptance } = reference;
  const found = globalRisk(distributionOf(process), distributionOf(measuring), intervalOf(tolerance), intervalOf(acceptance));
  for (const chance of chances) {
    expect(Math.abs(found[chance] - reference[chance]), chance).toBeLessThan(1e-9);
    // The references are good to some 1e-10 themselves: they make 1 together to that.
    expect(Math.abs(found[chance] - reference[chance]), chance).toBeLessThan(found.error + 2e-10);
  }
  expect(found.error).toBeLessThan(1e-8);
});

describe("where no integral is needed", () => {
  it("globalRisk(process, exact measurement) shares the process out by both intervals", () => {
    const found = globalRisk(normal(0, 1), linearDistribution(0, []), one, { lower: -0.5, upper: 2 });
    // scipy.stats.norm.cdf: Φ(2) - Φ(1), Φ(-0.5) - Φ(-1), Φ(1) - Φ(-0.5).
    expect(found.consumersRisk).toBeCloseTo(0.1359051219832778, 12);
    expect(found.producersRisk).toBeCloseTo(0.14988228479452986, 12);
    expect(found.conformingAccepted).toBeCloseTo(0.532807207342556, 12);
  });
  it("globalRisk(one value, measurement) risks what that value risks", () => {
    // scipy.stats.norm.cdf: 1 - Φ(1).
    expect(globalRisk(linearDistribution(0.9, []), normal(0, 0.1), one, one).producersRisk).toBeCloseTo(0.15865525393145707, 12);
    expect(globalRisk(linearDistribution(1.1, []), normal(0, 0.1), one, one).consumersRisk).toBeCloseTo(0.15865525393145707, 12);
  });
  it("globalRisk(one value, exact measurement) risks nothing, at a limit neither", () => {
    for (const value of [0.3, 1, 1.2]) {
      const { consumersRisk, producersRisk } = globalRisk(linearDistribution(value, []), linearDistribution(0, []), one, one);
      expect([consumersRisk, producersRisk]).toEqual([0, 0]);
    }
  });
  it("globalRisk(…) refuses reversed acceptance limits", () => {
    expect(() => globalRisk(normal(0, 1), normal(0, 1), one, { lower: 1, upper: 0 })).toThrow("expected lower <= upper");
  });
});

it("globalRisk(sums of several shapes) keeps its chances at 1 together, to the error it states", () => {
  const mixed = linearDistribution(0, [
    { coefficient: 1, distribution: { shape: "normal", standardDeviation: 0.05 } },
    { coefficient: 1, distribution: { shape: "rectangular", halfWidth: 0.1 } },
    { coefficient: 1, distribution: { shape: "scaledT", scale: 0.04, degreesOfFreedom: 4 } },
  ]);
  const found = globalRisk(normal(0.1, 0.5), mixed, one, { lower: -0.9, upper: 0.9 });
  expect(Math.abs(chances.reduce((sum, chance) => sum + found[chance], 0) - 1)).toBeLessThanOrEqual(found.error);
  expect(found.error).toBeLessThan(1e-8);
});

describe("for any process and measurement", () => {
  const size = fc.double({ min: 0.01, max: 2, noNaN: true });
  const shape: fc.Arbitrary<SourceDistribution> = fc.oneof(
    size.map((standardDeviation) => ({ shape: "normal" as const, standardDeviation })),
    size.map((halfWidth) => ({ shape: "rectangular" as const, halfWidth })),
    size.map((halfWidth) => ({ shape: "arcsine" as const, halfWidth })),
    fc
      .tuple(size, fc.integer({ min: 1, max: 30 }))
      .map(([scale, degreesOfFreedom]) => ({ shape: "scaledT" as const, scale, degreesOfFreedom })),
  );
  const mean = fc.double({ min: -1.5, max: 1.5, noNaN: true });
  const guard = fc.double({ min: -0.9, max: 0.9, noNaN: true });
  const inside = (width: number): Interval => ({ lower: -1 + width, upper: 1 - width });

  it("the four chances are from 0 to 1 and make 1 together", () => {
    fc.assert(
      fc.property(mean, shape, shape, guard, (at, made, measured, width) => {
        const process = distributionOf({ mean: at, distribution: made });
        const found = globalRisk(process, distributionOf({ mean: 0, distribution: measured }), one, inside(width));
        for (const chance of chances) {
          expect(found[chance]).toBeGreaterThanOrEqual(0);
          expect(found[chance]).toBeLessThanOrEqual(1);
        }
        expect(Math.abs(chances.reduce((sum, chance) => sum + found[chance], 0) - 1)).toBeLessThan(found.error + 1e-14);
        expect(found.error).toBeLessThan(1e-9);
        const conforming = process.chanceWithin(-1, 1);
        expect(Math.abs(found.conformingAccepted + found.producersRisk - conforming)).toBeLessThan(2 * found.error + 1e-14);
      }),
      runs,
    );
  });
  it("a wider guard band never raises the consumer's risk, nor lowers the producer's", () => {
    fc.assert(
      fc.property(mean, shape, shape, guard, guard, (at, made, measured, first, second) => {
        const [process, measuring] = [
          distributionOf({ mean: at, distribution: made }),
          distributionOf({ mean: 0, distribution: measured }),
        ];
        const narrow = globalRisk(process, measuring, one, inside(Math.min(first, second)));
        const wide = globalRisk(process, measuring, one, inside(Math.max(first, second)));
        expect(wide.consumersRisk).toBeLessThanOrEqual(narrow.consumersRisk + narrow.error + wide.error);
        expect(wide.producersRisk).toBeGreaterThanOrEqual(narrow.producersRisk - narrow.error - wide.error);
      }),
      runs,
    );
  });
  it("the mirror image has the same risks", () => {
    fc.assert(
      fc.property(mean, shape, shape, guard, (at, made, measured, width) => {
        const measuring = distributionOf({ mean: 0, distribution: measured });
        const found = globalRisk(distributionOf({ mean: at, distribution: made }), measuring, one, { lower: -1, upper: 1 - width });
        const mirrored = globalRisk(distributionOf({ mean: -at, distribution: made }), measuring, one, { lower: -1 + width, upper: 1 });
        for (const chance of chances) expect(Math.abs(found[chance] - mirrored[chance])).toBeLessThan(found.error + mirrored.error + 1e-14);
      }),
      runs,
    );
  });
});
