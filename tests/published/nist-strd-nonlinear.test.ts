import { afterAll, describe, expect, it } from "vitest";
import { fitWarmUp, standardUncertaintyOf } from "../../lib/drift/warmUpCurve.ts";
import { DigitsReached, readRows } from "./nistData.ts";

// NIST StRD, Statistical Reference Datasets, nonlinear regression; the file in data/ is NIST's own, certified values in its header.
const reached = new DigitsReached();
afterAll(() => reached.print());

describe("NIST StRD, nonlinear", () => {
  // y = b1 · (1 - exp(-b2 · x)): rise b1, time constant 1 / b2, whose standard deviation is that of b2 over b2² to first order.
  it("nist-misra1a: fitWarmUp(Misra1a) has the certified parameters, their standard deviations and the residual standard deviation", () => {
    const readings = readRows("Misra1a.dat", 61).map(([value, minutes]) => ({ minutes: minutes as number, value: value as number }));
    expect(readings).toHaveLength(14);
    const curve = fitWarmUp(readings, 0);
    if (!curve.ok) throw new Error("no curve");
    const digits = (what: string, got: number, certified: number) => reached.of("Misra1a", what, got, certified);
    const rate = 5.5015643181e-4;
    expect(digits("b1", curve.value.rise, 238.94212918)).toBeGreaterThanOrEqual(10);
    expect(digits("b2", 1 / curve.value.timeConstant, rate)).toBeGreaterThanOrEqual(10);
    expect(digits("u(b1)", standardUncertaintyOf(curve.value, "rise"), 2.7070075241)).toBeGreaterThanOrEqual(9);
    expect(digits("u(b2)", standardUncertaintyOf(curve.value, "timeConstant") * rate ** 2, 7.2668688436e-6)).toBeGreaterThanOrEqual(9);
    expect(digits("s", curve.value.residualStandardDeviation, 0.1018787633)).toBeGreaterThanOrEqual(9);
    expect(curve.value.degreesOfFreedom).toBe(12);
  });
});
