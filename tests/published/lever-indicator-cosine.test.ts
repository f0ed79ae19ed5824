import { describe, expect, it } from "vitest";
import { radian } from "../../lib/base/quantity.ts";
import { leverCosine } from "../../lib/equipment/leverCosine.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { SourceBook } from "../../lib/uncertainty/sourceBook.ts";
import { documentFrom, must } from "../properties/setups.ts";

// Correction factors of lever indicators, reading × cos(angle): the three-figure table of general metrology texts (values from memory, recomputed).
describe("lever-indicator-cosine", () => {
  it.each([
    [5, 0.996],
    [10, 0.985],
    [15, 0.966],
    [20, 0.94],
    [30, 0.866],
    // biome-ignore lint/suspicious/noApproximativeNumericConstant: the digits as published
    [45, 0.707],
    [60, 0.5],
  ])("a reading of a lever at %d degrees is true times %d", (degrees, factor) => {
    const lever = { angle: radian((degrees * Math.PI) / 180), standardUncertainty: radian(0) };
    expect(Math.abs(leverCosine({ id: "dial", lever }, new SourceBook()).value - factor)).toBeLessThanOrEqual(0.00051);
  });

  // The two-figure table of the trade (values from memory, recomputed), through a whole setup: a bore at X0 and a total of 2 along X leave half of it.
  it.each([
    [10, 0.98],
    [20, 0.94],
    [30, 0.87],
    [60, 0.5],
  ])("a total reading of 2 by a lever at %d degrees puts the axis of a bore off the spindle by %d", (degrees, factor) => {
    const [strategy] = evaluateSetup(
      documentFrom({
        part: { elements: [{ id: "bore", kind: "bore", diameter: "40", datum: "A" }] },
        tools: [{ id: "dial", kind: "swept indicator", scatter: "0.002", leverAngle: `${degrees}` }],
        touches: [{ id: "t", element: "bore", travelling: "sweep", tool: "dial", readings: "X0 Y0", total: { x: "2" } }],
        strategies: [{ id: "s", touches: ["t"] }],
      }),
    ).strategies;
    const found = strategy && must(must(strategy.evaluation).zero[0]);
    expect(Math.abs((found?.value ?? 0) + factor)).toBeLessThanOrEqual(0.0051);
  });
});
