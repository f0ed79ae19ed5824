import { describe, expect, it } from "vitest";
import { fitWarmUp, standardUncertaintyOf, type WarmUpCurve } from "../../lib/drift/warmUpCurve.ts";
import { bestBefore, driftSince, reZeroPlan, warmEnoughAfter } from "../../lib/drift/zeroLife.ts";

// A machine started cold; the expected values were made by an independent program (least squares of two parameters), to the digits given.
const minutes = [0, 10, 20, 35, 50, 75, 110, 150, 200];
const values = [-241.5054, -241.4989, -241.4912, -241.486, -241.4804, -241.4776, -241.4735, -241.4721, -241.4728];
const referenceAtStart = -241.506;

describe("a cold start", () => {
  it("has the rise, the time constant and their doubts", () => {
    const curve = coldStart();
    expect(curve.rise).toBeCloseTo(0.033929, 6);
    expect(curve.timeConstant).toBeCloseTo(37.708786, 5);
    expect(curve.residualStandardDeviation).toBeCloseTo(0.000762, 6);
    expect(standardUncertaintyOf(curve, "rise")).toBeCloseTo(0.000521, 6);
    expect(standardUncertaintyOf(curve, "timeConstant")).toBeCloseTo(1.775951, 5);
  });

  it.each([
    [9, 0.007204],
    [18, 0.012878],
    [36, 0.020869],
    [60, 0.027018],
    [120, 0.032521],
    [240, 0.033871],
  ])("has moved after %d minutes by %f mm", (at, moved) => {
    expect(driftSince(coldStart(), 0, at).drift).toBeCloseTo(moved, 6);
  });

  it.each([
    [0, 0.007204],
    [30, 0.003251],
    [60, 0.001467],
    [120, 0.000299],
  ])("moves in the cycle from minute %d by %f mm", (from, moved) => {
    expect(driftSince(coldStart(), from, from + 9).drift).toBeCloseTo(moved, 6);
  });

  it("has used the depth's tolerance after three parts", () => {
    const used = bestBefore(coldStart(), 0, 0.02);
    expect(used).toBeCloseTo(33.571954, 5);
    expect(Math.floor(used / 9)).toBe(3);
  });

  it("asks for its zero to be set again at these times, until one is enough", () => {
    const curve = coldStart();
    const spans = [
      { from: 0, to: 7.33829, parts: 0 },
      { from: 7.33829, to: 16.458356, parts: 1 },
      { from: 16.458356, to: 28.512643, parts: 1 },
      { from: 28.512643, to: 46.33683, parts: 1 },
      { from: 46.33683, to: 81.295445, parts: 3 },
    ];
    const plan = reZeroPlan(curve, 0.006, 9, 240);
    expect(plan.map(({ parts }) => parts)).toEqual(spans.map(({ parts }) => parts));
    plan.forEach(({ from, to }, i) => {
      expect(from).toBeCloseTo(spans[i]?.from as number, 5);
      expect(to).toBeCloseTo(spans[i]?.to as number, 5);
    });
    expect(warmEnoughAfter(curve, 0.006)).toBeCloseTo(65.330921, 5);
  });
});

function coldStart(): WarmUpCurve {
  const curve = fitWarmUp(
    minutes.map((at, i) => ({ minutes: at, value: values[i] as number })),
    referenceAtStart,
  );
  if (!curve.ok) throw new Error("no curve");
  return curve.value;
}
