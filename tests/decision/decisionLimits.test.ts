import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { conformance, type Interval } from "../../lib/decision/conformance.ts";
import { type DecisionLimits, decisionLimits } from "../../lib/decision/decisionLimits.ts";
import { verdict } from "../../lib/decision/verdict.ts";
import { type DecisionRule, iso14253Default } from "../../lib/part/decisionRule.ts";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import type { SourceDistribution } from "../../lib/uncertainty/sourceDistribution.ts";
import { type Described, type DescribedLimits, distributionOf, intervalOf, normal } from "./distributionOf.ts";

interface Reference {
  readonly name: string;
  readonly knowledge: Described;
  readonly limits: DescribedLimits;
  readonly probability: number;
  readonly accepted: DescribedLimits;
}

/** scipy's brentq on its own distribution functions: tests/reference/conformity.py. */
const references: { readonly acceptances: readonly Reference[] } = JSON.parse(
  readFileSync(new URL("../reference/conformity.json", import.meta.url), "utf8"),
);

type Guarded = Exclude<DecisionRule["name"], "simple acceptance">;
const byProbability = (name: Guarded, probability: number): DecisionRule => ({ name, guard: { by: "probability", probability } });
const byMultiple = (name: Guarded, multiple: number, expandedUncertainty: number): DecisionRule => ({
  name,
  guard: { by: "expanded uncertainty", multiple, expandedUncertainty },
});

function made(...[rule, knowledge, limits]: Parameters<typeof decisionLimits>): DecisionLimits {
  const outcome = decisionLimits(rule, knowledge, limits);
  if (!outcome.ok) throw new Error(outcome.problems[0]?.what);
  return outcome.value;
}

const one: Interval = { lower: -1, upper: 1 };

describe("against scipy", () => {
  it.each(references.acceptances)("decisionLimits(guarded acceptance, $name) solves the chance for the measured value", (reference) => {
    const limits = intervalOf(reference.limits);
    const expected = intervalOf(reference.accepted);
    const { accepted } = made(byProbability("guarded acceptance", reference.probability), distributionOf(reference.knowledge), limits);
    for (const side of ["lower", "upper"] as const) {
      if (Number.isFinite(expected[side])) expect(Math.abs(accepted[side] - expected[side])).toBeLessThan(1e-11);
      else expect(accepted[side]).toBe(limits[side]);
    }
  });
});

describe("by rule", () => {
  it("decisionLimits(simple acceptance) are the limits, without guard bands", () => {
    expect(made({ name: "simple acceptance" }, normal(0, 0.3), one)).toEqual({
      accepted: one,
      notRejected: one,
      guardBands: { lower: 0, upper: 0 },
    });
  });
  it("decisionLimits(guarded acceptance, r U) lie r U inside", () => {
    const { accepted, notRejected, guardBands } = made(byMultiple("guarded acceptance", 0.5, 0.5), normal(0, 0.25), one);
    expect(accepted).toEqual({ lower: -0.75, upper: 0.75 });
    expect(notRejected).toEqual(accepted);
    expect(guardBands).toEqual({ lower: 0.25, upper: 0.25 });
  });
  it("decisionLimits(guarded rejection, r U) lie r U outside, with negative guard bands", () => {
    const { accepted, guardBands } = made(byMultiple("guarded rejection", 1, 0.5), normal(0, 0.25), one);
    expect(accepted).toEqual({ lower: -1.5, upper: 1.5 });
    expect(guardBands).toEqual({ lower: -0.5, upper: -0.5 });
  });
  it("decisionLimits(proof either way) leave a value between both guard bands undecided", () => {
    const limits = made(iso14253Default, normal(0, 0.1), one);
    // 1.644 853 627 from Φ(z) = 0.95 (scipy.stats.norm.ppf).
    expect(limits.accepted.upper).toBeCloseTo(1 - 0.1644853627, 9);
    expect(limits.notRejected.upper).toBeCloseTo(1 + 0.1644853627, 9);
    expect([0.8, 0.9, 1.1, 1.2, -1.2].map((value) => verdict(value, limits))).toEqual([
      "accepted",
      "neither",
      "neither",
      "rejected",
      "rejected",
    ]);
  });
  it("decisionLimits(any rule, one limit) has no acceptance limit on the other side", () => {
    const { accepted, guardBands } = made(byProbability("guarded acceptance", 0.95), normal(0, 0.1), {
      lower: -1,
      upper: Number.POSITIVE_INFINITY,
    });
    expect(accepted.upper).toBe(Number.POSITIVE_INFINITY);
    expect(guardBands.upper).toBe(0);
    expect(guardBands.lower).toBeCloseTo(0.1644853627, 9);
  });
  it("decisionLimits(any rule by probability, no doubt at all) are the limits, and a value at one is accepted", () => {
    for (const name of ["guarded acceptance", "guarded rejection", "proof either way"] as const) {
      const limits = made(byProbability(name, 0.99), linearDistribution(0.03, []), { lower: -0.1, upper: 0.1 });
      expect(limits.accepted).toEqual({ lower: -0.1, upper: 0.1 });
      expect([0.1, -0.1, 0.1000001].map((value) => verdict(value, limits))).toEqual(["accepted", "accepted", "rejected"]);
    }
  });
  it("decisionLimits(guarded rejection, a doubt far above the tolerance) still accepts what measures inside", () => {
    const { accepted } = made(byProbability("guarded rejection", 0.95), normal(0, 100), one);
    expect(accepted.lower).toBeLessThanOrEqual(-1);
    expect(accepted.upper).toBeGreaterThanOrEqual(1);
  });
});

describe("where nothing is left", () => {
  it.each([
    ["a multiple", byMultiple("guarded acceptance", 1, 1.01)],
    ["a probability", byProbability("guarded acceptance", 0.95)],
    ["both to be proven", iso14253Default],
  ])("decisionLimits(%s, too large a doubt) says that nothing could be accepted", (_, rule) => {
    expect(decisionLimits(rule, normal(0, 0.6), one)).toEqual({
      ok: false,
      problems: [
        {
          at: "",
          what: "the guard bands leave nothing between the limits that could be accepted",
          expected: "an uncertainty that is small against the tolerance",
          got: "a standard uncertainty of 0.6 within limits 2 apart",
          remedy: "measure more closely, or agree on another decision rule",
        },
      ],
    });
  });
  it("decisionLimits(an arcsine wider than the tolerance) says that what could be accepted lies in several places", () => {
    const arcsine = distributionOf({ mean: 0, distribution: { shape: "arcsine", halfWidth: 1.05 } });
    const outcome = decisionLimits(byProbability("guarded acceptance", 0.84), arcsine, one);
    expect(outcome.ok ? "" : outcome.problems[0]?.what).toContain("several places");
  });
});

describe("refusals", () => {
  it.each([
    [byProbability("guarded acceptance", 0.49), "guard.probability: expected at least 0.5 and below 1, got 0.49"],
    [byProbability("guarded acceptance", 1), "guard.probability: expected at least 0.5 and below 1, got 1"],
    [byMultiple("guarded rejection", -1, 1), "guard.multiple: expected finite and >= 0, got -1"],
    [byMultiple("guarded rejection", 1, Number.NaN), "guard.expandedUncertainty: expected finite and >= 0, got NaN"],
  ])("decisionLimits(%j) names what it refuses", (rule, message) => {
    expect(() => decisionLimits(rule, normal(0, 1), one)).toThrow(message);
  });
  it("verdict(NaN) is refused", () => {
    expect(() => verdict(Number.NaN, made({ name: "simple acceptance" }, normal(0, 1), one))).toThrow(
      "measured: expected a finite number, got NaN",
    );
  });
});

describe("for any", () => {
  const shape: fc.Arbitrary<SourceDistribution> = fc.oneof(
    fc.double({ min: 0.01, max: 0.5, noNaN: true }).map((standardDeviation) => ({ shape: "normal" as const, standardDeviation })),
    fc.double({ min: 0.01, max: 1, noNaN: true }).map((halfWidth) => ({ shape: "rectangular" as const, halfWidth })),
    fc.double({ min: 0.01, max: 1, noNaN: true }).map((halfWidth) => ({ shape: "triangular" as const, halfWidth })),
    fc
      .tuple(fc.double({ min: 0.01, max: 0.3, noNaN: true }), fc.integer({ min: 2, max: 30 }))
      .map(([scale, degreesOfFreedom]) => ({ shape: "scaledT" as const, scale, degreesOfFreedom })),
  );
  const probability = fc.double({ min: 0.5, max: 0.999, noNaN: true });
  const measured = fc.double({ min: -2, max: 2, noNaN: true });

  it("measured value the verdict of a rule by probability is that of its own conformance probability", () => {
    fc.assert(
      fc.property(shape, probability, measured, (distribution, p, value) => {
        const knowledge = distributionOf({ mean: value, distribution });
        const { probability: found } = conformance(knowledge, one);
        // Nearer than the rounding of the limits either is right.
        if (Math.abs(found - p) < 1e-9 || Math.abs(found - (1 - p)) < 1e-9) return;
        const inside = Math.abs(value) <= 1;
        const acceptance = decisionLimits(byProbability("guarded acceptance", p), knowledge, one);
        expect(acceptance.ok && verdict(value, acceptance.value) === "accepted").toBe(inside && found > p);
        const rejection = made(byProbability("guarded rejection", p), knowledge, one);
        expect(verdict(value, rejection)).toBe(inside || found > 1 - p ? "accepted" : "rejected");
      }),
    );
  });
  it("symmetric case both guard bands are equal, and wider for a larger probability", () => {
    fc.assert(
      fc.property(shape, probability, probability, (distribution, p, q) => {
        const knowledge = distributionOf({ mean: 0, distribution });
        const [low, high] = [Math.min(p, q), Math.max(p, q)].map((each) =>
          decisionLimits(byProbability("guarded acceptance", each), knowledge, one),
        );
        if (low?.ok) expect(Math.abs(low.value.guardBands.lower - low.value.guardBands.upper)).toBeLessThan(1e-9);
        if (low?.ok && high?.ok) expect(high.value.guardBands.upper).toBeGreaterThanOrEqual(low.value.guardBands.upper - 1e-9);
        if (high?.ok) expect(low?.ok).toBe(true);
      }),
    );
  });
});
