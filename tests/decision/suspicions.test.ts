import { describe, expect, it } from "vitest";
import { describeProblem } from "../../lib/base/outcome.ts";
import { suspicions } from "../../lib/decision/suspicions.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { judgementSentences } from "../../lib/record/judgementSentences.ts";
import { documentFrom } from "../properties/setups.ts";

/** A block of 120 mm between two faces, its left one touched with these readings. */
function block(left: string, spacers: readonly object[] = []) {
  return evaluateSetup(
    documentFrom({
      part: {
        elements: [
          { id: "left", kind: "face", outward: "-X", datum: "A" },
          { id: "right", kind: "face", outward: "+X" },
        ],
        dimensions: [{ id: "length", from: "left", to: "right", axis: "X", nominal: "120", tolerance: "±0.2" }],
      },
      tools: [{ id: "finder", kind: "turning edge finder", radius: "5", scatterFrom: "stated", scatter: "0.005" }],
      spacers,
      touches: [
        { id: "l", element: "left", travelling: "+X", tool: "finder", readings: left },
        { id: "r", element: "right", travelling: "-X", tool: "finder", readings: "-287.350" },
      ],
      strategies: [{ id: "corner", touches: ["l"], zero: { x: "left" } }],
      chosen: "corner",
    }),
  );
}

const told = (left: string, spacers?: readonly object[]) => suspicions(block(left, spacers)).map(describeProblem);

describe("suspicions", () => {
  it("suspicions(evaluation) says nothing of a sound setup", () => {
    expect(told("-417.350 -417.354")).toEqual([]);
  });
  it("suspicions(evaluation) names repeats that no scatter explains", () => {
    expect(told("-417.350 -417.950")[0]).toBe(
      "touches.l.readings: these readings of one touch lie 0.6 mm apart along X: that is no scatter. Look for a slip in one of them.",
    );
  });
  it("suspicions(evaluation) names a missing decimal point", () => {
    expect(told("-417350")[0]).toContain("touches.l.readings: a reading of more than 20 m along X is not likely");
  });
  it("suspicions(evaluation) names a size that the touches find outside of the drawing, as one wrong digit makes it", () => {
    expect(told("-417.950")).toEqual([
      'part.dimensions.length: the touches find "length" 0.4 mm outside its limits. Look for a wrong reading or side before blaming the part.',
    ]);
  });
  it("suspicions(evaluation) names a block that lies under no tool", () => {
    expect(told("-417.350", [{ id: "block 50", thickness: "50" }])[0]).toContain(
      'spacers.block 50: "block 50" lies between no tool and face',
    );
  });
  // F. E. Grubbs and G. Beck 1972: the farthest of ten normal readings passes 2.482 standard deviations once in a hundred, either side counted (value
  // from memory, recomputed with scipy.stats.t). Mean -417.35135, s = 0.003682 (numpy): distance 2.757.
  it("suspicions(evaluation) names the one of many repeats that does not belong to the others", () => {
    const readings = [350, 351, 349, 350, 352, 350, 349, 361.5, 351, 350].map((micrometres) => `-417.${(10 * micrometres).toFixed(0)}`);
    expect(told(readings.join(" "))).toEqual([
      "touches.l.readings: reading 8 of 10 lies 2.76 standard deviations from the mean of all, more than the 2.48 that the farthest of so many passes once in a hundred (Grubbs). Look for a chip, a slip or another touch before it is kept or taken out, and note why.",
    ]);
  });
  // Four of five alike and one a digit beside has the largest distance that there is, 4/√5, and is no more than the display's step.
  it("suspicions(evaluation) says nothing of readings that differ by what the display shows", () => {
    expect(told("-417.350 -417.350 -417.351 -417.350 -417.350")).toEqual([]);
    expect(told("-417.350 -417.352 -417.349 -417.351 -417.350 -417.348 -417.352 -417.350")).toEqual([]);
  });
  // J. von Neumann: of 1 to 8 Σ(step)² is 7, of the squares about the mean 42: 0.17 (by hand).
  it("suspicions(evaluation) names repeats that drift", () => {
    const readings = Array.from({ length: 8 }, (_, i) => `-417.35${i}`);
    expect(told(readings.join(" "))).toEqual([
      "touches.l.readings: these 8 readings drift: the mean square of their steps is 0.17 of their variance, where independent readings have about 2 (von Neumann). Look for what moves or warms: the doubt of their mean takes them as independent (JCGM 100, 4.2.7).",
    ]);
  });
  it("the record tells them among its sentences", () => {
    const sentences = judgementSentences(block("-417.950"));
    expect(sentences.find(({ kind }) => kind === "suspicious entry")?.text).toContain(
      'Look again: part.dimensions.length: the touches find "length"',
    );
  });
});
