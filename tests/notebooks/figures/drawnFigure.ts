import { JSDOM } from "jsdom";
import type { FigureEnvironment } from "../../../notebooks/figures/figure.ts";
import { miniDocument } from "../../../notebooks/figures/miniDocument.ts";
import { textWidth } from "../../../notebooks/figures/textWidth.ts";

const { window } = new JSDOM("<!doctype html>");

/** A figure drawn in Node's small document and in jsdom. */
export interface DrawnFigure {
  /** As the small document writes it. */
  readonly text: string;
  /** As jsdom writes it. */
  readonly reference: string;
  readonly root: SVGSVGElement;
  /** What is written on the figure, without titles and descriptions. */
  readonly words: readonly string[];
}

export function drawn(draw: (environment: FigureEnvironment) => SVGSVGElement): DrawnFigure {
  const root = draw({ document: window.document });
  return {
    text: draw({ document: miniDocument() }).outerHTML,
    reference: root.outerHTML,
    root,
    words: Array.from(root.querySelectorAll("text"), ownText),
  };
}

/** What is wrong with a figure as such: missing alternatives, broken numbers, ids, text outside the sheet. */
export function faultsOf({ text, reference, root }: DrawnFigure): string[] {
  const faults: string[] = [];
  if (text !== reference) faults.push("the small document and jsdom differ");
  const xml = new window.DOMParser().parseFromString(text, "application/xml");
  if (xml.querySelector("parsererror")) faults.push("the text is not well-formed XML");
  if (root.getAttribute("role") !== "img") faults.push("role");
  for (const [attribute, tag] of [
    ["aria-labelledby", "title"],
    ["aria-describedby", "desc"],
  ] as const) {
    const target = Array.from(root.children).find(({ id }) => id === root.getAttribute(attribute));
    if (target?.tagName !== tag || target.textContent?.trim() === "") faults.push(`${attribute} names no ${tag}`);
  }
  const ids = Array.from(root.querySelectorAll("[id]"), ({ id }) => id);
  if (new Set(ids).size !== ids.length) faults.push("an id stands twice");
  const [, , width = 0, height = 0] = (root.getAttribute("viewBox") ?? "").split(" ").map(Number);
  for (const element of [root, ...Array.from(root.querySelectorAll("*"))]) {
    for (const { name, value } of Array.from(element.attributes)) {
      if (name !== "class" && !name.startsWith("aria-") && name !== "id" && /NaN|Infinity|undefined|null/.test(value))
        faults.push(`${element.tagName} ${name}="${value}"`);
      const reference = /^url\(#(.*)\)$/.exec(value);
      if (reference && !ids.includes(reference[1] as string)) faults.push(`${value} names nothing`);
    }
    if (element.tagName === "text" && ownText(element) === "") faults.push("a text is empty");
  }
  for (const element of Array.from(root.querySelectorAll("text:not([transform])"))) {
    const length = textWidth(ownText(element), element.classList.contains("fig-small") ? 11 : 12);
    const x = Number(element.getAttribute("x"));
    const start = x - (element.classList.contains("fig-end") ? length : element.classList.contains("fig-middle") ? length / 2 : 0);
    const y = Number(element.getAttribute("y"));
    // A tenth for estimated widths.
    if (start < -0.1 * length - 1 || start + length > width + 0.1 * length + 1 || y < 8 || y > height)
      faults.push(
        `"${ownText(element)}" leaves the sheet: ${start.toFixed(0)} to ${(start + length).toFixed(0)} of ${width}, ${y} of ${height}`,
      );
  }
  return faults;
}

function ownText(element: Element): string {
  return Array.from(element.childNodes, (node) => (node.nodeName === "title" ? "" : (node.textContent ?? ""))).join("");
}
