import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decimalsOfStep } from "../../../notebooks/figures/decimalsOfStep.ts";
import { enlargement, enlargementText } from "../../../notebooks/figures/enlargement.ts";
import { miniDocument } from "../../../notebooks/figures/miniDocument.ts";
import { type Box, placeLabels } from "../../../notebooks/figures/placeLabels.ts";
import { pathOf, svgBuilder } from "../../../notebooks/figures/svgBuilder.ts";
import { fitText, textWidth, wrapText } from "../../../notebooks/figures/textWidth.ts";

describe("enlargement(real, wanted)", () => {
  it.each([
    [0.01, 26, 2000],
    [13, 26, 2],
    [20, 26, 1],
    [300, 26, 1],
    [0.0052, 26, 5000],
  ])("enlargement(%d, %d) is %d", (real, wanted, factor) => {
    expect(enlargement(real, wanted)).toBe(factor);
  });
  it("never exceeds what is wanted by more than nothing, and is at least two fifths of it", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-9, max: 10, noNaN: true }), (real) => {
        const drawn = real * enlargement(real, 26);
        return drawn <= 26 * (1 + 1e-9) && drawn >= 26 * 0.38;
      }),
    );
  });
  it("refuses what has no size", () => {
    expect(() => enlargement(0, 26)).toThrow("expected two lengths above 0, got 0 and 26");
  });
  it("enlargementText(2000) writes the factor", () => {
    expect([enlargementText(2000), enlargementText(1)]).toEqual(["drawn × 2\u202f000", "drawn to scale"]);
  });
});

it("decimalsOfStep(ticks) tells neighbours apart", () => {
  expect([[0, 0.05, 0.1], [0, 0.2], [-20, 0, 20], [0, 0.0005], [1], []].map(decimalsOfStep)).toEqual([2, 1, 0, 4, 3, 3]);
});

describe("placeLabels(labels, obstacles, sheet)", () => {
  const sheet: Box = { x: 0, y: 0, width: 100, height: 100 };
  const box = (x: number, y: number): Box => ({ x, y, width: 20, height: 10 });
  it("takes the first candidate that is free", () => {
    const placed = placeLabels([{ candidates: [box(0, 0), box(50, 50)] }], [box(5, 5)], sheet);
    expect(placed).toEqual([{ box: box(50, 50), covered: 0 }]);
  });
  it("keeps labels off each other and on the sheet", () => {
    const same = { candidates: [box(90, 0), box(30, 30)] };
    expect(placeLabels([same, same], [], sheet).map((each) => each.box)).toEqual([box(30, 30), box(80, 0)]);
  });
  it("keeps off lines where it can, and does not count them as covered where it cannot", () => {
    const line = { x: 0, y: 4, width: 100, height: 2 };
    expect(placeLabels([{ candidates: [box(0, 0), box(50, 50)] }, { candidates: [box(0, 0)] }], [], sheet, [line])).toEqual([
      { box: box(50, 50), covered: 0 },
      { box: box(0, 0), covered: 0 },
    ]);
  });
  it("rather lays a label over a mark than over another label", () => {
    // Of the two places of the second label one is wholly over a mark, the other half over the first label.
    const [, second] = placeLabels(
      [{ candidates: [box(0, 0)] }, { candidates: [{ ...box(0, 0), x: 10 }, box(50, 50)] }],
      [box(50, 50)],
      sheet,
    );
    expect(second?.box).toEqual(box(50, 50));
  });
  it("tells how much is covered where no place is free", () => {
    expect(placeLabels([{ candidates: [box(0, 0)] }], [{ ...box(0, 0), width: 10 }], sheet)[0]?.covered).toBe(0.5);
  });
});

describe("textWidth, fitText, wrapText", () => {
  it("fitText(text, room) leaves what fits, and ends the rest with an ellipsis", () => {
    expect(fitText("hole 1", 100)).toBe("hole 1");
    const cut = fitText("a very long name of a touch", 80);
    expect(cut.endsWith("…")).toBe(true);
    expect(textWidth(cut)).toBeLessThanOrEqual(80);
  });
  it("wrapText(text, room) keeps every word, and no line is wider than the room", () => {
    const text = "Part turned by 0.0404° about Z, and the coordinates with it; drawn enlarged.";
    const lines = wrapText(text, 150);
    expect(lines.join(" ")).toBe(text);
    expect(lines.filter((line) => textWidth(line) > 150)).toEqual([]);
  });
});

describe("svgBuilder(document)", () => {
  const draw = svgBuilder(miniDocument());
  it("writes numbers with two decimals, and leaves out what is undefined", () => {
    expect(draw("rect", { x: 1.23456, y: -0.0001, id: undefined }).outerHTML).toBe('<rect x="1.23" y="0"></rect>');
  });
  it("escapes text and attributes", () => {
    expect(draw("text", { class: 'a"b' }, "1 < 2 & 3").outerHTML).toBe('<text class="a&quot;b">1 &lt; 2 &amp; 3</text>');
  });
  it("puts a space for characters that XML cannot hold", () => {
    expect(draw("text", {}, "a\u0000b\u00a0c").outerHTML).toBe("<text>a b c</text>");
  });
  it("refuses a number that is none", () => {
    expect(() => draw("rect", { x: Number.NaN })).toThrow("rect x: expected a finite number, got NaN");
    expect(() => draw("path", { d: "M NaN 0" })).toThrow("path d: expected finite numbers");
    expect(() => pathOf("M", 0, Number.POSITIVE_INFINITY)).toThrow("path d: expected a finite number, got Infinity");
  });
});
