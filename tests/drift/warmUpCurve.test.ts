import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { driftAt, fitWarmUp, standardUncertaintyOf, type TimedReading, type WarmUpCurve } from "../../lib/drift/warmUpCurve.ts";
import { assuredBefore, bestBefore, driftSince, warmEnoughAfter } from "../../lib/drift/zeroLife.ts";

/** Made by the law itself, with a scatter that alternates. */
function readingsOf(start: number, rise: number, timeConstant: number, scatter = 0): TimedReading[] {
  return [0, 5, 12, 20, 30, 45, 60, 90, 120, 180].map((minutes, i) => ({
    minutes,
    value: start + rise * (1 - Math.exp(-minutes / timeConstant)) + scatter * [1, -1, -1, 1, 0][i % 5]!,
  }));
}

function curveOf(readings: readonly TimedReading[], start?: number): WarmUpCurve {
  const curve = fitWarmUp(readings, start);
  if (!curve.ok) throw new Error(curve.problems.map(({ what }) => what).join());
  return curve.value;
}

const law = fc.record({
  start: fc.double({ min: -500, max: 500, noNaN: true }),
  rise: fc.double({ min: 0.01, max: 0.1, noNaN: true }).chain((size) => fc.constantFrom(size, -size)),
  timeConstant: fc.double({ min: 8, max: 90, noNaN: true }),
});

describe("fitWarmUp(readings, start)", () => {
  it("finds the law that exact readings follow, with the start stated or not", () => {
    fc.assert(
      fc.property(law, fc.boolean(), ({ start, rise, timeConstant }, stated) => {
        const found = curveOf(readingsOf(start, rise, timeConstant), stated ? start : undefined);
        expect(found.rise).toBeCloseTo(rise, 9);
        expect(Math.abs(found.timeConstant / timeConstant - 1)).toBeLessThan(1e-6);
        expect(found.start).toBeCloseTo(start, 9);
      }),
    );
  });

  it("leaves residuals that no change of an unknown makes smaller", () => {
    fc.assert(
      fc.property(law, ({ start, rise, timeConstant }) => {
        const readings = readingsOf(start, rise, timeConstant, Math.abs(rise) / 30);
        const found = curveOf(readings);
        const squares = (moved: Partial<WarmUpCurve>) => {
          const curve = { ...found, ...moved };
          return readings.reduce((total, { minutes, value }) => total + (value - curve.start - driftAt(curve, minutes)) ** 2, 0);
        };
        const least = squares({});
        for (const factor of [0.999, 1.001]) {
          expect(squares({ timeConstant: found.timeConstant * factor })).toBeGreaterThan(least);
          expect(squares({ rise: found.rise * factor })).toBeGreaterThan(least);
          expect(squares({ start: found.start + (factor - 1) * found.rise })).toBeGreaterThan(least);
        }
      }),
    );
  });

  it("does not care about the order of the readings, nor where the display has its zero", () => {
    fc.assert(
      fc.property(law, fc.integer({ min: -300, max: 300 }), ({ rise, timeConstant }, shift) => {
        const readings = readingsOf(0, rise, timeConstant, Math.abs(rise) / 30);
        const found = curveOf(readings);
        const other = curveOf(readings.map(({ minutes, value }) => ({ minutes, value: value + shift })).reverse());
        expect(other.timeConstant / found.timeConstant).toBeCloseTo(1, 6);
        expect(other.rise).toBeCloseTo(found.rise, 8);
        expect(standardUncertaintyOf(other, "rise") / standardUncertaintyOf(found, "rise")).toBeCloseTo(1, 5);
      }),
    );
  });

  it.each([
    ["a straight drift", [0, 10, 20, 30, 40].map((minutes) => ({ minutes, value: minutes * 0.001 })), "do not bend"],
    ["nothing but scatter", [0, 10, 20, 30, 40, 50].map((minutes, i) => ({ minutes, value: [0, 1, -1, 0.5, -0.5, 0][i]! })), "do not bend"],
    ["three readings", readingsOf(0, 0.03, 30).slice(0, 3), "3 readings"],
    ["one time over and over", [0, 0, 0, 0, 0].map((minutes) => ({ minutes, value: 1 })), "too few different times"],
    ["a time before the start", [-1, 5, 10, 20, 30].map((minutes) => ({ minutes, value: minutes })), "no number"],
    ["no number", [0, 5, 10, 20, Number.NaN].map((minutes) => ({ minutes, value: minutes })), "no number"],
  ])("gives no curve for %s", (_, readings, told) => {
    const curve = fitWarmUp(readings);
    expect(curve.ok).toBe(false);
    if (!curve.ok) expect(JSON.stringify(curve.problems)).toContain(told);
  });

  // 400 seeded repetitions: the share of time constants within one u of the truth, by Student's t on 7 degrees of freedom, is 65 %.
  it("tells doubts that hold", () => {
    let seed = 1;
    const uniform = () => {
      seed = (seed * 48271) % 0x7fffffff;
      return seed / 0x7fffffff;
    };
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    let within = 0;
    for (let i = 0; i < 400; i++) {
      const curve = curveOf(readingsOf(0, 0.034, 38).map(({ minutes, value }) => ({ minutes, value: value + 0.0009 * normal() })));
      if (Math.abs(curve.timeConstant - 38) < standardUncertaintyOf(curve, "timeConstant")) within++;
    }
    // Binomial, ±4 standard deviations.
    expect(within / 400).toBeGreaterThan(0.65 - 0.096);
    expect(within / 400).toBeLessThan(0.65 + 0.096);
  });
});

describe("the life of a zero", () => {
  it("ends where the drift since it was set is what is allowed, never where that much is not to come", () => {
    fc.assert(
      fc.property(
        law,
        fc.double({ min: 0, max: 100, noNaN: true }),
        fc.double({ min: 0.001, max: 0.05, noNaN: true }),
        (l, setAt, allowed) => {
          const curve = curveOf(readingsOf(0, l.rise, l.timeConstant));
          const end = bestBefore(curve, setAt, allowed);
          if (end === Number.POSITIVE_INFINITY)
            expect(Math.abs(l.rise) * Math.exp(-setAt / l.timeConstant)).toBeLessThanOrEqual(allowed * (1 + 1e-6));
          else expect(Math.abs(driftSince(curve, setAt, end).drift)).toBeCloseTo(allowed, 9);
          expect(bestBefore(curve, warmEnoughAfter(curve, allowed) + 1e-3, allowed)).toBe(Number.POSITIVE_INFINITY);
        },
      ),
    );
  });

  it("is shorter with the curve's doubt than without, and does not reach beyond the readings", () => {
    fc.assert(
      fc.property(law, fc.double({ min: 0.001, max: 0.05, noNaN: true }), (l, allowed) => {
        const curve = curveOf(readingsOf(0, l.rise, l.timeConstant, 0.0005));
        const assured = assuredBefore(curve, 0, allowed, 180);
        expect(assured).toBeLessThanOrEqual(bestBefore(curve, 0, allowed));
        if (Number.isFinite(assured)) expect(assured).toBeLessThanOrEqual(180);
      }),
    );
  });

  it("has the doubt of the drift from the derivatives of the law", () => {
    const curve = curveOf(readingsOf(0, 0.034, 38, 0.0009));
    const [rise, timeConstant] = [curve.rise, curve.timeConstant];
    const at = (r: number, t: number) => driftAt({ rise: r, timeConstant: t }, 70) - driftAt({ rise: r, timeConstant: t }, 25);
    const byRise = (at(rise + 1e-6, timeConstant) - at(rise - 1e-6, timeConstant)) / 2e-6;
    const byTime = (at(rise, timeConstant + 1e-4) - at(rise, timeConstant - 1e-4)) / 2e-4;
    const c = curve.covariance.entries as number[];
    const variance = byRise ** 2 * c[4]! + 2 * byRise * byTime * c[5]! + byTime ** 2 * c[8]!;
    expect(driftSince(curve, 25, 70).standardUncertainty).toBeCloseTo(Math.sqrt(variance), 9);
  });
});
