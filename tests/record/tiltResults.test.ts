import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { judgementSentences } from "../../lib/record/judgementSentences.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { documentFrom } from "../properties/setups.ts";

/** A top touched at the corners of a square of 100, whose heights above -150 are given, mm. */
function square(heights: readonly number[]) {
  const corners = [
    [0, 0],
    [100, 0],
    [100, 100],
    [0, 100],
  ] as const;
  return evaluateSetup(
    documentFrom({
      part: {
        elements: [
          { id: "top", kind: "face", outward: "+Z", datum: "A" },
          { id: "bore", kind: "bore", datum: "B", diameter: "20" },
          { id: "floor", kind: "face", outward: "+Z", made: "here", z: "-8", x: "100", y: "100" },
        ],
        characteristics: [{ id: "pocket", kind: "depth", of: "floor", from: "top", tolerance: "±0.05" }],
      },
      tools: [
        { id: "tip", kind: "tool or pin", length: "100", lengthUncertainty: "0.003", scatter: "0.002" },
        { id: "indicator", kind: "swept indicator", scatter: "0.002" },
      ],
      touches: [
        { id: "b", element: "bore", travelling: "sweep", tool: "indicator", readings: "X0 Y0" },
        ...corners.map(([x, y], i) => ({
          id: `c${i}`,
          element: "top",
          travelling: "-Z",
          tool: "tip",
          readings: String(-50 + (heights[i] as number)),
          x: String(x),
          y: String(y),
        })),
      ],
      strategies: [{ id: "s", touches: ["b", "c0", "c1", "c2", "c3"], zero: { x: "bore", y: "bore", z: "top" } }],
      chosen: "s",
    }),
  );
}

function told(evaluation: ReturnType<typeof square>) {
  return judgementSentences(evaluation).filter(({ kind }) => kind === "tilt" || kind === "touches disagree");
}

// By hand: the slopes are differences of the means of two sides over 100, u = s/100; what is left is ±(Z₀ - Z₁ + Z₂ - Z₃)/4.
describe("a top that lies askew", () => {
  const evaluation = square([0, 0.04, 0.06, 0.02]);

  it("is told with its slopes, its height at the origin and where a depth is judged; its touches agree", () => {
    const [tilt, ...more] = told(evaluation);
    expect(more).toEqual([]);
    expect(tilt?.at).toBe("part.elements.top");
    expect(tilt?.text).toContain("The part lies askew in height.");
    expect(tilt?.text).toContain('Over 100 mm "top" rises along X 0.0400 (u 0.0020) and along Y 0.0200 (u 0.0020) mm');
    expect(tilt?.text).toContain("Above the drawing's origin it lies at Z -150.0000 mm");
    expect(tilt?.text).toContain('"pocket" is judged against the face where "floor" is cut, +0.0300 mm (u 0.0014)');
  });

  it("is plain data with the same numbers", () => {
    const { tilt } = plainResults(evaluation);
    expect(tilt?.slopes.X.value).toBeCloseTo(0.04 / 100, 12);
    expect(tilt?.slopes.Y.value).toBeCloseTo(0.02 / 100, 12);
    expect(tilt?.about.X.value).toBeCloseTo(0.02 / 100, 9);
    expect(tilt?.about.Y.value).toBeCloseTo(-0.04 / 100, 9);
    expect(tilt?.slopes.X.standardUncertainty).toBeCloseTo(0.002 / 100, 12);
    expect(tilt?.effects[0]?.lift?.value).toBeCloseTo(0.03, 9);
    expect(tilt?.offPlane.map(({ value }) => value)).toEqual([0, 0, 0, 0].map((value) => expect.closeTo(value, 9)));
  });
});

describe("a top that is no plane", () => {
  it("is told as touches that disagree, with what is left", () => {
    const [, disagree] = told(square([0.02, -0.02, 0.02, -0.02])).filter(({ at }) => at === "part.elements.top");
    expect(disagree?.kind).toBe("touches disagree");
    expect(disagree?.text).toMatch(/"c\d" stands [+-]0\.0200 mm/);
  });
});

it("a level top is told to be level as far as the touches tell", () => {
  const [tilt] = told(square([0.001, 0, 0.001, 0]));
  expect(tilt?.text).toContain("no tilt beyond the doubt of the touches");
});

it("without three touches from above nothing is said of a tilt", () => {
  const evaluation = square([0, 0, 0, 0]);
  const { touches } = evaluation.setup;
  expect(touches).toHaveLength(5);
  const fewer = evaluateSetup(
    documentFrom({ part: { elements: [{ id: "top", kind: "face", outward: "+Z", datum: "A" }] }, tools: [], touches: [], strategies: [] }),
  );
  expect(fewer.tilt).toBeUndefined();
  expect(plainResults(fewer).tilt).toBeNull();
});
