import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { documentFrom } from "../properties/setups.ts";

function prediction(tool: object, machine: object, readings = "-300") {
  const { predictions } = evaluateSetup(
    documentFrom({
      part: { elements: [{ id: "left", kind: "face", outward: "-X", datum: "A" }] },
      tools: [{ id: "tip", kind: "touch probe", radius: "3", scatter: "0", ...tool }],
      machine,
      touches: [{ id: "l", element: "left", travelling: "+X", tool: "tip", readings }],
      strategies: [],
    }),
  );
  return (predictions[0] as (typeof predictions)[number]).budget;
}

describe("predictReadings", () => {
  it("predictReadings(...) of the same touch doubts the scatter of the old mean and of the new reading: s √(1 + 1/n)", () => {
    expect(prediction({ scatter: "0.004" }, {}).standardUncertainty).toBeCloseTo(0.004 * Math.SQRT2, 12);
    expect(prediction({ scatter: "0.004" }, {}, "-300 -300.002 -300.001 -299.999").standardUncertainty).toBeCloseTo(
      0.004 * Math.sqrt(1.25),
      12,
    );
  });

  it("predictReadings(...) cancels what both touches share: radius, late trigger, eccentricity, lost motion of the same direction", () => {
    const tool = { radiusUncertainty: "0.01", lateTrigger: "0.01", eccentricity: "0.01" };
    const machine = { lostMotion: { x: "0.02" }, working: { x: "-" } };
    expect(prediction(tool, machine).standardUncertainty).toBeCloseTo(0, 12);
  });

  // Repeats that agree to the last digit leave what the digit cannot tell (JCGM 100:2008, F.2.2.1): 0.01/√12 each time, without scatter.
  it("predictReadings(...) doubts the last digit typed where the scatter comes from repeats and no display step is stated", () => {
    const own = { scatter: "", scatterFrom: "own repeats" };
    const equal = "-300.00 -300.00 -300.00";
    expect(prediction(own, {}, equal).standardUncertainty).toBeCloseTo((0.01 / Math.sqrt(12)) * Math.SQRT2, 12);
    expect(prediction({ ...own, scatterFrom: "pooled repeats" }, {}, equal).standardUncertainty).toBeCloseTo(
      (0.01 / Math.sqrt(12)) * Math.SQRT2,
      12,
    );
    // A step that is stated counts in its place, and not beside it.
    expect(prediction(own, { displayStep: "0.005" }, equal).standardUncertainty).toBeCloseTo((0.005 / Math.sqrt(12)) * Math.SQRT2, 12);
    expect(prediction({}, {}, equal).standardUncertainty).toBe(0);
  });

  // Each display rounds on its own: two rectangular steps of 0.01, 0.01/√12 each (JCGM 100, F.2.2.1).
  it("predictReadings(...) doubts the display step of the old and of the new reading", () => {
    expect(prediction({}, { displayStep: "0.01" }).standardUncertainty).toBeCloseTo((0.01 / Math.sqrt(12)) * Math.SQRT2, 12);
  });
});
