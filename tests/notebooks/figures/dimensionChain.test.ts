import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../../lib/evaluateSetup.ts";
import { arrangePlaces } from "../../../notebooks/figures/chain/arrangePlaces.ts";
import { gainInWords } from "../../../notebooks/figures/chain/chainWords.ts";
import { dimensionChain } from "../../../notebooks/figures/dimensionChain.ts";
import { dimensionChainTable } from "../../../notebooks/figures/dimensionChainTable.ts";
import { cover } from "../../gallery/documents.ts";
import { drawn } from "./drawnFigure.ts";

const ofCover = evaluateSetup(cover);
const figure = (strategy: string, characteristic: string, view: "thisPart" | "batch") =>
  drawn((environment) => dimensionChain(ofCover, strategy, characteristic, { view, unit: "mm", width: 520 }, environment));

describe("dimensionChain(evaluation, strategy, characteristic, options)", () => {
  it("tells each dimension with tolerance, gain and what it gives", () => {
    const { words, root } = figure("middle of the length", "hole 1", "batch");
    // ± 0.3 at three standard deviations, half of it: 0.3 / 3 / 2 = 0.05; rectangular, 0.3 / √3 / 2 = 0.0866.
    expect(words).toContain("length 160 ±0.3: gain +1/2, gives 0.087 mm");
    expect(words).toContain("Along X the sizes give a standard uncertainty of 0.10 mm.");
    expect(words).toContain("left, touched");
    expect(root.querySelectorAll(".fig-gain-whole")).toHaveLength(2);
    expect(root.querySelectorAll(".fig-gain-part")).toHaveLength(1);
    expect(root.querySelectorAll(".fig-zero-ring")).toHaveLength(2);
  });

  it("says of this part that its touches tell the sizes", () => {
    const { words } = figure("middle of the length", "hole 1", "thisPart");
    expect(words).toContain("length 160 ±0.3: told by the touches, gain 0");
    expect(words).toContain("Along X no size of the part enters: the touches tell those that lie between.");
  });

  it("has the same numbers in its table", () => {
    const { rows, columns } = dimensionChainTable(ofCover, "middle of the length", "hole 1", { view: "batch", unit: "mm" });
    const length = rows.find((row) => row[1] === "length");
    expect([length?.[columns.indexOf("gain")], length?.[columns.indexOf("gives")]]).toEqual(["+1/2", "0.087 mm"]);
  });

  it.each([
    [0, "0"],
    [0.4999, "+1/2"],
    [-1.0001, "−1"],
    [0.31, "+0.31"],
    [-0.25, "−1/4"],
  ])("gainInWords(%f) is %s", (gain, words) => {
    expect(gainInWords(gain)).toBe(words);
  });
});

it("arrangePlaces(places, edges) keeps words inside and off each other, and no leader runs through other words unless they crowd", () => {
  const places = fc.array(
    fc.record({
      x: fc.integer({ min: 16, max: 504 }),
      text: fc.string({ minLength: 1, maxLength: 14, unit: fc.constantFrom("a", "m", "i", "W", " ") }),
    }),
    { minLength: 1, maxLength: 9 },
  );
  fc.assert(
    fc.property(places, (named) => {
      const arranged = arrangePlaces(named, { from: 2, to: 518 });
      expect(arranged.flatMap(({ lines }) => lines.map(({ whole }) => whole)).sort()).toEqual(named.map(({ text }) => text).sort());
      for (const [i, a] of arranged.entries()) {
        expect(a.left).toBeGreaterThanOrEqual(2);
        expect(a.left + a.width).toBeLessThanOrEqual(518 + 1e-9);
        for (const b of arranged.slice(0, i)) {
          const apart = a.left + a.width <= b.left || b.left + b.width <= a.left;
          const above = a.level >= b.level + b.lines.length || b.level >= a.level + a.lines.length;
          expect(apart || above).toBe(true);
        }
      }
    }),
    { numRuns: 300 },
  );
});
