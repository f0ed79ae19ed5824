import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { judgementSentences } from "../../lib/record/judgementSentences.ts";
import { documentFrom, must } from "../properties/setups.ts";

const s = 0.002;

/** A plate 120 long that is turned to its front edge by two touches 100 apart, with a hole; nothing has been touched. */
function planned(x: readonly [string, string], y: string, more: { hole?: object; readings?: readonly [string, string, string] } = {}) {
  const [first, second, third] = more.readings ?? ["", "", ""];
  const evaluation = evaluateSetup(
    documentFrom({
      part: {
        elements: [
          { id: "front", kind: "face", outward: "-Y", datum: "A" },
          { id: "left", kind: "face", outward: "-X", datum: "B" },
          { id: "right", kind: "face", outward: "+X" },
          { id: "hole", kind: "bore", made: "here", x: "60", y: "0", diameter: "8", ...more.hole },
        ],
        dimensions: [{ id: "length", from: "left", to: "right", nominal: "120", tolerance: "±0.1" }],
        characteristics: [{ id: "across", kind: "coordinate", of: "hole", axis: "Y", tolerance: "±0.05" }],
      },
      tools: [{ id: "ball", kind: "touch probe", radius: "3", radiusUncertainty: "0", scatter: String(s) }],
      touches: [
        { id: "f1", element: "front", travelling: "+Y", tool: "ball", readings: first, x: x[0] },
        { id: "f2", element: "front", travelling: "+Y", tool: "ball", readings: second, x: x[1] },
        { id: "l", element: "left", travelling: "+X", tool: "ball", readings: third, y },
      ],
      strategies: [{ id: "s", touches: ["f1", "f2", "l"], rotation: "applied" }],
      chosen: "s",
    }),
  );
  const [strategy] = evaluation.strategies;
  const [stack] = must((strategy as NonNullable<typeof strategy>).evaluation).batch.stacks;
  return { evaluation, across: must(stack as NonNullable<typeof stack>).components[0]?.standardUncertainty as number };
}

const said = ({ evaluation }: ReturnType<typeof planned>) => judgementSentences(evaluation).find(({ kind }) => kind === "planned places");

describe("touches that are planned on a part of which nothing has been touched", () => {
  // Hand formula: half-way between two touches of scatter s that turn the part, a place across has s/√2 however far off the machine's zero is.
  it("are taken to lie about the middle of the part where they are noted by the machine, and that is said", () => {
    const far = planned(["-390", "-290"], "-180");
    expect(far.across).toBeCloseTo(s / Math.SQRT2, 9);
    expect(said(far)).toMatchObject({ at: "touches" });
    expect(said(far)?.text).toContain("No touch tells yet where the part lies along X and Y, so the places of the planned touches");
  });

  it("are taken to lie about the places of those that have been taken as well, wherever the machine's zero is", () => {
    // The front is touched already, the left is not: half-way between the two touches, as before.
    for (const x of [
      ["-390", "-290"],
      ["-1090", "-990"],
    ] as const) {
      const half = planned(x, "-180", { readings: ["-203", "-203", ""] });
      expect(half.across).toBeCloseTo(s / Math.SQRT2, 9);
      expect(said(half)?.text).toContain("No touch tells yet where the part lies along X");
    }
  });

  // Touches at 10 and 110 of the drawing, the hole at 110: over the second touch, s.
  it("lie where the drawing has them where they are noted so", () => {
    const near = planned(["10", "110"], "0", { hole: { x: "110" } });
    expect(near.across).toBeCloseTo(s, 9);
    expect(said(near)).toBeUndefined();
  });

  it("lie where the part has been found, once it has", () => {
    const found = planned(["-390", "-290"], "-180", { hole: { x: "110" }, readings: ["", "", "-403"] });
    expect(found.across).toBeCloseTo(s, 9);
    // Along Y nobody has touched yet, and the left was touched at some Y.
    expect(said(found)?.text).toContain("No touch tells yet where the part lies along Y, so");
  });
});
