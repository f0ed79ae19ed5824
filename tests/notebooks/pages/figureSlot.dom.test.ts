import { expect, it } from "vitest";
import type { FigureEnvironment } from "../../../notebooks/figures/figure.ts";
import { loadFigures } from "../../../notebooks/figures/loadFigures.ts";
import { svgBuilder } from "../../../notebooks/figures/svgBuilder.ts";
import { FigureSlot } from "../../../notebooks/pages/figureSlot.ts";

// Drawings come after what is typed and read.
await loadFigures();

it("a figure that cannot be drawn leaves no old one in its place, and the next is drawn again", () => {
  const slot = new FigureSlot({ title: "a figure" });
  const drawing = (key: string, x: number) => ({
    key,
    draw: (_width: number, { document: within = document }: FigureEnvironment) => svgBuilder(within)("svg", { x }) as SVGSVGElement,
  });
  slot.show(drawing("first", 1));
  expect(slot.element.querySelector("svg")).not.toBeNull();
  expect(() => slot.show(drawing("second", Number.NaN))).toThrow("svg x: expected a finite number, got NaN");
  expect(slot.element.querySelector("svg")).toBeNull();
  expect(slot.element.querySelector(".reason")?.textContent).toBe("Not drawn: svg x: expected a finite number, got NaN");
  slot.show(drawing("third", 3));
  expect(slot.element.querySelector("svg")?.getAttribute("x")).toBe("3");
  expect(slot.element.querySelector(".reason")).toBeNull();
});
