import { expect, it } from "vitest";
import { describeProblem } from "../../lib/base/outcome.ts";
import { type Budget, budgetsOf } from "../../lib/uncertainty/budget.ts";
import { correlatedSources } from "../../lib/uncertainty/correlatedSources.ts";
import { correlation } from "../../lib/uncertainty/covariance.ts";
import { type Uncertain, unary } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

// JCGM 100:2008, H.2.3, approach 1: R, X and Z from the means with their uncertainties and correlation coefficients (value from memory,
// recomputed: the inputs by numpy from the observations of table H.2, since the printed digits are too few for those of the results).
it("gum-h2-outputs, gum-h2-output-correlations: the same from the means' uncertainties and coefficients as stated", () => {
  const stated = correlatedSources(
    [sourceOf("V", 4.999, 0.0032093613), sourceOf("I", 19.661, 0.0094710084), sourceOf("phi", 1.04446, 0.00075206383)],
    [
      [1, -0.35531122, 0.85762421],
      [-0.35531122, 1, -0.64511122],
      [0.85762421, -0.64511122, 1],
    ],
  );
  if (!stated.ok) throw new Error(stated.problems.map(describeProblem).join(" "));
  const [v, i, p] = stated.value as [Uncertain, Uncertain, Uncertain];
  const Z = v.over(i.over(1000));
  const [R, X, impedance] = budgetsOf([Z.times(unary("cosine", p)), Z.times(unary("sine", p)), Z]) as [Budget, Budget, Budget];
  for (const [k, [value, u, tolerance]] of (
    [
      // u(X) is 0.29558 at full precision; the Guide prints 0.295.
      [127.732, 0.071, 0.0005],
      [219.847, 0.295, 0.001],
      [254.26, 0.236, 0.0005],
    ] as const
  ).entries()) {
    const budget = [R, X, impedance][k] as Budget;
    expect(Math.abs(budget.value - value)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(budget.standardUncertainty - u)).toBeLessThanOrEqual(tolerance);
  }
  expect(Math.abs(correlation(R, X) - -0.588)).toBeLessThanOrEqual(0.0005);
  expect(Math.abs(correlation(R, impedance) - -0.485)).toBeLessThanOrEqual(0.0005);
  expect(Math.abs(correlation(X, impedance) - 0.993)).toBeLessThanOrEqual(0.0005);
});
