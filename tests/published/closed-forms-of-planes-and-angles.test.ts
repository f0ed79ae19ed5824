import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { parseLength } from "../../lib/formula/parseQuantity.ts";
import { documentFrom, must } from "../properties/setups.ts";

// A closed form, not published: the plane nearest to four points that stand ±0.01 by turns on a square of 100 lies level at 0, and misses each by 0.01.
describe("plane-saddle", () => {
  const heights = [0.01, -0.01, 0.01, -0.01];
  const corners = [
    [0, 0],
    [100, 0],
    [100, 100],
    [0, 100],
  ] as const;
  const { tilt, problems } = evaluateSetup(
    documentFrom({
      part: {
        elements: [
          { id: "top", kind: "face", outward: "+Z", datum: "A" },
          { id: "front", kind: "face", outward: "-Y", datum: "B" },
          { id: "left", kind: "face", outward: "-X", datum: "C" },
        ],
      },
      tools: [{ id: "tip", kind: "tool or pin", radius: "3", length: "100", scatter: "0.002" }],
      touches: [
        ...corners.map(([x, y], i) => ({
          id: `c${i}`,
          element: "top",
          travelling: "-Z",
          tool: "tip",
          readings: String(100 + (heights[i] as number)),
          x: String(x),
          y: String(y),
        })),
        // So that the origin of the drawing is that of the machine.
        { id: "f", element: "front", travelling: "+Y", tool: "tip", readings: "-3", x: "50" },
        { id: "l", element: "left", travelling: "+X", tool: "tip", readings: "-3", y: "50" },
      ],
      strategies: [{ id: "s", touches: ["c0", "c1", "c2", "c3"] }],
    }),
  );

  it("the plane of four touches that stand ±0.01 off by turns is level at 0 and leaves 0.01 at each", () => {
    expect(problems).toEqual([]);
    if (tilt === undefined) throw new Error("no tilt");
    expect(tilt.slopes.X.value).toBeCloseTo(0, 12);
    expect(tilt.slopes.Y.value).toBeCloseTo(0, 12);
    expect(tilt.heightAtOrigin?.value).toBeCloseTo(0, 12);
    const off = tilt.offPlane.map(({ budget }) => budget.value);
    off.forEach((value, i) => {
      expect(value).toBeCloseTo(heights[i] as number, 12);
    });
    expect(Math.sqrt(off.reduce((sum, value) => sum + value * value, 0) / off.length)).toBeCloseTo(0.01, 12);
    expect(Math.max(...off) - Math.min(...off)).toBeCloseTo(0.02, 12);
  });
});

// A. H. Slocum, Precision Machine Design (1992); J. B. Bryan, The Abbe principle revisited, Precision Engineering 1 (1979): one second of arc on 1 m is 4.85 µm
// (values from memory, recomputed). As a formula in an entry, and as what a turn does to a hole on a part whose skew is not looked at.
describe("abbe-arcsec", () => {
  it.each([
    [1000, 4.85],
    [100, 0.485],
  ])("an arm of %d mm turned by one second of arc ends %d µm off", (arm, printed) => {
    const parsed = must(parseLength(`${arm} mm * sin(1 arcsec)`, { unit: "mm" }));
    expect(Math.abs(1000 * parsed.value - printed)).toBeLessThanOrEqual(0.002);
    const second = Math.PI / 180 / 3600;
    const { strategies } = evaluateSetup(
      documentFrom({
        part: {
          elements: [
            { id: "front", kind: "face", outward: "-Y", datum: "A" },
            { id: "left", kind: "face", outward: "-X", datum: "B" },
            { id: "hole", kind: "bore", made: "here", diameter: "8", x: String(arm), y: "0" },
          ],
          characteristics: [{ id: "place", kind: "coordinate", of: "hole", axis: "Y", tolerance: "±0.1" }],
        },
        tools: [{ id: "tip", kind: "touch probe", radius: "0.000001 mm", scatter: "0.001" }],
        touches: [
          { id: "f1", element: "front", travelling: "+Y", tool: "tip", x: "0", readings: "0" },
          { id: "f2", element: "front", travelling: "+Y", tool: "tip", x: "500", readings: (500 * Math.tan(second)).toFixed(12) },
          { id: "l", element: "left", travelling: "+X", tool: "tip", y: "0", readings: "0" },
        ],
        strategies: [{ id: "s", touches: ["f1", "l"] }],
      }),
    );
    const [strategy] = strategies;
    const stack = strategy && must(strategy.evaluation).thisPart.stacks[0];
    expect(Math.abs(Math.abs(1000 * (stack ? must(stack).deviation : 0)) - printed)).toBeLessThanOrEqual(0.002);
  });
});
