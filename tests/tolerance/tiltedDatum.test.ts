import { describe, expect, it } from "vitest";
import { describeProblem } from "../../lib/base/outcome.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { documentFrom } from "../properties/setups.ts";

/** A block of 100 × 60 whose top is touched at three places, as high as stated; a hole of depth 40 is cut square to the top, by a square machine. */
function block(heights: readonly [string, string, string], more: object = {}) {
  const places = [
    ["10", "10"],
    ["90", "10"],
    ["10", "50"],
  ] as const;
  return evaluateSetup(
    documentFrom({
      part: {
        elements: [
          { id: "left", kind: "face", outward: "-X", datum: "B" },
          { id: "front", kind: "face", outward: "-Y", datum: "C" },
          { id: "top", kind: "face", outward: "+Z", datum: "A" },
          { id: "hole", kind: "bore", made: "here", x: "40", y: "30", diameter: "12" },
        ],
        characteristics: [{ id: "square", kind: "perpendicularity", of: "hole", from: "top", tolerance: "0.05", length: "40" }],
      },
      tools: [{ id: "probe", kind: "touch probe", radius: "3", scatterFrom: "stated", scatter: "0.002", length: "100" }],
      machine: { squareness: { x: "0", y: "0", z: "0" }, squarenessOver: "300" },
      touches: [
        { id: "l", element: "left", travelling: "+X", tool: "probe", readings: "-3", y: "30" },
        { id: "f", element: "front", travelling: "+Y", tool: "probe", readings: "-3", x: "50" },
        ...heights.map((reading, i) => ({
          id: `t${i}`,
          element: "top",
          travelling: "-Z",
          tool: "probe",
          readings: reading,
          x: places[i]?.[0],
          y: places[i]?.[1],
        })),
      ],
      strategies: [{ id: "corner", touches: ["l", "f", "t0", "t1", "t2"] }],
      chosen: "corner",
      ...more,
    }),
  );
}

describe("perpendicularity to a top whose tilt touches tell", () => {
  // By hand: the top rises 0.016 over 80 along X and 0.008 over 40 along Y, 2e-4 each; the upright hole leans against it by as much:
  // over its 40 mm, told from its middle, 2 · √(x² + y²) with x = y = 20 · 2e-4.
  it("is the tilt over the hole's length in this part", () => {
    const { strategies } = block(["-100.000", "-99.984", "-99.992"]);
    const evaluation = strategies[0]?.evaluation;
    const stack = evaluation?.ok ? evaluation.value.thisPart.stacks[0] : undefined;
    if (!stack?.ok) throw new Error(JSON.stringify(stack));
    expect(stack.value.deviation).toBeCloseTo(2 * 20 * 2e-4 * Math.SQRT2, 6);
    // One reading scatters by 0.002: along X the slope by √2 · 0.002 / 80, about Y; told at 20 mm.
    const [x, y] = stack.value.components.map(({ standardUncertainty }) => standardUncertainty);
    expect(x).toBeCloseTo((20 * Math.SQRT2 * 0.002) / 80, 8);
    expect(y).toBeCloseTo((20 * Math.SQRT2 * 0.002) / 40, 8);
  });

  it("is not known in the batch, whose tilt is for locators to say", () => {
    const { strategies } = block(["-100", "-100", "-100"]);
    const evaluation = strategies[0]?.evaluation;
    const stack = evaluation?.ok ? evaluation.value.batch.stacks[0] : undefined;
    expect(stack?.ok).toBe(false);
    if (stack !== undefined && !stack.ok)
      expect(stack.problems.map(describeProblem).join()).toContain("nothing determines how the part is tilted");
  });
});
