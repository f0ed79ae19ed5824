import { readFileSync } from "node:fs";
import { describe, expect, it, vi } from "vitest";
import { describeProblem } from "../../lib/base/outcome.ts";
import { type Budget, budgetsOf } from "../../lib/uncertainty/budget.ts";
import { correlatedSources } from "../../lib/uncertainty/correlatedSources.ts";
import { correlation, covarianceMatrix } from "../../lib/uncertainty/covariance.ts";
import { ellipticalRegion, rectangularRegion } from "../../lib/uncertainty/coverageRegion.ts";
import { Draws } from "../../lib/uncertainty/draws.ts";
import { simultaneousReadings } from "../../lib/uncertainty/simultaneousReadings.ts";
import { scaleOf } from "../../lib/uncertainty/sourceDistribution.ts";
import { Tape } from "../../lib/uncertainty/tape.ts";
import { binary, type Uncertain, unary } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

// Many evaluations a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

interface Transformation {
  readonly x1: number;
  readonly correlation: number;
  readonly amplitude: readonly [mean: number, u: number];
  readonly phase: readonly [mean: number, u: number];
  readonly together: number;
}

/** tests/reference/coordinateTransformation.py (scipy). */
const reference: {
  readonly transformation: readonly Transformation[];
  readonly impedance: { readonly ellipse: number; readonly square: number };
} = JSON.parse(readFileSync(new URL("../reference/coordinateTransformation.json", import.meta.url), "utf8"));

// JCGM 102:2011, 9.3: amplitude and phase of X1 + i X2, both with u = 0.01, X2 about 0 (model from memory; values by scipy; those printed, from memory,
// have three decimals).
describe("JCGM 102, 9.3, transformation of coordinates", () => {
  function polar(x1: number, r: number): readonly [amplitude: Uncertain, phase: Uncertain] {
    const made = correlatedSources(
      [sourceOf("real", x1, 0.01), sourceOf("imaginary", 0, 0.01)],
      [
        [1, r],
        [r, 1],
      ],
    );
    if (!made.ok) throw new Error(made.problems.map(describeProblem).join(" "));
    const [real, imaginary] = made.value as [Uncertain, Uncertain];
    return [binary("hypotenuse", real, imaginary), binary("arctangent2", imaginary, real)];
  }

  it.each([
    [0.001, 0, 0.01, 10],
    [0.01, 0, 0.01, 1],
    [0.1, 0, 0.01, 0.1],
    [0.001, 0.9, 0.01, 10],
    [0.01, 0.9, 0.01, 1],
    [0.1, 0.9, 0.01, 0.1],
  ])("s2-9.3: to first order x1 = %d and r = %d have u = %d and %d rad, correlated as the parts are", (x1, r, ofAmplitude, ofPhase) => {
    const [amplitude, phase] = budgetsOf(polar(x1, r)) as [Budget, Budget];
    expect([amplitude.value, phase.value]).toEqual([x1, 0]);
    expect(amplitude.standardUncertainty).toBeCloseTo(ofAmplitude, 12);
    expect(phase.standardUncertainty).toBeCloseTo(ofPhase, 9);
    expect(correlation(amplitude, phase)).toBeCloseTo(r, 12);
  });

  const trials = 100_000;
  it.each(reference.transformation)(
    "s2-9.3: trials with x1 = $x1 and r = $correlation have means, uncertainties and correlation of the whole model (scipy)",
    ({ x1, correlation: r, amplitude, phase, together }) => {
      const tape = new Tape(polar(x1, r));
      const draws = new Draws(102, trials);
      const columns = tape.sources.map((source) =>
        draws.unitColumn(source).map((unit) => source.estimate + scaleOf(source.distribution) * unit),
      );
      const [lengths, angles] = tape.evaluate(columns, trials) as [Float64Array, Float64Array];
      const mean = (column: Float64Array) => column.reduce((sum, value) => sum + value, 0) / trials;
      const [length, angle] = [mean(lengths), mean(angles)];
      const ofLength = Math.sqrt(mean(lengths.map((value) => (value - length) ** 2)));
      const ofAngle = Math.sqrt(mean(angles.map((value) => (value - angle) ** 2)));
      const shared = mean(lengths.map((value, k) => (value - length) * ((angles[k] as number) - angle))) / ofLength / ofAngle;
      // Five standard errors of a mean; of a standard deviation, whose kurtosis is below that of a normal but for the phase of 0.01.
      const error = 5 / Math.sqrt(trials);
      expect(Math.abs(length - amplitude[0])).toBeLessThanOrEqual(error * amplitude[1]);
      expect(Math.abs(angle - phase[0])).toBeLessThanOrEqual(error * phase[1]);
      expect(Math.abs(ofLength / amplitude[1] - 1)).toBeLessThanOrEqual(error);
      expect(Math.abs(ofAngle / phase[1] - 1)).toBeLessThanOrEqual(1.5 * error);
      expect(Math.abs(shared - together)).toBeLessThanOrEqual(1.5 * error);
    },
  );

  // Of the table: x1 = 0.001 without correlation, and with 0.9.
  it.each([
    [0, 0.013, 0.007, 0, 1.744],
    [0.9, 0.012, 0.008, -0.556, 1.599],
  ])("s2-9.3: the reference has the printed digits for x1 = 0.001 and r = %d", (r, ...printed) => {
    const found = reference.transformation.find(({ x1, correlation: coefficient }) => x1 === 0.001 && coefficient === r);
    expect([...(found?.amplitude ?? []), ...(found?.phase ?? [])].map((value) => Math.round(1000 * value) / 1000 + 0)).toEqual(printed);
  });
});

// JCGM 102:2011, 9.4: resistance and reactance from the readings of JCGM 100, H.2 (values from memory, recomputed; factors by scipy).
it("s2-9.4: resistance and reactance have the ellipse of 95 % with k = 2.45, and the square of k = 2.228 (scipy)", () => {
  const readings = {
    voltage: [5.007, 4.994, 5.005, 4.99, 4.999],
    current: [0.019663, 0.019639, 0.01964, 0.019685, 0.019678],
    phase: [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
  };
  const outcome = simultaneousReadings(
    Object.entries(readings).map(([id, each]) => ({ id, label: id, family: "process", readings: each })),
  );
  if (!outcome.ok) throw new Error(outcome.problems.map(describeProblem).join(" "));
  const [voltage, current, phase] = outcome.value.means as [Uncertain, Uncertain, Uncertain];
  const impedance = voltage.over(current);
  const parts = [impedance.times(unary("cosine", phase)), impedance.times(unary("sine", phase))];
  const covariance = covarianceMatrix(budgetsOf(parts));
  const ellipse = ellipticalRegion(covariance, 0.95);
  expect(Math.abs(ellipse.factor - 2.45)).toBeLessThanOrEqual(0.005);
  expect(ellipse.factor).toBeCloseTo(reference.impedance.ellipse, 9);
  expect(rectangularRegion(covariance, 0.95).factor).toBeCloseTo(reference.impedance.square, 6);
  // The impedance follows from both: to first order a third result with no direction of its own.
  const three = ellipticalRegion(covarianceMatrix(budgetsOf([...parts, impedance])), 0.95);
  expect(three.dimension).toBe(2);
  expect(three.factor).toBeCloseTo(reference.impedance.ellipse, 9);
});
