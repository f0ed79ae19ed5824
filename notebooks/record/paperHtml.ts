import { oneLine } from "../../lib/base/oneLine.ts";
import type { Block, Cell, Paper, PaperColumn, PaperSection } from "../../lib/record/paper/paper.ts";
import { miniDocument } from "../figures/miniDocument.ts";
import { type Attributes, svgBuilder } from "../figures/svgBuilder.ts";
import paperStyle from "./paper.css?raw";
import { printedFigureStyle } from "./printedFigureStyle.ts";

export type PaperSize = "a4" | "letter";

export interface PaperHtmlOptions {
  readonly size: PaperSize;
  /** What the blocks of kind `figure` show, by name; a figure that is not there is left out. */
  readonly figures: ReadonlyMap<string, SVGSVGElement>;
  /** What stands at the foot of every side, besides its number: letters, digits and blanks. */
  readonly mark: string;
}

/**
 * A sheet as one document of HTML that needs nothing else: no script, no address, all style and figures within. Every text of a person's goes through
 * `make`, which writes it as text, never as markup; what is put together as markup here is the frame alone.
 */
export function paperHtml(paper: Paper, { size, figures, mark }: PaperHtmlOptions): string {
  const title = paper.title === "" ? paper.kind : `${paper.kind}: ${paper.title}`;
  const body = make(
    "body",
    { class: "paper" },
    make("header", {}, make("p", { class: "kind" }, paper.kind), make("h1", {}, paper.title), factsTable(paper)),
    make(
      "main",
      {},
      ...besideEachOther(paper.sections).map((row) =>
        row.length === 1
          ? section(row[0] as PaperSection, figures)
          : make("div", { class: "beside" }, ...row.map((each) => section(each, figures))),
      ),
    ),
  );
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
${make("title", {}, title).outerHTML}
<style>
${printedFigureStyle}
${paperStyle}
${pageStyle(size, mark)}
</style>
</head>
${body.outerHTML}
</html>
`;
}

/** The element, with texts as texts. */
function make(name: string, attributes: Attributes, ...children: readonly (Element | string)[]): SVGElement {
  return draw(name, attributes, ...children.map((child) => (typeof child === "string" ? oneLine(child) : (child as SVGElement))));
}

const draw = svgBuilder(miniDocument());

function pageStyle(size: PaperSize, mark: string): string {
  if (!/^[\w ]*$/.test(mark)) throw new RangeError(`mark: expected letters, digits and blanks, got ${mark}`);
  return `@page {
  size: ${size === "a4" ? "210mm 297mm" : "8.5in 11in"};
  margin: 11mm 12mm 13mm;
  @bottom-left { content: "${mark}"; font: 7pt sans-serif; }
  @bottom-right { content: "side " counter(page) " of " counter(pages); font: 7pt sans-serif; }
}`;
}

/** Sections in rows: one that is set beside another stands in its row. */
function besideEachOther(sections: readonly PaperSection[]): PaperSection[][] {
  const rows: PaperSection[][] = [];
  for (const each of sections) {
    const last = rows.at(-1);
    if (each.set === "beside" && last !== undefined) last.push(each);
    else rows.push([each]);
  }
  return rows;
}

function factsTable({ facts }: Paper): SVGElement {
  return make(
    "dl",
    { class: "facts" },
    ...facts.map(({ name, value }) => make("div", {}, make("dt", {}, name), make("dd", value === "" ? { class: "to-write" } : {}, value))),
  );
}

function section({ title, blocks, set }: PaperSection, figures: PaperHtmlOptions["figures"]): SVGElement {
  return make(
    "section",
    { class: set === "small" ? "small" : undefined },
    make("h2", {}, title),
    ...together(blocks).flatMap((block) =>
      Array.isArray(block) ? [make("div", { class: "listings" }, ...block.flatMap(listingElements))] : blockElements(block, title, figures),
    ),
  );
}

type Listing = Extract<Block, { kind: "listing" }>;

/** Listings that follow each other flow through the same columns. */
function together(blocks: readonly Block[]): (Exclude<Block, Listing> | Listing[])[] {
  const joined: (Exclude<Block, Listing> | Listing[])[] = [];
  for (const block of blocks) {
    const last = joined.at(-1);
    if (block.kind !== "listing") joined.push(block);
    else if (Array.isArray(last)) last.push(block);
    else joined.push([block]);
  }
  return joined;
}

function listingElements({ place, rows }: Listing): SVGElement[] {
  return [
    make("h3", {}, place),
    ...rows.map((row) => make("p", {}, ...row.split(" ").flatMap((word, i) => [...(i === 0 ? [] : [" "]), ...cutWord(word)]))),
  ];
}

/** What fits into a column of listings, however wide its letters are. */
const longestWord = 36;

/** A word that no line could hold in pieces, each but the last ending its line with a backslash, which is put together again without a blank. */
function cutWord(word: string): (SVGElement | string)[] {
  const letters = Array.from(word);
  if (letters.length <= longestWord) return [word];
  const pieces = Array.from({ length: Math.ceil(letters.length / longestWord) }, (_, i) =>
    letters.slice(i * longestWord, (i + 1) * longestWord).join(""),
  );
  return pieces.map((piece, i) => (i === pieces.length - 1 ? piece : make("span", { class: "cut" }, `${piece}\\`)));
}

function blockElements(block: Exclude<Block, Listing>, title: string, figures: PaperHtmlOptions["figures"]): Element[] {
  switch (block.kind) {
    case "paragraph":
      return block.text.split(/\r?\n/).flatMap((line) => (line.trim() === "" ? [] : [make("p", {}, ...kept(line))]));
    case "quote":
      return [
        make(
          "blockquote",
          {},
          make("p", { class: "of" }, block.of),
          ...block.text.split(/\r?\n/).flatMap((line) => (line.trim() === "" ? [] : [make("p", {}, ...kept(line))])),
        ),
      ];
    case "list":
      return [make("ul", {}, ...block.items.map((item) => make("li", {}, ...kept(item))))];
    case "table":
      // On a narrow screen it is moved to and fro within its frame, by the keyboard as well.
      return [make("div", { class: "table", role: "group", "aria-label": title, tabindex: 0 }, tableElement(block))];
    case "lines":
      return [make("div", { class: "lines" }, ...block.lines.map((line) => make("p", {}, line)))];
    case "figure": {
      const figure = figures.get(block.name);
      return figure === undefined ? [] : [make("figure", {}, figure)];
    }
  }
}

function tableElement({ columns, rows }: Extract<Block, { kind: "table" }>): SVGElement {
  return make(
    "table",
    { class: rows.length <= mostKeptTogether ? "whole" : undefined },
    make("thead", {}, make("tr", {}, ...columns.map((column) => make("th", { scope: "col", class: sideOf(column) }, column.title)))),
    make("tbody", {}, ...rows.map((row) => make("tr", {}, ...row.map((cell, i) => cellElement(cell, columns[i]))))),
  );
}

/** A table of so many rows is not divided between two sides. */
const mostKeptTogether = 4;

function cellElement(cell: Cell, column: PaperColumn | undefined): SVGElement {
  return typeof cell === "string"
    ? make("td", { class: column && sideOf(column) }, ...kept(cell))
    : make("td", { class: "box" }, make("span", {}));
}

/** A sign stays with what it belongs to: no line ends within `-X` or `-0.5`. */
function kept(text: string): (SVGElement | string)[] {
  return oneLine(text)
    .split(/((?<![\p{L}\p{N}])[+-][XYZ\d][\d.]*)/u)
    .flatMap((piece, i) => (piece === "" ? [] : [i % 2 === 1 ? make("span", { class: "keep" }, piece) : piece]));
}

function sideOf({ align }: PaperColumn): string | undefined {
  return align === "right" ? "number" : undefined;
}
