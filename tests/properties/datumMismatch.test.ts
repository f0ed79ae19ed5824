import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import type { View } from "../../lib/tolerance/deviations.ts";
import { documentFrom, must, typed } from "./setups.ts";

// Many evaluations a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

const micrometres = (least: number, most: number) => fc.integer({ min: least * 1000, max: most * 1000 }).map((value) => value / 1000);

/** The deviation along X of what is cut, of one strategy, as a stack. */
function stackOf(document: ReturnType<typeof documentFrom>, view: View) {
  const { problems, strategies } = evaluateSetup(document);
  expect(problems).toEqual([]);
  const [strategy] = strategies;
  if (strategy === undefined) throw new Error("no strategy");
  const [stack] = must(strategy.evaluation)[view].stacks;
  if (stack === undefined) throw new Error("no characteristic");
  return must(stack);
}

/**
 * What is cut is off by g (S - S_nom) in the drawing's frame: S the size between two faces, g by the drawing's datum (rows) and by where the zero is set
 * as drawn (columns). Table of the trade for edge and mid-plane, with the sign by plane geometry: the cut lies where zero says, the datum where it is.
 */
const gains = {
  left: { left: 0, right: 1, middle: 1 / 2 },
  right: { left: -1, right: 0, middle: -1 / 2 },
  middle: { left: -1 / 2, right: 1 / 2, middle: 0 },
} as const;

describe("a zero that is not set on the drawing's datum", () => {
  const cases = (["left", "right", "middle"] as const).flatMap((datum) =>
    (["left", "right", "middle"] as const).map((zeroOn) => [datum, zeroOn, gains[datum][zeroOn]] as const),
  );

  it.each(cases)("datum on the %s, zero on the %s: what is cut is off by %d times what the size is off", (datum, zeroOn, gain) => {
    fc.assert(
      fc.property(micrometres(-600, 600), micrometres(20, 300), micrometres(-0.3, 0.3), micrometres(-100, 100), (face, nominal, off, x) => {
        const touch = (element: "left" | "right") => ({
          id: element,
          element,
          travelling: element === "left" ? "+X" : "-X",
          tool: "tip",
          readings: typed(element === "left" ? face - 3 : face + nominal + off + 3),
        });
        const document = documentFrom({
          part: {
            elements: [
              { id: "left", kind: "face", outward: "-X", ...(datum === "left" && { datum: "A" }) },
              { id: "right", kind: "face", outward: "+X", ...(datum === "right" && { datum: "A" }) },
              { id: "middle", kind: "middle", of: ["left", "right"], ...(datum === "middle" && { datum: "A" }) },
              { id: "hole", kind: "bore", made: "here", diameter: "8", x: typed(x), y: "0" },
            ],
            dimensions: [{ id: "size", from: "left", to: "right", nominal: typed(nominal), tolerance: "±0.3" }],
            characteristics: [{ id: "place", kind: "coordinate", of: "hole", axis: "X", tolerance: "±0.5" }],
          },
          tools: [{ id: "tip", kind: "touch probe", radius: "3", scatter: "0.001" }],
          touches: [touch("left"), touch("right")],
          strategies: [
            { id: "s", touches: zeroOn === "middle" ? ["left", "right"] : [zeroOn], hold: zeroOn === "middle" ? ["middle"] : [] },
          ],
        });
        expect(stackOf(document, "thisPart").components[0]?.value).toBeCloseTo(gain * off, 9);
        // In the batch the size varies within its limits: at worst g times half of their distance, to either side.
        const row = stackOf(document, "batch").rows.find(({ source }) => source.id.includes("dimension size"));
        expect(Math.abs(row?.reaches[0] ?? 0)).toBeCloseTo(Math.abs(gain) * 0.3, 9);
      }),
      { numRuns: 12 },
    );
  });

  it("datum on the axis of a bore, zero on an outside diameter: what is cut is off by the whole eccentricity of the two", () => {
    fc.assert(
      fc.property(micrometres(-600, 600), micrometres(-300, 300), micrometres(-0.1, 0.1), micrometres(-0.1, 0.1), (x, y, ex, ey) => {
        const swept = (id: string, [px, py]: readonly [number, number]) => ({
          id,
          element: id,
          travelling: "sweep",
          tool: "dial",
          readings: `X${typed(px)} Y${typed(py)}`,
        });
        const document = documentFrom({
          part: {
            elements: [
              { id: "bore", kind: "bore", datum: "A", diameter: "20" },
              { id: "outside", kind: "boss", diameter: "60" },
              { id: "hole", kind: "bore", made: "here", diameter: "8", x: "20", y: "0" },
            ],
            dimensions: (["X", "Y"] as const).map((axis) => ({
              id: `eccentricity ${axis}`,
              from: "bore",
              to: "outside",
              axis,
              nominal: "0",
              tolerance: "±0.1",
            })),
            characteristics: [{ id: "place", kind: "position", of: "hole", tolerance: "0.5" }],
          },
          tools: [{ id: "dial", kind: "swept indicator", scatter: "0.001" }],
          touches: [swept("bore", [x, y]), swept("outside", [x + ex, y + ey])],
          strategies: [{ id: "s", touches: ["outside"] }],
        });
        const { components } = stackOf(document, "thisPart");
        expect(components[0]?.value).toBeCloseTo(ex, 9);
        expect(components[1]?.value).toBeCloseTo(ey, 9);
      }),
      { numRuns: 20 },
    );
  });
});
