import { entryOf, type Matrix, matrixOf } from "../base/matrix.ts";
import type { Budget } from "./budget.ts";
import { standardUncertaintyOf } from "./sourceDistribution.ts";

/**
 * Covariance of two results from what they share: Σ cₐ c_b u² over the independent sources (JCGM 100:2008, F.1.2.3), in the
 * product of both units. Results of one computation share their list of sources; those of two computations meet by the sources' ids.
 */
export function covarianceOfBudgets(a: Budget, b: Budget): number {
  let covariance = 0;
  if (a.sources === b.sources) {
    for (let i = 0; i < a.sources.length; i++) covariance += product(a, i, b, i);
    return covariance;
  }
  const places = new Map(b.sources.map(({ id }, j) => [id, j]));
  for (let i = 0; i < a.sources.length; i++) {
    const j = places.get((a.sources[i] as Budget["sources"][number]).id);
    if (j !== undefined) covariance += product(a, i, b, j);
  }
  return covariance;
}

/** What one source gives to both. */
function product(a: Budget, i: number, b: Budget, j: number): number {
  const sensitivities = (a.sensitivities[i] as number) * (b.sensitivities[j] as number);
  if (sensitivities === 0) return 0;
  return sensitivities * standardUncertaintyOf((a.sources[i] as Budget["sources"][number]).distribution) ** 2;
}

/** Covariance matrix of several results, in their order: symmetric and positive semidefinite by construction (J V Jᵀ, JCGM 102:2011, 6.2.1.3). */
export function covarianceMatrix(budgets: readonly Budget[]): Matrix {
  const upper = matrixOf(budgets.length, budgets.length, (i, j) =>
    j < i ? 0 : covarianceOfBudgets(budgets[i] as Budget, budgets[j] as Budget),
  );
  return matrixOf(budgets.length, budgets.length, (i, j) => entryOf(upper, Math.min(i, j), Math.max(i, j)));
}

/**
 * Correlation coefficient of two results, from -1 to 1 (JCGM 100:2008, 5.2.2, equation 14); 0 where one of them is exact: two results of
 * which one is exact do not go together.
 */
export function correlation(a: Budget, b: Budget): number {
  const together = a.standardUncertainty * b.standardUncertainty;
  // Rounding may leave a little more than 1 where both follow one source.
  return together > 0 ? Math.max(-1, Math.min(1, covarianceOfBudgets(a, b) / together)) : 0;
}

/** Correlation coefficients of a result with others, in their order. */
export function correlationsOf(result: Budget, others: readonly Budget[]): number[] {
  return others.map((other) => correlation(result, other));
}
