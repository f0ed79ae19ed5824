import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { exchange, retyped } from "../../lib/slips/rules/typingSlip.ts";
import type { SlipFacts, WidthFact } from "../../lib/slips/slipFacts.ts";
import type { SlipAnswer } from "../../lib/slips/slipRule.ts";
import { slipRules } from "../../lib/slips/slipRules.ts";
import { slipCases } from "./slipCases.ts";

const ruleNamed = (name: string) => {
  const rule = slipRules.find((each) => each.name === name);
  if (rule === undefined) throw new Error(`no rule ${name}`);
  return rule;
};
const look = (name: string, facts: Omit<SlipFacts, "unit">, unit: "mm" | "inch" = "mm"): SlipAnswer =>
  ruleNamed(name).look({ unit, ...facts });

describe("every rule", () => {
  it("has a case of a setup without its slip and one with it", () => {
    expect(slipCases.map(({ rule }) => rule)).toEqual(slipRules.map(({ name }) => name));
  });

  it.each(slipRules.map((rule) => [rule.name, rule] as const))("%s: look({}) says what is not known", (_, rule) => {
    const answer = rule.look({ unit: "mm" });
    expect(answer).toMatchObject({ kind: "not applicable" });
    expect(answer.kind === "not applicable" && answer.because).toMatch(/\S is not known$/);
  });

  it.each(slipCases.map((each) => [each.rule, each] as const))("%s: says nothing of a setup without the slip", (name, { clean }) => {
    fc.assert(
      fc.property(clean, (facts) => {
        expect(look(name, facts)).toEqual({ kind: "nothing" });
      }),
      { numRuns: 40 },
    );
  });

  it.each(slipCases.map((each) => [each.rule, each] as const))(
    "%s: tells the slip, with evidence, what it suggests and what would decide",
    (name, { slipped }) => {
      fc.assert(
        fc.property(slipped, (facts) => {
          const answer = look(name, facts);
          expect(answer.kind).toBe("found");
          for (const { at, evidence, beyond, suggests, deciding } of answer.kind === "found" ? answer.findings : []) {
            expect(at).not.toBe("");
            expect(beyond).toBeGreaterThanOrEqual(1);
            for (const words of [evidence, suggests, deciding]) expect(words).toMatch(/^\S.*[^.\s]$/);
          }
          // What is shown in inches is the same finding.
          expect(look(name, facts, "inch").kind).toBe("found");
        }),
        { numRuns: 40 },
      );
    },
  );
});

/** The width of the plate with a sawn end, 119.874 by micrometer, with what each slip makes of it (scenario values by an independent program, r = 3). */
describe("the signature of a width in radii", () => {
  const width = (difference: number, more: Partial<WidthFact> = {}): Omit<SlipFacts, "unit"> => ({
    widths: [
      {
        at: "part.dimensions.length",
        name: "length",
        side: "outside",
        touched: 119.874 + difference,
        difference: { value: difference, standardUncertainty: 0.011158, degreesOfFreedom: Number.POSITIVE_INFINITY },
        knownBy: "its measurement",
        tool: "edge finder",
        radius: 3,
        catalogueRadius: undefined,
        faces: [
          { touch: "left", element: "left", outwards: undefined },
          { touch: "right", element: "right", outwards: undefined },
        ],
        ...more,
      },
    ],
  });
  const namesOf = (facts: Omit<SlipFacts, "unit">) =>
    slipRules.filter((rule) => rule.look({ unit: "mm", ...facts }).kind === "found").map(({ name }) => name);

  it.each([
    [-0.000667, []],
    [1.999333, ["radius not applied"]],
    [3.999333, ["sign wrong on both sides"]],
    [-2.000667, ["diameter used for the radius"]],
  ] as const)("%d radii: %j", (radii, names) => {
    expect(namesOf(width(radii * 3))).toEqual(names);
  });

  it("a diameter typed into the radius shows as -1 by itself and as -2 by the catalogue, and both tell it", () => {
    // r = 6 was worked with: 2·(6 - 3) too small.
    expect(namesOf(width(-6.002, { radius: 6 }))).toEqual(["diameter used for the radius"]);
    expect(namesOf(width(-6.002, { radius: 6, catalogueRadius: 3 }))).toEqual(["diameter used for the radius"]);
  });

  it("a radius of nothing cannot be divided by: the catalogue's tells it", () => {
    expect(namesOf(width(5.998, { radius: 0, catalogueRadius: 3 }))).toEqual(["radius not applied"]);
  });

  it("an inside width reverses every sign", () => {
    expect(namesOf(width(-6.002, { side: "inside" }))).toEqual(["radius not applied"]);
  });

  it("a width that is not known to a sixth of a radius tells nothing", () => {
    const vague = width(6, { difference: { value: 6, standardUncertainty: 0.6, degreesOfFreedom: Number.POSITIVE_INFINITY } });
    expect(ruleNamed("radius not applied").look({ unit: "mm", ...vague })).toMatchObject({ kind: "not applicable" });
  });
});

describe("typing slip", () => {
  // Two neighbouring digits exchanged change a number by 9·(a - b)·10^k: a check of bookkeeping, common practice, no source.
  it("retyped(value) with two digits exchanged differs by a multiple of 9 in the last digits, or of 99 over the point's place", () => {
    fc.assert(
      fc.property(fc.integer({ min: -999_999, max: 999_999 }), (thousandths) => {
        for (const { value, what } of retyped(thousandths / 1000, "mm"))
          if (what === exchange) expect(Math.abs(Math.round(value * 1000 - thousandths)) % 9).toBe(0);
      }),
    );
  });

  it("retyped(-412.607) holds -412.670, 412.607 and -41.2607", () => {
    const values = [...retyped(-412.607, "mm")].map(({ value }) => Number(value.toFixed(4)));
    expect(values).toEqual(expect.arrayContaining([-412.67, 412.607, -41.2607]));
  });
});
