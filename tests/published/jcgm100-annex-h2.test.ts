import { describe, expect, it } from "vitest";
import { budgetsOf } from "../../lib/uncertainty/budget.ts";
import { correlation } from "../../lib/uncertainty/covariance.ts";
import { fromSource, sum, type Uncertain, unary } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

// JCGM 100:2008, annex H.2: resistance, reactance and impedance from five simultaneous observations (value from memory, recomputed).
const V = [5.007, 4.994, 5.005, 4.99, 4.999];
const I = [19.663, 19.639, 19.64, 19.685, 19.678];
const phi = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];

// Means of simultaneous observations are correlated: each set of observations is one source, which moves all three means by its
// departures. With the variance 1/(n (n - 1)) of a source the covariances are those of H.2.2, Σ(x - x̄)(y - ȳ)/(n (n - 1)).
const sets = V.map((_, k) => fromSource(sourceOf(`set ${k}`, 0, 1 / Math.sqrt(V.length * (V.length - 1)))));

function meanOf(values: readonly number[]): Uncertain {
  const mean = values.reduce((total, value) => total + value, 0) / values.length;
  return sum(values.map((value, k) => (sets[k] as Uncertain).times(value - mean))).plus(mean);
}

const [voltage, current, phase] = [meanOf(V), meanOf(I), meanOf(phi)];
const impedance = voltage.over(current.over(1000));
const resistance = impedance.times(unary("cosine", phase));
const reactance = impedance.times(unary("sine", phase));

describe("JCGM 100, H.2", () => {
  it("gum-h2-means: means, their uncertainties and correlations are those of table H.2", () => {
    const [v, i, p] = budgetsOf([voltage, current, phase]);
    expect(v?.value).toBeCloseTo(4.999, 4);
    expect(i?.value).toBeCloseTo(19.661, 4);
    expect(p?.value).toBeCloseTo(1.04446, 5);
    expect(Math.abs((v?.standardUncertainty ?? 0) - 0.0032)).toBeLessThanOrEqual(5e-5);
    expect(Math.abs((i?.standardUncertainty ?? 0) - 0.0095)).toBeLessThanOrEqual(5.1e-5);
    expect(Math.abs((p?.standardUncertainty ?? 0) - 0.00075)).toBeLessThanOrEqual(5.1e-6);
    expect(Math.abs(correlation(voltage, current) - -0.36)).toBeLessThanOrEqual(0.0051);
    expect(Math.abs(correlation(voltage, phase) - 0.86)).toBeLessThanOrEqual(0.0051);
    expect(Math.abs(correlation(current, phase) - -0.65)).toBeLessThanOrEqual(0.0051);
  });

  it("gum-h2-outputs: R 127.732, X 219.847, Z 254.260 Ω with 0.071, 0.295, 0.236 (table H.3)", () => {
    const budgets = budgetsOf([resistance, reactance, impedance]);
    // u(X) is 0.29558 at full precision; the Guide prints 0.295.
    for (const [i, [value, u, tolerance]] of (
      [
        [127.732, 0.071, 0.0005],
        [219.847, 0.295, 0.001],
        [254.26, 0.236, 0.0005],
      ] as const
    ).entries()) {
      expect(Math.abs((budgets[i]?.value ?? 0) - value)).toBeLessThanOrEqual(0.0005);
      expect(Math.abs((budgets[i]?.standardUncertainty ?? 0) - u)).toBeLessThanOrEqual(tolerance);
    }
  });

  it("gum-h2-output-correlations: -0.588, -0.485 and 0.993 (table H.3)", () => {
    expect(Math.abs(correlation(resistance, reactance) - -0.588)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(correlation(resistance, impedance) - -0.485)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(correlation(reactance, impedance) - 0.993)).toBeLessThanOrEqual(0.0005);
  });
});
