import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { entryOf } from "../../lib/base/matrix.ts";
import { describeProblem } from "../../lib/base/outcome.ts";
import { budgetOf, budgetsOf } from "../../lib/uncertainty/budget.ts";
import { effectiveDegreesOfFreedom } from "../../lib/uncertainty/effectiveDegreesOfFreedom.ts";
import { summariseRepeats } from "../../lib/uncertainty/repeats.ts";
import { type SimultaneousMeans, simultaneousReadings } from "../../lib/uncertainty/simultaneousReadings.ts";
import { sum } from "../../lib/uncertainty/uncertain.ts";

const quantitiesOf = (readings: readonly (readonly number[])[], names = "ABCDEFGH") =>
  readings.map((values, k) => ({ id: names[k] ?? "", label: names[k] ?? "", family: "process" as const, readings: values }));

function together(readings: readonly (readonly number[])[]): SimultaneousMeans {
  const outcome = simultaneousReadings(quantitiesOf(readings));
  if (!outcome.ok) throw new Error(outcome.problems.map(describeProblem).join(" "));
  return outcome.value;
}

describe("simultaneousReadings(quantities)", () => {
  // The mean of a combination is the combination of the means, and so is its s/√n: the Type A evaluation of the combination itself.
  it("gives every sum of the means the scatter of the sums, with n − 1 degrees of freedom, also of more quantities than sets", () => {
    const numbers = fc.integer({ min: -50, max: 50 });
    const table = fc
      .tuple(fc.integer({ min: 2, max: 6 }), fc.integer({ min: 1, max: 6 }))
      .chain(([sets, quantities]) =>
        fc.tuple(
          fc.array(fc.array(numbers, { minLength: sets, maxLength: sets }), { minLength: quantities, maxLength: quantities }),
          fc.array(numbers, { minLength: quantities, maxLength: quantities }),
        ),
      );
    fc.assert(
      fc.property(table, ([readings, factors]) => {
        const { means, count } = together(readings);
        const combined = sum(means.map((mean, k) => mean.times(factors[k] as number)));
        const { value, standardUncertainty, contributions } = budgetOf(combined);
        const direct = summariseRepeats(
          Array.from({ length: count }, (_, set) =>
            readings.reduce((total, values, k) => total + (factors[k] as number) * (values[set] as number), 0),
          ),
        );
        expect(value).toBeCloseTo(direct.mean, 9);
        // Squares, since what cancels leaves the square root of a rounding.
        expect(standardUncertainty ** 2).toBeCloseTo((direct.standardUncertaintyOfMean ?? 0) ** 2, 6);
        if (standardUncertainty > 1e-3) {
          const degrees = effectiveDegreesOfFreedom(contributions.map(({ amount, source }) => ({ ...source, contribution: amount })));
          expect(degrees).toBeCloseTo(count - 1, 9);
        }
      }),
      { numRuns: 200 },
    );
  });
  it("makes one source of two quantities that go together perfectly, so that their difference is exact", () => {
    const readings = [412.607, 412.609, 412.604];
    const { means, correlations } = together([readings, readings.map((x) => 2 * x)]);
    const [a, b] = means as [(typeof means)[number], (typeof means)[number]];
    expect(entryOf(correlations, 0, 1)).toBeCloseTo(1, 12);
    expect(budgetOf(b.minus(a.times(2))).standardUncertainty).toBeLessThan(1e-12);
    expect(budgetsOf(means).flatMap(({ contributions }) => contributions)).toHaveLength(2);
  });
  it("gives a quantity that did not scatter no doubt and no correlation", () => {
    const { means, standardUncertainties, correlations } = together([
      [1, 2, 3],
      [5, 5, 5],
    ]);
    expect(standardUncertainties[1]).toBe(0);
    expect(means[1]?.value).toBe(5);
    expect(entryOf(correlations, 0, 1)).toBe(0);
    expect(budgetOf(means[1] as (typeof means)[number]).contributions).toEqual([]);
  });
  it("names what it rejects", () => {
    expect(() => simultaneousReadings([])).toThrow("quantities: expected at least one with at least two readings, got 0 readings");
    expect(() => together([[1], [2]])).toThrow("quantities: expected at least one with at least two readings, got 1 readings");
    expect(() =>
      together([
        [1, 2],
        [1, 2, 3],
      ]),
    ).toThrow("B: expected 2 readings as of the first quantity, got 3");
    expect(() => together([[1, Number.NaN]])).toThrow("A: expected finite numbers, got NaN");
    expect(() =>
      together([
        [1, 2],
        [-1e200, 1e200],
      ]),
    ).toThrow("quantities: expected readings whose squares are finite");
  });
  it("tells of two quantities with one id", () => {
    const outcome = simultaneousReadings(
      quantitiesOf(
        [
          [1, 2],
          [3, 5],
        ],
        "AA",
      ),
    );
    expect(outcome.ok).toBe(false);
  });
});
