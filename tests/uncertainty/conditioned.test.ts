import { describe, expect, it } from "vitest";
import { entryOf, type Matrix, matrixOf, pseudoInverse, rankOf, singularValues, transpose } from "../../lib/base/matrix.ts";
import { budgetsOf } from "../../lib/uncertainty/budget.ts";
import { conditioned } from "../../lib/uncertainty/conditioned.ts";
import { covarianceMatrix } from "../../lib/uncertainty/covariance.ts";
import { SourceBook } from "../../lib/uncertainty/sourceBook.ts";
import { certain, sum, type Uncertain } from "../../lib/uncertainty/uncertain.ts";
import reference from "../reference/generalisedLeastSquares.json" with { type: "json" };

// Expected values: numpy's solution of the bordered system, see tests/reference/generalisedLeastSquares.py.

function unit(id: string, book: SourceBook): Uncertain {
  return book.value({
    id,
    label: id,
    family: "machine",
    distribution: { shape: "normal", standardDeviation: 1 },
    evidence: { kind: "stated" },
  });
}

function timesMatrix(a: Matrix, vector: readonly Uncertain[]): Uncertain[] {
  return Array.from({ length: a.rows }, (_, i) => sum(vector.map((value, j) => value.times(entryOf(a, i, j)))));
}

describe.each(reference.cases)("$name", ({ design, effects, observed, estimate, covariance }) => {
  const book = new SourceBook();
  const sources = (effects[0] as number[]).map((_, k) => unit(`s${k}`, book));
  const found = observed.map((value, i) =>
    sum(sources.map((source, k) => source.times((effects[i] as number[])[k] as number))).plus(certain(value)),
  );
  const columns = matrixOf(design.length, (design[0] as number[]).length, (i, j) => (design[i] as number[])[j] as number);
  const decomposition = singularValues(transpose(columns));
  const rank = rankOf(decomposition, 1e-9);
  const spare = matrixOf(design.length - rank, design.length, (k, i) => entryOf(decomposition.right, i, rank + k));
  const contrasts = timesMatrix(spare, found);

  // Whatever unbiased estimate one starts from: ordinary least squares, and least squares with arbitrary weights.
  it.each([
    ["least squares", () => 1],
    ["weights of 1, 2, 3, ...", (i: number) => 1 + i],
  ] as const)("conditioned(results of %s, contrasts) is the best linear unbiased estimate", (_, weightOf) => {
    const weighted = matrixOf(columns.rows, columns.columns, (i, j) => weightOf(i) * entryOf(columns, i, j));
    const answer = pseudoInverse(weighted, 1e-12);
    const start = timesMatrix(
      matrixOf(answer.rows, answer.columns, (i, j) => entryOf(answer, i, j) * weightOf(j)),
      found,
    );
    const best = conditioned(start, contrasts);
    expect(best).toBeDefined();
    const values = best?.values ?? [];
    values.forEach(({ value }, i) => {
      expect(value).toBeCloseTo(estimate[i] as number, 9);
    });
    const spread = covarianceMatrix(budgetsOf(values));
    // What is left where the evidence leaves no doubt is rounding of what there was before.
    const scale = Math.max(...effects.map((row) => row.reduce((total, effect) => total + effect * effect, 0)));
    covariance.flat().forEach((entry, k) => {
      expect(Math.abs((spread.entries[k] as number) - entry)).toBeLessThanOrEqual(1e-8 * scale);
    });
  });
});

describe("two findings of one length", () => {
  const book = new SourceBook();
  const finding = (id: string, value: number, standardDeviation: number) =>
    book.value({
      id,
      label: id,
      family: "machine",
      estimate: value,
      distribution: { shape: "normal", standardDeviation },
      evidence: { kind: "stated" },
    });

  it("conditioned(y, [y - z]) is the weighted mean with inverse variances (handbook formula)", () => {
    const [y, z] = [finding("y", 10.004, 0.004), finding("z", 10, 0.002)];
    const [best] = conditioned([y], [y.minus(z)])?.values ?? [];
    const [weightY, weightZ] = [1 / 0.004 ** 2, 1 / 0.002 ** 2];
    expect(best?.value).toBeCloseTo((weightY * 10.004 + weightZ * 10) / (weightY + weightZ), 12);
    expect(budgetsOf([best as Uncertain])[0]?.standardUncertainty).toBeCloseTo(1 / Math.sqrt(weightY + weightZ), 12);
  });

  it("the statistic of one difference is its square in units of its uncertainty", () => {
    const [y, z] = [finding("y2", 10.004, 0.004), finding("z2", 10, 0.003)];
    expect(conditioned([], [y.minus(z)])).toMatchObject({ rank: 1, statistic: expect.closeTo((0.004 / 0.005) ** 2, 12) });
  });

  it("what both share is in no contrast, and stays", () => {
    const shared = finding("shared", 0, 0.01);
    const [y, z] = [finding("y3", 10, 0.004).plus(shared), finding("z3", 10, 0.004).plus(shared)];
    const [best] = conditioned([y], [y.minus(z)])?.values ?? [];
    expect(budgetsOf([best as Uncertain])[0]?.standardUncertainty).toBeCloseTo(Math.hypot(0.004 / Math.SQRT2, 0.01), 12);
  });

  it("findings without doubt that differ are not combined", () => {
    expect(conditioned([certain(10)], [certain(0.1)])).toBeUndefined();
  });

  it("findings without doubt that are the same leave everything as it is", () => {
    const y = finding("y4", 10, 0.004);
    expect(conditioned([y], [certain(0)])).toMatchObject({ values: [y], rank: 0, statistic: 0 });
  });
});
