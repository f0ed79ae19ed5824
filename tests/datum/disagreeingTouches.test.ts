import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import type { Agreement } from "../../lib/frame/agreement.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { documentFrom, must } from "../properties/setups.ts";
import { boreOfFour } from "../record/boreOfFour.ts";

const probe = { id: "probe", kind: "touch probe", radius: "3", scatterFrom: "stated", scatter: "0.001" };

describe("the test of residuals", () => {
  // Four touches of a circle with a free diameter leave one residual pattern, +-+-, a quarter of the difference of the two diameters:
  // its variance is 4 · (s/4)² = s²/4. With the difference d = 0.004 the pattern is 0.001, and χ² = 4 · 0.001² / s² = 4 on one degree of
  // freedom, which R's pchisq(4, 1, lower = FALSE) gives the chance 0.04550026 (the 2σ of a normal).
  it("agreement of four touches of a bore whose diameters differ by 4 s has the chance of 2 σ", () => {
    const found = must(boreOfFour(0.004).location.thisPart).agreement as Agreement;
    expect(found.degreesOfFreedom).toBe(1);
    expect(found.statistic).toBeCloseTo(4, 2);
    expect(found.chance).toBeCloseTo(0.0455, 4);
    expect(found.worst.standardUncertainty).toBeCloseTo(0.0005, 6);
    expect(Math.abs(found.worst.residual)).toBeCloseTo(0.001, 5);
  });

  it("agreement is undefined where the touches are just enough, and a radius that all share shows in none of them", () => {
    const evaluation = boreOfFour(0.004);
    expect(evaluation.location.thisPart.ok && evaluation.location.thisPart.value.redundancy).toBeGreaterThan(0);
    const document = twoFaces("A", "B");
    const { strategies } = evaluateSetup({
      ...document,
      strategies: document.strategies.map((each) => ({ ...each, touches: ["f1", "f2", "l1"] })),
    });
    expect(must((strategies[0] as (typeof strategies)[number]).evaluation).solution.frame.agreement).toBeUndefined();
  });
});

/** Two faces, each touched at two places 100 mm apart, out of square by 0.1 mm over that. */
function twoFaces(front: string, left: string) {
  const face = (id: string, outward: string, datum: string) => ({ id, kind: "face", outward, datum });
  const touch = (id: string, element: string, travelling: string, readings: string, x: string, y: string) => ({
    id,
    element,
    travelling,
    tool: "probe",
    readings,
    x,
    y,
  });
  return documentFrom({
    part: {
      elements: [
        face("front", "-Y", front),
        face("left", "-X", left),
        { id: "hole", kind: "bore", made: "here", diameter: "8", x: "100", y: "50" },
      ],
      characteristics: [{ id: "p", kind: "position", of: "hole", tolerance: "0.2" }],
    },
    tools: [probe],
    touches: [
      touch("f1", "front", "+Y", "-3", "10", ""),
      touch("f2", "front", "+Y", "-3", "110", ""),
      touch("l1", "left", "+X", "-3", "", "10"),
      touch("l2", "left", "+X", "-2.9", "", "110"),
    ],
    strategies: [{ id: "s", touches: ["f1", "f2", "l1", "l2"], rotation: "applied", zero: { x: "left", y: "front" } }],
    chosen: "s",
  });
}

describe("the drawing's frame follows its datums in the order of their letters (ISO 5459)", () => {
  // The first letter that can turn the part turns it: the front along X, or the left face 0.1 in 100 off Y.
  it.each([
    ["A", "B", 0],
    ["B", "A", -Math.atan(0.001)],
  ])("front %s, left %s: the part is turned by %d", (front, left, turn) => {
    const { location } = evaluateSetup(twoFaces(front, left));
    expect(must(location.thisPart).rotation.value).toBeCloseTo(turn, 6);
  });

  it("of two bores 0.04 mm farther apart than drawn, the first letter places the part and the second only turns it", () => {
    const quarter = (id: string, element: string, x: number, y: number) =>
      (["+X", "-X", "+Y", "-Y"] as const).map((travelling, i) => ({
        id: `${id}${i}`,
        element,
        travelling,
        tool: "probe",
        readings: String([x + 7, x - 7, y + 7, y - 7][i]),
        x: i < 2 ? "" : String(x),
        y: i < 2 ? String(y) : "",
      }));
    const { location } = evaluateSetup(
      documentFrom({
        part: {
          elements: [
            { id: "first", kind: "bore", diameter: "20", datum: "B", x: "0", y: "0" },
            { id: "second", kind: "bore", diameter: "20", datum: "C", x: "100", y: "0" },
          ],
        },
        tools: [probe],
        touches: [...quarter("a", "first", 5, 6), ...quarter("b", "second", 105.04, 6.1)],
        strategies: [],
      }),
    );
    const { origin, rotation } = must(location.thisPart);
    expect(origin[0].value).toBeCloseTo(5, 5);
    expect(origin[1].value).toBeCloseTo(6, 5);
    expect(rotation.value).toBeCloseTo(Math.atan2(0.1, 100.04), 6);
  });
});

describe("of touches that disagree the better ones count more", () => {
  // -100.000 ± 0.001 with weight 1, -100.040 ± 0.03, thirty times worse and so ten times beyond what counts alike, with weight 1/10:
  // (-100.000 - 100.040/100) / 1.01 = -100.00039604, u = √(0.001² + (0.03/100)²) / 1.01 = 0.00103370.
  it("a poor second touch of a face moves the zero by its weight and does not make it worse", () => {
    const poor = { ...probe, id: "pin", scatter: "0.03" };
    const { strategies } = evaluateSetup(
      documentFrom({
        part: { elements: [{ id: "left", kind: "face", outward: "-X", datum: "A" }] },
        tools: [probe, poor],
        touches: [
          { id: "l1", element: "left", travelling: "+X", tool: "probe", readings: "-103", y: "0" },
          { id: "l2", element: "left", travelling: "+X", tool: "pin", readings: "-103.04", y: "50" },
        ],
        strategies: [{ id: "two", touches: ["l1", "l2"], rotation: "ignored", zero: { x: "left" } }],
      }),
    );
    const [x] = must((strategies[0] as (typeof strategies)[number]).evaluation).zero;
    expect(must(x).value).toBeCloseTo(-100.00039604, 7);
    expect(must(x).standardUncertainty).toBeCloseTo(0.0010337, 7);
  });
});

it("plainResults(evaluation) tells the test of the strategy and of this part, and nothing where touches are just enough", () => {
  const { thisPart, strategies } = plainResults(boreOfFour(0.004)) as unknown as {
    readonly thisPart: { readonly agreement: unknown };
    readonly strategies: readonly { readonly agreement: unknown }[];
  };
  const agreement = { chance: expect.closeTo(0.0455, 4), degreesOfFreedom: 1, worst: { touch: expect.any(String), unit: "mm" } };
  expect(thisPart).toMatchObject({ agreement });
  expect(JSON.stringify(strategies)).toContain('"agreement":{"chance":0.045');
  expect(JSON.stringify(plainResults(evaluateSetup({ ...twoFaces("A", "B"), touches: twoFaces("A", "B").touches.slice(0, 3) })))).toContain(
    '"agreement":null',
  );
});
