import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { judgementSentences } from "../../lib/record/judgementSentences.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { documentFrom, typed } from "../properties/setups.ts";

const s = 0.002;
const ofRadius = 0.003;
const ofMicrometer = 0.0015;

/** A block with a slot, all four walls touched by one probe of radius 3; the block is 80 wide by a micrometer too, the slot by touches alone. */
function block(micrometer: number) {
  const elements = [
    { id: "left", kind: "face", outward: "-X", datum: "A" },
    { id: "right", kind: "face", outward: "+X" },
    { id: "slot left", kind: "face", outward: "+X" },
    { id: "slot right", kind: "face", outward: "-X" },
  ];
  const touch = (id: string, travelling: string, reading: number) => ({
    id,
    element: id,
    travelling,
    tool: "probe",
    readings: typed(reading),
    y: "0",
  });
  return documentFrom({
    part: {
      elements,
      dimensions: [
        {
          id: "width",
          from: "left",
          to: "right",
          nominal: "80",
          tolerance: "±0.1",
          measured: typed(micrometer),
          measuredUncertainty: String(ofMicrometer),
        },
        { id: "to slot", from: "left", to: "slot left", nominal: "30", tolerance: "±0.1" },
        { id: "slot", from: "slot left", to: "slot right", nominal: "12", tolerance: "±0.1" },
      ],
    },
    tools: [{ id: "probe", kind: "touch probe", radius: "3", radiusUncertainty: String(ofRadius), scatter: String(s) }],
    touches: [
      touch("left", "+X", -103),
      touch("right", "-X", -16.996),
      touch("slot left", "-X", -66.998),
      touch("slot right", "+X", -60.999),
    ],
    strategies: [{ id: "s", touches: ["left"] }],
    chosen: "s",
  });
}

function sizesOf(micrometer: number) {
  const evaluation = evaluateSetup(block(micrometer));
  expect(evaluation.problems).toEqual([]);
  const named = (id: string) => evaluation.sizes.find((size) => size.id === id) as (typeof evaluation.sizes)[number];
  return { evaluation, width: named("width"), slot: named("slot") };
}

// By hand. Touches: W = R₂ - R₁ - 2r = 80.004 with u² = 2s² + 4u(r)²; slot S = R₄ - R₃ + 2r = 11.999. Both share r: Cov(S, W) = -4u(r)².
const ofWidth = 2 * s ** 2 + 4 * ofRadius ** 2;

describe("sizes by touches and by a micrometer", () => {
  const { evaluation, width, slot } = sizesOf(80.001);

  it("the width is the mean with inverse variances (handbook formula)", () => {
    const [byTouches, other] = [1 / ofWidth, 1 / ofMicrometer ** 2];
    expect(width.budget.value).toBeCloseTo(80.004, 9);
    expect(width.budget.standardUncertainty).toBeCloseTo(Math.sqrt(ofWidth), 9);
    expect(width.combined?.value).toBeCloseTo((80.004 * byTouches + 80.001 * other) / (byTouches + other), 9);
    expect(width.combined?.standardUncertainty).toBeCloseTo(1 / Math.sqrt(byTouches + other), 9);
  });

  it("the slot is better known too: the width tells of the probe's radius (normal conditioning, y - Cov(y, d) d / Var(d))", () => {
    const ofDifference = ofWidth + ofMicrometer ** 2;
    const together = -4 * ofRadius ** 2;
    expect(slot.budget.value).toBeCloseTo(11.999, 9);
    expect(slot.combined?.value).toBeCloseTo(11.999 - (together / ofDifference) * 0.003, 9);
    expect(slot.combined?.standardUncertainty).toBeCloseTo(Math.sqrt(ofWidth - together ** 2 / ofDifference), 9);
  });

  it("zero and this part rest on the touches alone", () => {
    const without = evaluateSetup({
      ...block(80.001),
      part: { ...block(80.001).part, dimensions: block(80.001).part.dimensions.map((each) => ({ ...each, measured: "" })) },
    });
    const zeroOf = ({ strategies: [first] }: typeof evaluation) => (first?.evaluation.ok ? first.evaluation.value.zero[0] : undefined);
    expect(zeroOf(evaluation)).toMatchObject({ ok: true, value: { value: -100 } });
    expect(evaluation.location.thisPart.ok && evaluation.location.thisPart.value.sizes[0]?.value).toBeCloseTo(0.004, 9);
    expect(without.sizes.every(({ combined }) => combined === undefined)).toBe(true);
  });

  it("sentences, text and plain data tell what both say together", () => {
    const [sentence] = judgementSentences(evaluation).filter(({ kind }) => kind === "size agrees");
    expect(sentence?.text).toContain("together they say 80.0011 mm, u 0.0015");
    expect(summaryText(evaluation)).toContain("both together");
    const sizes = plainResults(evaluation).sizes.map(({ id, combined }) => [id, combined?.standardUncertainty ?? null]);
    expect(sizes[0]).toEqual(["width", width.combined?.standardUncertainty]);
  });
});

describe("a micrometer that disagrees with the touches", () => {
  const { evaluation, width, slot } = sizesOf(79.98);

  it("is combined with nothing: the cause may lie in what the touches share", () => {
    expect(width.combined).toBeUndefined();
    expect(slot.combined).toBeUndefined();
    expect(judgementSentences(evaluation).map(({ kind }) => kind)).toContain("size disagrees");
    expect(plainResults(evaluation).sizes.every(({ combined }) => combined === null)).toBe(true);
  });
});
