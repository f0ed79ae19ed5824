import { JSDOM } from "jsdom";
import { describe, expect, it } from "vitest";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../../lib/evaluateSetup.ts";
import { rationaleOf } from "../../../lib/rationaleOf.ts";
import { paperCsv } from "../../../lib/record/paper/paperCsv.ts";
import { paperText } from "../../../lib/record/paper/paperText.ts";
import { rationalePaper } from "../../../lib/record/rationalePaper.ts";
import { recordPaper } from "../../../lib/record/recordPaper.ts";
import { recordOf } from "../../../lib/recordOf.ts";
import { miniDocument } from "../../../notebooks/figures/miniDocument.ts";
import { setupSketch } from "../../../notebooks/figures/setupSketch.ts";
import { exampleDocument, exampleNames } from "../../../notebooks/pages/demo.ts";
import { rationaleHtml } from "../../../notebooks/record/rationaleHtml.ts";
import { recordHtml } from "../../../notebooks/record/recordHtml.ts";

function sheetsOf(document: SetupDocument) {
  const evaluation = evaluateSetup(document);
  const record = recordOf(document, evaluation);
  const rationale = rationaleOf(document, evaluation);
  return {
    evaluation,
    record,
    papers: [recordPaper(record), rationalePaper(rationale)],
    pages: [recordHtml(record, evaluation, "a4"), rationaleHtml(rationale, evaluation, "letter")],
  };
}

const hostile = `</style></title></svg><script>alert("x")</script><img src=x onerror=alert(1)> & ' =1+1 \u202eturned`;

/** The demo with something hostile in every place that holds a person's words. */
function hostileDocument(): SetupDocument {
  const document = exampleDocument("bearingCover");
  const { record, part, tools, strategies, machine } = document;
  const renamed = (id: string) => (id === "hole 2" ? `<b>hole</b> 2 ${hostile}`.slice(0, 80) : id);
  return {
    ...document,
    title: hostile,
    note: hostile,
    revision: hostile,
    machine: { ...machine, name: hostile },
    part: {
      ...part,
      name: hostile,
      characteristics: part.characteristics.map((row) => ({ ...row, id: renamed(row.id) })),
    },
    tools: tools.map((tool) => ({ ...tool, note: hostile })),
    strategies: strategies.map((strategy) => ({ ...strategy, note: hostile })),
    record: {
      ...record,
      preparedBy: hostile,
      checkedBy: hostile,
      date: hostile,
      choice: hostile,
      assumptions: hostile,
      changes: hostile,
      risks: `${hostile}\n\n${hostile}`,
    },
  };
}

it("a hostile text in any place is text on the page: no element, attribute, script or address comes of it", () => {
  for (const page of sheetsOf(hostileDocument()).pages) {
    const { document } = new JSDOM(page).window;
    expect(document.querySelectorAll("script, img, b, link, object, embed, iframe, a, form").length).toBe(0);
    const handlers = [...document.querySelectorAll("*")].flatMap((element) =>
      element.getAttributeNames().filter((name) => /^on|^href$|^src$|^style$/.test(name)),
    );
    expect(handlers).toEqual([]);
    expect(document.querySelector("style")?.textContent).toMatch(/\.fig-edge \{[\s\S]*@page \{/);
    expect(document.querySelectorAll("style").length).toBe(1);
    expect(document.title).toContain("<script>");
    expect(document.body.textContent).toContain(`<script>alert("x")</script>`);
    // Turns of the direction of writing would let a number read another way.
    expect(page).not.toContain("\u202e");
    expect(page).not.toMatch(/https?:\/\/(?!www\.w3\.org\/2000\/svg)/);
  }
});

it("a hostile text breaks no line of text and no cell of CSV, and is no formula in a spreadsheet", () => {
  for (const paper of sheetsOf(hostileDocument()).papers) {
    expect(paperText(paper)).not.toContain("\u202e");
    const rows = paperCsv(paper).split("\r\n").slice(0, -1);
    // RFC 4180 by a reader of the test's own: fields of quotes or without any.
    const field = /"(?:[^"]|"")*"|[^",]*/y;
    for (const row of rows) {
      const fields: string[] = [];
      for (let at = 0; at <= row.length; at = field.lastIndex + 1) {
        field.lastIndex = at;
        fields.push(field.exec(row)?.[0] ?? "");
      }
      expect([row, fields.length]).toEqual([row, 4]);
      for (const each of fields) expect(each).not.toMatch(/^"?[=@]|^"?[+-](?![\d.])/);
    }
  }
});

describe.each(exampleNames)("the sheets of %s", (name) => {
  const { evaluation, record, papers, pages } = sheetsOf(exampleDocument(name));

  it("say the same in text and on the page, digit by digit", () => {
    papers.forEach((paper, i) => {
      const shown = new JSDOM(pages[i]).window.document.body.textContent.replace(/\s+/g, " ");
      for (const block of paper.sections.flatMap(({ blocks }) => blocks)) {
        const texts =
          block.kind === "table"
            ? block.rows.flat().filter((cell) => typeof cell === "string")
            : block.kind === "list"
              ? block.items
              : block.kind === "lines"
                ? block.lines
                : block.kind === "listing"
                  ? block.rows
                  : block.kind === "paragraph"
                    ? [block.text]
                    : [];
        for (const text of texts) expect(shown).toContain(text.replace(/\s+/g, " "));
      }
    });
  });

  it("show the sketch that the page of the notebook draws", () => {
    const strategy = record.strategy?.id ?? "";
    const drawn = setupSketch(evaluation, strategy, { unit: record.unit, id: "setup", width: 500 }, { document: miniDocument() });
    expect(pages[0]).toContain(drawn.outerHTML);
  });

  it("have boxes to fill in by hand, cautions before the offset, and never call anything safe to run", () => {
    const { document } = new JSDOM(pages[0]).window;
    expect(document.querySelectorAll("td.box").length).toBe(record.checks.length);
    const text = document.body.textContent;
    expect(text.indexOf("Cautions")).toBeGreaterThan(0);
    expect(text.indexOf("Cautions")).toBeLessThan(text.indexOf("To type"));
    for (const page of pages) expect(page.toLowerCase()).not.toContain("safe to run");
  });

  it("hold numbers that JSON can hold", () => {
    expect(JSON.parse(JSON.stringify(record))).toEqual(record);
  });
});

it("the author's paragraphs stand in the rationale as they were written, told as the author's", () => {
  const document = exampleDocument("sawnPlate");
  const own = { ...document, record: { ...document.record, choice: "The bore is what the mating part sees.\nSo I begin there." } };
  const paper = rationalePaper(rationaleOf(own, evaluateSetup(own)));
  expect(paperText(paper)).toContain("  The author:\n  | The bore is what the mating part sees.\n  | So I begin there.");
});

it("what is only supposed withholds the offset, and the record says so", () => {
  const document = exampleDocument("bearingCover");
  const supposed = { ...document, whatIf: [{ source: "tool probe, radius", shift: "0.01", doubt: "" }] };
  const evaluation = evaluateSetup(supposed);
  const record = recordOf(supposed, evaluation);
  expect(record.supposed).not.toBeNull();
  expect(record.strategy?.offset.known).toBeNull();
  expect(paperText(recordPaper(record))).not.toContain("G10 L2");
});
