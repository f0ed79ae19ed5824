import { expect, it } from "vitest";
import { FigureView } from "../../../notebooks/figures/figureView.ts";
import { type SvgDocument, svgBuilder } from "../../../notebooks/figures/svgBuilder.ts";

type Mark = readonly [name: string, attributes: Readonly<Record<string, string>>, text: string];

const draw =
  (marks: readonly Mark[]) =>
  (within: SvgDocument): SVGSVGElement => {
    const make = svgBuilder(within);
    return make("svg", { class: "fig" }, ...marks.map(([name, attributes, text]) => make(name, attributes, text))) as SVGSVGElement;
  };

const first: readonly Mark[] = [
  ["text", { x: "1", class: "a" }, "left"],
  ["path", { d: "M 0 0" }, ""],
  ["text", { x: "2" }, "right"],
];

function shownAfter(...drawings: readonly (readonly Mark[])[]) {
  const element = document.createElement("div");
  const view = new FigureView(element);
  for (const marks of drawings) view.show(draw(marks));
  return { element, view };
}

it.each<[string, readonly Mark[]]>([
  ["another text", [["text", { x: "1", class: "a" }, "left edge"], ...first.slice(1)]],
  ["an attribute less and one more", [["text", { y: "3" }, "left"], ...first.slice(1)]],
  ["another mark in its place", [["path", { d: "M 1 1" }, ""], ...first.slice(1)]],
  ["fewer marks", first.slice(0, 1)],
  ["more marks", [...first, ["path", { d: "M 2 2" }, ""], ["text", {}, "more"]]],
  ["none", []],
])("a view that shows one drawing after another shows the same as the other alone: %s", (_what, second) => {
  expect(shownAfter(first, second).element.innerHTML).toBe(shownAfter(second).element.innerHTML);
  expect(shownAfter(second, first).element.innerHTML).toBe(shownAfter(first).element.innerHTML);
});

it("a view keeps the elements of what stays, and draws anew where its figure was taken away", () => {
  const { element, view } = shownAfter(first);
  const [svg, ...marks] = element.querySelectorAll("*");
  view.show(draw([["text", { x: "9", class: "a" }, "left"], ...first.slice(1)]));
  expect([...element.querySelectorAll("*")]).toEqual([svg, ...marks]);
  expect(marks[0]?.getAttribute("x")).toBe("9");
  element.replaceChildren("no figure");
  view.show(draw(first));
  expect(element.innerHTML).toBe(shownAfter(first).element.innerHTML);
});
