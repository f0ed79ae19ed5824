import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { entryOf } from "../../lib/base/matrix.ts";
import { describeProblem } from "../../lib/base/outcome.ts";
import { type Budget, budgetOf, budgetsOf } from "../../lib/uncertainty/budget.ts";
import { correlatedSources } from "../../lib/uncertainty/correlatedSources.ts";
import { correlation, correlationsOf, covarianceMatrix, covarianceOfBudgets } from "../../lib/uncertainty/covariance.ts";
import { Draws } from "../../lib/uncertainty/draws.ts";
import { effectiveDegreesOfFreedom } from "../../lib/uncertainty/effectiveDegreesOfFreedom.ts";
import type { Source } from "../../lib/uncertainty/source.ts";
import { scaleOf } from "../../lib/uncertainty/sourceDistribution.ts";
import { Tape } from "../../lib/uncertainty/tape.ts";
import { sum, type Uncertain } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

function valuesOf(sources: readonly Source[], coefficients: readonly (readonly number[])[]): Uncertain[] {
  const values = correlatedSources(sources, coefficients);
  if (!values.ok) throw new Error(values.problems.map(describeProblem).join(" "));
  return values.value;
}

function problemsOf(sources: readonly Source[], coefficients: readonly (readonly number[])[]): string[] {
  const values = correlatedSources(sources, coefficients);
  return values.ok ? [] : values.problems.map(describeProblem);
}

const two = (r: number) => [
  [1, r],
  [r, 1],
];
const [a, b, c] = [sourceOf("a", 10, 0.3), sourceOf("b", 20, 0.4), sourceOf("c", 30, 0.5)] as const;

/** Correlation coefficients of random sums of a few common causes: of full rank with as many causes as sources, otherwise not. */
const matrices = fc.integer({ min: 2, max: 6 }).chain((size) =>
  fc.integer({ min: 1, max: size }).chain((causes) =>
    fc
      .array(fc.array(fc.integer({ min: -9, max: 9 }), { minLength: causes, maxLength: causes }), { minLength: size, maxLength: size })
      .filter((rows) => rows.every((row) => row.some((weight) => weight !== 0)))
      .map((rows) => {
        const product = (p: readonly number[], q: readonly number[]) => p.reduce((total, x, k) => total + x * (q[k] as number), 0);
        return rows.map((p, i) => rows.map((q, j) => (i === j ? 1 : clamp(product(p, q) / Math.sqrt(product(p, p) * product(q, q))))));
      }),
  ),
);

const clamp = (value: number) => Math.max(-1, Math.min(1, value));

describe("correlatedSources(sources, coefficients)", () => {
  it("keeps estimates, standard uncertainties and coefficients", () => {
    fc.assert(
      fc.property(matrices, (coefficients) => {
        const sources = coefficients.map((_, i) => sourceOf(`x${i}`, i, 0.5 + i));
        const budgets = budgetsOf(valuesOf(sources, coefficients));
        budgets.forEach(({ value, standardUncertainty }, i) => {
          expect(value).toBe(i);
          expect(standardUncertainty / (0.5 + i)).toBeCloseTo(1, 10);
          correlationsOf(budgets[i] as Budget, budgets).forEach((found, j) => {
            expect(Math.abs(found - (coefficients[i]?.[j] as number))).toBeLessThanOrEqual(1e-9);
          });
        });
      }),
      { numRuns: 200 },
    );
  });

  // JCGM 100:2008, 5.2.2, equation 16: u² = ΣΣ cᵢ cⱼ uᵢ uⱼ rᵢⱼ.
  it("gives every sum the variance of equation 16, and a covariance that is symmetric and positive semidefinite", () => {
    fc.assert(
      fc.property(matrices, fc.array(fc.integer({ min: -5, max: 5 }), { minLength: 6, maxLength: 6 }), (coefficients, weights) => {
        const uncertainties = coefficients.map((_, i) => 0.2 + i);
        const values = valuesOf(
          uncertainties.map((u, i) => sourceOf(`x${i}`, 0, u)),
          coefficients,
        );
        let variance = 0;
        let scale = 0;
        for (const [i, row] of coefficients.entries())
          for (const [j, r] of row.entries()) {
            const [ci, cj] = [(weights[i] as number) * (uncertainties[i] as number), (weights[j] as number) * (uncertainties[j] as number)];
            variance += ci * cj * r;
            if (i === j) scale += ci * cj;
          }
        const { standardUncertainty } = budgetOf(sum(values.map((value, i) => value.times(weights[i] as number))));
        expect(Math.abs(standardUncertainty ** 2 - variance)).toBeLessThanOrEqual(1e-10 * scale);
        const { rows, entries } = covarianceMatrix(budgetsOf(values));
        let form = 0;
        for (let i = 0; i < rows; i++)
          for (let j = 0; j < rows; j++) {
            expect(entries[i * rows + j]).toBe(entries[j * rows + i]);
            form += (weights[i] as number) * (weights[j] as number) * (entries[i * rows + j] as number);
          }
        expect(form).toBeGreaterThanOrEqual(-1e-12 * scale);
      }),
      { numRuns: 200 },
    );
  });

  it("doubles or cancels with coefficients of 1 and -1, for any shape", () => {
    const [p, q] = ["p", "q"].map((id): Source => ({ ...sourceOf(id, 5), distribution: { shape: "rectangular", halfWidth: 0.6 } })) as [
      Source,
      Source,
    ];
    const [alike, opposite] = [valuesOf([p, q], two(1)), valuesOf([p, q], two(-1))] as [[Uncertain, Uncertain], [Uncertain, Uncertain]];
    expect(budgetOf(alike[0].plus(alike[1])).standardUncertainty).toBeCloseTo(1.2 / Math.sqrt(3), 14);
    expect(budgetOf(alike[0].minus(alike[1]))).toMatchObject({ value: 0, standardUncertainty: 0, contributions: [] });
    expect(budgetOf(opposite[0].plus(opposite[1]))).toMatchObject({ value: 10, standardUncertainty: 0, contributions: [] });
    expect(budgetOf(opposite[0].minus(opposite[1])).contributions).toHaveLength(1);
    // One deviation: the shape stays, and with it the largest deviation, 2 · 0.6.
    expect(budgetOf(alike[0].plus(alike[1])).contributions[0]).toMatchObject({
      reach: expect.closeTo(1.2, 14),
      source: { distribution: p.distribution },
    });
  });

  // JCGM 100:2008, 5.2.2, note 2 to equation 16: with all coefficients 1, u is the sum Σ cᵢ u(xᵢ); ten resistors, 1 Ω (value from memory, recomputed).
  it("gum-5.2.2-ten-resistors: ten resistors of 1000 Ω with 100 mΩ, all coefficients 1, have 1 Ω in series", () => {
    const resistors = Array.from({ length: 10 }, (_, i) => sourceOf(`R${i}`, 1000, 0.1));
    const series = (r: number) =>
      budgetOf(
        sum(
          valuesOf(
            resistors,
            resistors.map((_, i) => resistors.map((_, j) => (i === j ? 1 : r))),
          ),
        ),
      );
    expect(series(1).value).toBe(10000);
    expect(series(1).standardUncertainty).toBeCloseTo(1, 12);
    expect(Math.abs(series(0).standardUncertainty - 0.32)).toBeLessThanOrEqual(0.005);
  });

  it("leaves a source as it is that goes with none, and one without doubt as its estimate", () => {
    const flat: Source = { ...c, distribution: { shape: "rectangular", halfWidth: 1 } };
    const exact = sourceOf("exact", 7, 0);
    const values = valuesOf(
      [a, flat, b, exact],
      [
        [1, 0, 0.5, 0],
        [0, 1, 0, 0],
        [0.5, 0, 1, 0.2],
        [0, 0, 0.2, 1],
      ],
    );
    expect(values[1]?.operation).toEqual({ kind: "source", source: flat });
    expect(values[3]).toMatchObject({ value: 7, operation: { kind: "constant" } });
    expect(valuesOf([], [])).toEqual([]);
  });

  it("keeps family, evidence and label of the source that a part comes from, and says what it is shared with or apart from", () => {
    const voltage: Source = { ...a, label: "voltage", family: "machine", evidence: { kind: "certificate", note: "C 12" } };
    const current: Source = { ...b, label: "current" };
    const [, second] = valuesOf([voltage, current], two(0.6)) as [Uncertain, Uncertain];
    const { contributions } = budgetOf(second);
    // 0.8 = √(1 - 0.6²) of 0.4 is its own, 0.6 of it follows the voltage.
    expect(contributions.map(({ source: { id, label, family, evidence }, amount }) => ({ id, label, family, evidence, amount }))).toEqual([
      { id: "b", label: "current, apart from voltage", family: "process", evidence: { kind: "stated" }, amount: expect.closeTo(0.32, 14) },
      {
        id: "a",
        label: "voltage, shared with current",
        family: "machine",
        evidence: { kind: "certificate", note: "C 12" },
        amount: expect.closeTo(0.24, 14),
      },
    ]);
  });

  it("gives trials the same coefficient", () => {
    const values = valuesOf([a, b], two(-0.8));
    const tape = new Tape(values);
    const draws = new Draws(5, 20000);
    const columns = tape.sources.map((source) => draws.unitColumn(source).map((x) => source.estimate + scaleOf(source.distribution) * x));
    const [x, y] = tape.evaluate(columns, 20000) as [Float64Array, Float64Array];
    const moment = (p: Float64Array, q: Float64Array) =>
      p.reduce((total, value, i) => total + (value - (p === x ? 10 : 20)) * ((q[i] as number) - (q === x ? 10 : 20)), 0);
    // The standard error of a coefficient is (1 - r²)/√n = 0.0025.
    expect(Math.abs(moment(x, y) / Math.sqrt(moment(x, x) * moment(y, y)) + 0.8)).toBeLessThanOrEqual(0.01);
  });

  // Any linear combination of means observed together is a mean itself: Student's t with n - 1 degrees of freedom, not more (JCGM 100:2008, 4.2.3 and G.3.2).
  it("gives sums of quantities observed together the degrees of freedom of the observations", () => {
    const [p, q] = ["p", "q"].map(
      (id): Source => ({
        ...sourceOf(id, 0),
        degreesOfFreedom: 4,
        distribution: { shape: "scaledT", scale: 1, degreesOfFreedom: 4 },
      }),
    ) as [Source, Source];
    const [x, y] = valuesOf([p, q], two(0.3)) as [Uncertain, Uncertain];
    for (const combined of [x.plus(y), x.minus(y.times(3)), y]) {
      const parts = budgetOf(combined).contributions.map(({ amount, source: { degreesOfFreedom, varianceEstimate } }) => ({
        contribution: amount,
        degreesOfFreedom,
        varianceEstimate,
      }));
      expect(effectiveDegreesOfFreedom(parts)).toBeCloseTo(4, 10);
    }
  });

  it("names sources that contradict each other, and what a coefficient could be given the others", () => {
    const [problem, ...more] = problemsOf(
      [a, b, c],
      [
        [1, 0.9, -0.9],
        [0.9, 1, 0.9],
        [-0.9, 0.9, 1],
      ],
    );
    expect(more).toEqual([]);
    // Eigenvalue of the matrix: 1 - 2 · 0.9. Range: 0.81 ± (1 - 0.81).
    expect(problem).toBe(
      'coefficients: no quantities can be correlated like this: some sum of "a", "b", "c" would have a variance below zero; given the others, -1 to -0.62 in place of 0.9 for "a" and "b", or 0.62 to 1 in place of -0.9 for "a" and "c", or -1 to -0.62 in place of 0.9 for "b" and "c" would be possible; expected no eigenvalue below 0, got "-0.8". Correct the coefficients of these sources; ones given to few digits may need another digit.',
    );
  });

  it("leaves sources out of the blame that have no part in it", () => {
    const sources = [a, b, c, sourceOf("d", 0, 1)];
    const [problem = ""] = problemsOf(sources, [
      [1, 0.1, 0, 0],
      [0.1, 1, 1, 0.5],
      [0, 1, 1, 0.8],
      [0, 0.5, 0.8, 1],
    ]);
    expect(problem).toContain('some sum of "b", "c", "d"');
  });

  it("refuses coefficients that are none: size, diagonal, symmetry, range", () => {
    expect(problemsOf([a, b], [[1]])).toEqual([
      'coefficients: 2 sources need as many rows and columns of coefficients; expected 2 x 2, got "rows of 1". State one coefficient for every two sources, and 1 for each with itself.',
    ]);
    const wrong: readonly (readonly [number[][], string])[] = [
      [
        [
          [0.9, 0],
          [0, 1],
        ],
        'coefficients: the coefficient of "a" with itself is 1; expected 1, got "0.9". Put 1 on the diagonal.',
      ],
      [
        [
          [1, 0.2],
          [0.3, 1],
        ],
        'coefficients: the coefficient of "a" and "b" is stated twice, differently; expected the same number in both places, got "0.2 and 0.3". State it once more.',
      ],
      [
        two(1.2),
        'coefficients: the coefficient of "a" and "b" is no correlation coefficient; expected from -1 to 1, got "1.2". Correct it.',
      ],
      [
        two(Number.NaN),
        'coefficients: the coefficient of "a" and "b" is no correlation coefficient; expected from -1 to 1, got "NaN". Correct it.',
      ],
    ];
    for (const [coefficients, text] of wrong) expect(problemsOf([a, b], coefficients)).toEqual([text]);
  });

  it("refuses shapes, degrees of freedom and ids that leave the joint distribution open", () => {
    const flat = (id: string): Source => ({ ...sourceOf(id, 0), distribution: { shape: "rectangular", halfWidth: 1 } });
    expect(problemsOf([a, flat("flat")], two(0.5))[0]).toContain('"a", "flat" are correlated but differ in shape');
    expect(problemsOf([flat("p"), flat("q")], two(0.5))[0]).toContain(
      '"p", "q" are correlated in part, and a coefficient does not determine',
    );
    expect(problemsOf([a, { ...b, degreesOfFreedom: 4 }], two(0.5))[0]).toContain(
      '"a", "b" are correlated but do not rest on the same observations',
    );
    expect(problemsOf([a, { ...a }], two(0.5))).toContain(
      'sources: two sources carry the id "a"; expected different ids, got "a". Rename one.',
    );
    expect(() => correlatedSources([sourceOf("a", 0, -1)], [[1]])).toThrow("standardDeviation: expected finite and >= 0, got -1");
  });
});

describe("covarianceOfBudgets(a, b)", () => {
  it("meets sources of two computations by their ids", () => {
    const [x, y] = valuesOf([a, b], two(0.5)) as [Uncertain, Uncertain];
    const together = covarianceMatrix(budgetsOf([x, y.times(2)]));
    expect(covarianceOfBudgets(budgetOf(x), budgetOf(y.times(2)))).toBeCloseTo(entryOf(together, 0, 1), 15);
    expect(covarianceOfBudgets(budgetOf(x), budgetOf(y.times(2)))).toBeCloseTo(2 * 0.5 * 0.3 * 0.4, 14);
    expect(correlation(budgetOf(x), budgetOf(x.minus(x)))).toBe(0);
  });
});
