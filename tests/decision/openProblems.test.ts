import { describe, expect, it } from "vitest";
import { openProblems } from "../../lib/decision/openProblems.ts";
import { strategyNamed } from "../../lib/decision/strategyNamed.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { documentFrom } from "../properties/setups.ts";

/** A bore of 20 +0.02/0 about -300, -200, touched by a stylus of radius 3 from inside: the axis goes 7 each way, where nobody slips. */
const problemsWith = (wrong: Readonly<Record<string, number>>) => {
  const touches = (["+X", "-X", "+Y", "-Y"] as const).map((travelling) => {
    const isX = travelling.endsWith("X");
    const reading = (isX ? -300 : -200) + (travelling[0] === "+" ? 7 : -7) + (wrong[travelling] ?? 0);
    return {
      id: travelling,
      element: "bore",
      travelling,
      tool: "probe",
      readings: reading.toFixed(4),
      ...(isX ? { y: "-200" } : { x: "-300" }),
    };
  });
  const evaluation = evaluateSetup(
    documentFrom({
      part: { elements: [{ id: "bore", kind: "bore", datum: "A", diameter: "20", diameterTolerance: "+0.02 0" }] },
      tools: [{ id: "probe", kind: "touch probe", radius: "3", radiusUncertainty: "0.001", scatter: "0.002" }],
      touches,
      strategies: [{ id: "s", touches: touches.map(({ id }) => id) }],
      chosen: "s",
    }),
  );
  return openProblems(evaluation, strategyNamed(evaluation.strategies, "s")).filter(({ what }) => !what.startsWith("no touch"));
};

describe("openProblems(evaluation, chosen)", () => {
  it("has none of touches that agree on a bore as it is drawn", () => {
    expect(problemsWith({ "+X": 0.003 })).toEqual([]);
  });

  it("has touches of the strategy in use that contradict each other, and the diameter that they find", () => {
    // The diameters along X and Y differ by 0.1 where doubt explains some hundredths of that; all four find one 0.05 too large, and 0.0002 more as
    // those along Y then stand 0.05 beside the middle: 0.05² / (2 · 7) of each radius.
    expect(problemsWith({ "+X": 0.1 }).map(({ at, what }) => `${at}: ${what}`)).toEqual([
      "strategies.s.touches: its touches disagree by more than their doubts explain, so the uncertainty of its zero is not what is told",
      'part.elements.bore.diameter: the touches find "bore, diameter" 0.0302 mm outside its limits',
    ]);
  });
});
