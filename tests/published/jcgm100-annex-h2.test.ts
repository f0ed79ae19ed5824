import { describe, expect, it } from "vitest";
import { entryOf } from "../../lib/base/matrix.ts";
import { describeProblem } from "../../lib/base/outcome.ts";
import { type Budget, budgetsOf } from "../../lib/uncertainty/budget.ts";
import { correlation } from "../../lib/uncertainty/covariance.ts";
import { effectiveDegreesOfFreedom } from "../../lib/uncertainty/effectiveDegreesOfFreedom.ts";
import { summariseRepeats } from "../../lib/uncertainty/repeats.ts";
import { type SimultaneousMeans, simultaneousReadings } from "../../lib/uncertainty/simultaneousReadings.ts";
import { type Uncertain, unary } from "../../lib/uncertainty/uncertain.ts";

// JCGM 100:2008, annex H.2: resistance, reactance and impedance from five simultaneous observations (value from memory, recomputed).
const V = [5.007, 4.994, 5.005, 4.99, 4.999];
const I = [19.663, 19.639, 19.64, 19.685, 19.678];
const phi = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];

function readTogether(names: readonly string[], readings: readonly (readonly number[])[]): SimultaneousMeans {
  const outcome = simultaneousReadings(
    readings.map((values, k) => ({ id: names[k] ?? "", label: names[k] ?? "", family: "process", readings: values })),
  );
  if (!outcome.ok) throw new Error(outcome.problems.map(describeProblem).join(" "));
  return outcome.value;
}

const { means, standardUncertainties, correlations, degreesOfFreedom } = readTogether(["voltage", "current", "phase"], [V, I, phi]);
const [voltage, current, phase] = means as [Uncertain, Uncertain, Uncertain];
const impedance = voltage.over(current.over(1000));
const resistance = impedance.times(unary("cosine", phase));
const reactance = impedance.times(unary("sine", phase));

describe("JCGM 100, H.2", () => {
  it("gum-h2-means: means, their uncertainties and correlations are those of table H.2", () => {
    const budgets = budgetsOf(means);
    for (const [k, [mean, decimals, u, tolerance]] of (
      [
        [4.999, 4, 0.0032, 5e-5],
        [19.661, 4, 0.0095, 5.1e-5],
        [1.04446, 5, 0.00075, 5.1e-6],
      ] as const
    ).entries()) {
      expect(budgets[k]?.value).toBeCloseTo(mean, decimals);
      expect(Math.abs((budgets[k]?.standardUncertainty ?? 0) - u)).toBeLessThanOrEqual(tolerance);
      expect(standardUncertainties[k]).toBeCloseTo(budgets[k]?.standardUncertainty ?? 0, 14);
    }
    for (const [i, j, r] of [
      [0, 1, -0.36],
      [0, 2, 0.86],
      [1, 2, -0.65],
    ] as const) {
      expect(Math.abs(entryOf(correlations, i, j) - r)).toBeLessThanOrEqual(0.0051);
      expect(correlation(budgets[i] as Budget, budgets[j] as Budget)).toBeCloseTo(entryOf(correlations, i, j), 12);
    }
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
    const [R, X, Z] = budgetsOf([resistance, reactance, impedance]) as [Budget, Budget, Budget];
    expect(Math.abs(correlation(R, X) - -0.588)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(correlation(R, Z) - -0.485)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(correlation(X, Z) - 0.993)).toBeLessThanOrEqual(0.0005);
  });

  it("H.2: every result has the four degrees of freedom of five sets", () => {
    expect(degreesOfFreedom).toBe(4);
    for (const { contributions } of budgetsOf([resistance, reactance, impedance])) {
      const independent = contributions.map(({ amount, source }) => ({ ...source, contribution: amount }));
      expect(effectiveDegreesOfFreedom(independent)).toBeCloseTo(4, 12);
    }
  });

  // H.2.4, approach 2: each set gives its own R, X and Z, whose means are taken (table H.4).
  it("gum-h2-approach2: R, X and Z of each set, their means, uncertainties and correlations are those of table H.4", () => {
    const Z = V.map((volts, k) => volts / ((I[k] as number) / 1000));
    const R = Z.map((ohms, k) => ohms * Math.cos(phi[k] as number));
    const X = Z.map((ohms, k) => ohms * Math.sin(phi[k] as number));
    const table: readonly (readonly [found: readonly number[], printed: readonly number[]])[] = [
      [R, [127.67, 127.89, 127.51, 127.71, 127.88]],
      [X, [220.32, 219.79, 220.64, 218.97, 219.51]],
      [Z, [254.64, 254.29, 254.84, 253.49, 254.04]],
    ];
    for (const [found, printed] of table)
      for (const [k, ohms] of printed.entries()) expect(Math.abs((found[k] as number) - ohms)).toBeLessThanOrEqual(0.0050005);
    const direct = readTogether(["R", "X", "Z"], [R, X, Z]);
    for (const [k, [mean, u]] of (
      [
        [127.732, 0.071],
        [219.847, 0.295],
        [254.26, 0.236],
      ] as const
    ).entries()) {
      expect(Math.abs((direct.means[k]?.value ?? 0) - mean)).toBeLessThanOrEqual(0.0005);
      expect(Math.abs((direct.standardUncertainties[k] ?? 0) - u)).toBeLessThanOrEqual(0.0005);
      expect(direct.standardUncertainties[k]).toBeCloseTo(summariseRepeats([R, X, Z][k] ?? []).standardUncertaintyOfMean ?? 0, 14);
    }
    for (const [i, j, r] of [
      [0, 1, -0.588],
      [0, 2, -0.485],
      [1, 2, 0.993],
    ] as const)
      expect(Math.abs(entryOf(direct.correlations, i, j) - r)).toBeLessThanOrEqual(0.0005);
  });
});
