import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { effectiveDegreesOfFreedom } from "../../lib/uncertainty/effectiveDegreesOfFreedom.ts";
import { fitProportionalLine } from "../../lib/uncertainty/proportionalLine.ts";
import { SourceBook } from "../../lib/uncertainty/sourceBook.ts";
import { fitStraightLine, type LinePoint } from "../../lib/uncertainty/straightLine.ts";
import { certain, fromSource } from "../../lib/uncertainty/uncertain.ts";
import { uncertainLine } from "../../lib/uncertainty/uncertainLine.ts";
import { sourceOf } from "../properties/expressions.ts";

const points: readonly LinePoint[] = [
  { at: 0, value: 1 },
  { at: 1, value: 3 },
  { at: 2, value: 2 },
  { at: 5, value: 7 },
];

/** tests/reference/lines.py: exact fractions. */
const reference: { readonly lines: readonly Fitted[] } = JSON.parse(
  readFileSync(new URL("../reference/lines.json", import.meta.url), "utf8"),
);

interface Fitted {
  readonly points: readonly (readonly [at: number, value: number])[];
  readonly reference: number;
  readonly slope: number;
  readonly intercept: number;
  readonly standardUncertaintyOfSlope: number;
  readonly standardUncertaintyOfIntercept: number;
  readonly correlation: number;
  readonly residualStandardDeviation: number;
  readonly values: readonly { readonly at: number; readonly value: number; readonly standardUncertainty: number }[];
}

const naming = { id: "line", label: "the line", family: "machine" } as const;

describe("fitStraightLine(points)", () => {
  // By hand: means 2 and 3.25, Sxx = 14, Sxy = 16, slope 8/7; residuals squared 20.75 - 16²/14 = 2.4642857.
  it("has the closed forms of four points", () => {
    const line = fitStraightLine(points);
    expect(line.slope).toBeCloseTo(8 / 7, 14);
    expect(line.intercept).toBeCloseTo(3.25 - 16 / 7, 14);
    expect(line.residualStandardDeviation ** 2).toBeCloseTo((20.75 - 256 / 14) / 2, 14);
    expect(line.standardUncertaintyOfSlope).toBeCloseTo(line.residualStandardDeviation / Math.sqrt(14), 14);
    expect(line.standardUncertaintyOfIntercept).toBeCloseTo(line.residualStandardDeviation * Math.sqrt(1 / 4 + 4 / 14), 14);
    expect(line.correlation).toBeCloseTo(-2 / Math.sqrt(14) / Math.sqrt(1 / 4 + 4 / 14), 14);
  });
  it("has the digits of exact fractions, far from zero, with repeated places, in small units and with a reference far away", () => {
    for (const { points: pairs, reference: at, values: _, ...expected } of reference.lines) {
      const line = fitStraightLine(
        pairs.map(([place, value]) => ({ at: place, value })),
        at,
      );
      for (const key of Object.keys(expected) as (keyof typeof expected)[]) expect(line[key] / expected[key], key).toBeCloseTo(1, 12);
    }
  });
  it("leaves residuals that neither sum up nor follow the places", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: -1000, max: 1000 }), fc.integer({ min: -1000, max: 1000 })), { minLength: 3, maxLength: 12 }),
        (pairs) => {
          fc.pre(new Set(pairs.map(([at]) => at)).size > 1);
          const { residuals } = fitStraightLine(pairs.map(([at, value]) => ({ at, value })));
          expect(Math.abs(residuals.reduce((sum, residual) => sum + residual, 0))).toBeLessThan(1e-9);
          expect(Math.abs(residuals.reduce((sum, residual, i) => sum + residual * (pairs[i]?.[0] ?? 0), 0))).toBeLessThan(1e-6);
        },
      ),
    );
  });
  it("says the same about another reference, and about points far from zero", () => {
    const line = fitStraightLine(points);
    const there = fitStraightLine(points, 10);
    expect(there.intercept).toBeCloseTo(line.intercept + 10 * line.slope, 13);
    const far = fitStraightLine(
      points.map(({ at, value }) => ({ at: at + 2 ** 24, value: value + 2 ** 24 })),
      2 ** 24,
    );
    expect(far.slope).toBeCloseTo(line.slope, 14);
    expect(far.intercept - 2 ** 24).toBeCloseTo(line.intercept, 8);
    expect(far.residualStandardDeviation).toBeCloseTo(line.residualStandardDeviation, 14);
  });
  it("has no scatter on points of a line", () => {
    const line = fitStraightLine([0, 1, 2].map((at) => ({ at, value: 2 * at + 1 })));
    expect(line).toMatchObject({ intercept: 1, slope: 2, residualStandardDeviation: 0, standardUncertaintyOfSlope: 0 });
    expect(line.correlation).toBeLessThan(0);
  });
  it("names what it rejects", () => {
    expect(() => fitStraightLine(points.slice(2))).toThrow("points: expected at least 3, since two fix a line");
    expect(() => fitStraightLine(points.map(({ value }) => ({ at: 1, value })))).toThrow("places: expected at least two different ones");
    expect(() => fitStraightLine([...points, { at: Number.NaN, value: 1 }])).toThrow("places: expected finite numbers, got NaN");
    expect(() => fitStraightLine([...points, { at: 1, value: Number.POSITIVE_INFINITY }])).toThrow(
      "values: expected finite numbers, got Infinity",
    );
    expect(() => fitStraightLine(points, Number.NaN)).toThrow("reference: expected a finite number, got NaN");
    expect(() => fitStraightLine([...points, { at: 1, value: 1e200 }])).toThrow("values: expected numbers whose squares are finite");
  });
});

describe("fitProportionalLine(points)", () => {
  // By hand: Σ t² = 30, Σ t y = 42, Σ y² = 63.
  it("has the closed forms of four points", () => {
    const line = fitProportionalLine(points);
    expect(line.slope).toBeCloseTo(42 / 30, 14);
    expect(line.residualStandardDeviation ** 2).toBeCloseTo((63 - 42 ** 2 / 30) / 3, 14);
    expect(line.standardUncertaintyOfSlope).toBeCloseTo(line.residualStandardDeviation / Math.sqrt(30), 14);
    expect(line.degreesOfFreedom).toBe(3);
  });
  it("names what it rejects", () => {
    expect(() => fitProportionalLine(points.slice(3))).toThrow("points: expected at least 2, since one fixes the slope");
    expect(() => fitProportionalLine(points.map(({ value }) => ({ at: 0, value })))).toThrow("not all at 0");
    expect(() => fitProportionalLine([...points, { at: 0, value: Number.NaN }])).toThrow("expected finite numbers");
  });
});

describe("uncertainLine(line)", () => {
  const line = fitStraightLine(points);
  it("has value and uncertainty of exact fractions at, between and beyond the places", () => {
    for (const { points: pairs, values } of reference.lines) {
      const curve = uncertainLine(fitStraightLine(pairs.map(([at, value]) => ({ at, value }))), naming, new SourceBook());
      for (const { at, value, standardUncertainty } of values) {
        const found = budgetOf(curve.valueAt(at));
        expect(found.standardUncertainty / standardUncertainty).toBeCloseTo(1, 11);
        // In uncertainties: a value of almost nothing has no digits of its own.
        expect(Math.abs(found.value - value) / standardUncertainty).toBeLessThan(1e-9);
      }
    }
  });
  it("has n − 2 degrees of freedom wherever it is read", () => {
    const curve = uncertainLine(line, naming, new SourceBook());
    for (const at of [-3, 2, 40]) {
      const { contributions } = budgetOf(curve.valueAt(at));
      expect(effectiveDegreesOfFreedom(contributions.map(({ amount, source }) => ({ ...source, contribution: amount })))).toBeCloseTo(
        2,
        12,
      );
    }
  });
  it("adds the doubt of the place by the slope", () => {
    const curve = uncertainLine(line, naming, new SourceBook());
    const exact = budgetOf(curve.valueAt(certain(3))).standardUncertainty;
    const doubtful = budgetOf(curve.valueAt(fromSource(sourceOf("place", 3, 0.1)))).standardUncertainty;
    expect(doubtful).toBeCloseTo(Math.hypot(exact, 0.1 * line.slope), 14);
  });
  it("forgets the scatter in the difference of two values but not the slope", () => {
    const curve = uncertainLine(line, naming, new SourceBook());
    const { standardUncertainty } = budgetOf(curve.valueAt(7).minus(curve.valueAt(4)));
    expect(standardUncertainty).toBeCloseTo(3 * line.standardUncertaintyOfSlope, 14);
  });
});
