import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { proposeCorrection } from "../../lib/run/proposeCorrection.ts";

const positive = fc.double({ min: 1e-6, max: 1, noNaN: true });

describe("proposeCorrection(shown, prior, factor)", () => {
  // By hand: prior 0.008, u = 0.012/√4 = 0.006, K = 64/100; -0.64 · 0.025 = -0.016; left √0.64 · 0.006 = 0.0048 = 1/√(1/0.008² + 1/0.006²).
  it("takes the share of the estimate that the prior and the scatter leave", () => {
    const correction = proposeCorrection({ estimate: 0.025, standardUncertainty: 0.006 }, 0.008);
    if (correction.verdict !== "correct") throw new Error("left alone");
    expect(correction.share).toBeCloseTo(0.64, 12);
    expect(correction.change).toBeCloseTo(-0.016, 12);
    expect(correction.left).toBeCloseTo(0.0048, 12);
    expect(correction.threshold).toBe(0.012);
  });

  it("leaves alone what is within scatter, and one part whose scatter nobody knows", () => {
    expect(proposeCorrection({ estimate: 0.0119, standardUncertainty: 0.006 }, 0.008)).toEqual({
      verdict: "leave alone",
      reason: "within scatter",
      threshold: 0.012,
    });
    expect(proposeCorrection({ estimate: 1, standardUncertainty: undefined }, 0.008).verdict).toBe("leave alone");
  });

  it("corrects all of it where nothing was known before, and never more than all", () => {
    fc.assert(
      fc.property(positive, positive, positive, (estimate, standardUncertainty, prior) => {
        const all = proposeCorrection({ estimate, standardUncertainty }, Number.POSITIVE_INFINITY, 0);
        expect(all).toMatchObject({ share: 1, change: -estimate, left: standardUncertainty });
        const some = proposeCorrection({ estimate, standardUncertainty }, prior, 0);
        if (some.verdict !== "correct") throw new Error("left alone");
        expect(some.share).toBeLessThanOrEqual(1);
        expect(some.left).toBeLessThanOrEqual(Math.min(prior, standardUncertainty) * (1 + 1e-12));
      }),
    );
  });
});
