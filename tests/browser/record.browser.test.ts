import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { inputsChecksum } from "../../lib/document/inputsChecksum.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { recordOf } from "../../lib/recordOf.ts";
import { exampleDocument, exampleNames } from "../../notebooks/pages/demo.ts";
import { recordHtml } from "../../notebooks/record/recordHtml.ts";
import { readRecordPdf } from "../record/readRecordPdf.ts";
import { opened, zeroOf } from "../record/rebuilt.ts";
import { accessibilityViolations, type OpenBrowser, openBrowser } from "../support/openBrowser.ts";

let browser: OpenBrowser;
const folder = mkdtempSync(join(tmpdir(), "record-"));
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true });
});

/**
 * The text of a PDF by Debian's poppler-utils, in the order of reading or, `raw`, in that in which the file has it; undefined where they are not there, which
 * the log of the run says.
 */
function textOfPdf(pdf: Buffer, order: "reading" | "raw" = "reading"): string | undefined {
  const file = join(folder, "sheet.pdf");
  writeFileSync(file, pdf);
  const { error, status, stdout } = spawnSync("pdftotext", [...(order === "raw" ? ["-raw"] : []), file, "-"], { encoding: "utf8" });
  if (error !== undefined) console.warn(`The text of a PDF was not read: ${noPdftotext}`);
  else if (status !== 0) throw new Error(`pdftotext ended with ${status}`);
  return error === undefined ? stdout : undefined;
}

const noPdftotext = "pdftotext is not installed here: apt-get install poppler-utils";

/** Pages in a PDF as Chromium writes it: one object of that type for each. */
function sidesOf(pdf: Buffer): number {
  return pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
}

it("the record is shown, prints by itself on one to three sides of A4 and Letter with text that can be copied, and is put away when an entry changes", async () => {
  const { page, errors } = await browser.openSheet();
  const section = page.locator("#record");
  await section.getByLabel("prepared by").fill('M. "Kim" <b>of</b> the day shift');
  await page.keyboard.press("Enter");
  for (const [paper, size] of [
    ["A4", "a4"],
    ["Letter", "letter"],
  ] as const) {
    await section.getByLabel("for paper of size").selectOption(size);
    await section.getByRole("button", { name: "show the record" }).click();
    const frame = section.frameLocator("iframe");
    await frame.locator("h1").waitFor();
    const shown = ((await frame.locator("body").textContent()) ?? "").replace(/\s+/g, " ");
    expect(shown).toContain('M. "Kim" <b>of</b> the day shift');
    const html = await section.locator("iframe").getAttribute("srcdoc");
    const sheet = await page.context().newPage();
    await sheet.setContent(html ?? "");
    expect([paper, await sheetViolations(sheet)]).toEqual([paper, []]);
    expect([paper, await cutOff(sheet, size)]).toEqual([paper, []]);
    const pdf = await sheet.pdf({ preferCSSPageSize: true });
    await sheet.close();
    expect(sidesOf(pdf)).toBeGreaterThanOrEqual(1);
    expect(sidesOf(pdf)).toBeLessThanOrEqual(3);
    const text = textOfPdf(pdf)?.replace(/\s+/g, " ");
    // The readings and the offset of the demo job, and its inputs as typed.
    for (const wanted of [
      "G10 L2 P1 X-318.399 Y-176.901 Z-284.600",
      "-401.457 -401.467 -401.460 -401.464",
      'tolerance = "±0.15"',
      "Checksum of inputs",
    ])
      for (const where of [shown, ...(text === undefined ? [] : [text])])
        expect([paper, wanted, where.includes(wanted)]).toEqual([paper, wanted, true]);
  }
  await section.getByLabel("for paper of size").selectOption("a4");
  const narrow = await page.context().newPage();
  await narrow.setContent((await section.locator("iframe").getAttribute("srcdoc")) ?? "");
  await narrow.setViewportSize({ width: 390, height: 900 });
  // On a telephone no cell has more lines than words, blanks and hyphens ending a word: none is broken within one.
  const broken = await narrow.evaluate(() =>
    [...document.querySelectorAll("td, th")].flatMap((cell) => {
      const text = (cell.textContent ?? "").trim();
      const lines = document.createRange();
      lines.selectNodeContents(cell);
      const tops = new Set([...lines.getClientRects()].map(({ top }) => Math.round(top)));
      return text !== "" && tops.size > text.split(/[\s-]+/).length ? [text] : [];
    }),
  );
  expect(broken).toEqual([]);
  await narrow.close();
  await section.getByLabel("date of the record").fill("2026-03-14");
  await page.keyboard.press("Enter");
  await section.getByText("An entry has changed: show it again.").waitFor();
  expect(await section.locator("iframe").count()).toBe(0);
  expect(await accessibilityViolations(page, "#record")).toEqual([]);
  expect(errors).toEqual([]);
});

/** What is wider than the side as it is printed, or stands outside the drawing of its figure: what is cut on paper is lost. */
async function cutOff(sheet: Page, size: "a4" | "letter"): Promise<(string | null)[]> {
  await sheet.emulateMedia({ media: "print" });
  await sheet.setViewportSize({ width: size === "a4" ? 703 : 725, height: 900 });
  return sheet.evaluate(() => {
    const outside = (each: Element, { left, right, top, bottom }: DOMRect) => {
      const box = each.getBoundingClientRect();
      return box.left < left - 1 || box.right > right + 1 || box.top < top - 1 || box.bottom > bottom + 1;
    };
    const page = new DOMRect(0, 0, document.documentElement.clientWidth, document.documentElement.scrollHeight);
    return [
      ...[...document.querySelectorAll("body *")].filter((each) => outside(each, page)),
      ...[...document.querySelectorAll("svg text")].filter((each) =>
        outside(each, (each.closest("svg") as Element).getBoundingClientRect()),
      ),
    ].map((each) => each.textContent);
  });
}

/** What axe finds against a sheet that a page of its own shows: on the screen, wide and narrow, and as it is printed. */
async function sheetViolations(sheet: Page): Promise<string[]> {
  const found: string[] = [];
  for (const [media, width] of [
    ["screen", 1440],
    ["screen", 390],
    ["print", 703],
  ] as const) {
    await sheet.emulateMedia({ media });
    await sheet.setViewportSize({ width, height: 900 });
    found.push(...(await accessibilityViolations(sheet)).map((violation) => `${media}, ${width} px: ${violation}`));
  }
  return found;
}

/** The record as a PDF, by a page that shows nothing else. */
async function printed(document: SetupDocument, evaluation: SetupEvaluation, size: "a4" | "letter"): Promise<Buffer> {
  const { page, errors } = await browser.openPage();
  // Without the sheet, whose worker would still start.
  await page.goto("about:blank");
  await page.setContent(recordHtml(recordOf(document, evaluation), evaluation, size));
  expect(await cutOff(page, size)).toEqual([]);
  const pdf = await page.pdf({ preferCSSPageSize: true });
  await page.context().close();
  expect(errors).toEqual([]);
  return pdf;
}

describe.each(exampleNames)("the record of %s, printed", (name) => {
  let document: SetupDocument;
  let evaluation: SetupEvaluation;
  let onA4: Buffer;
  beforeAll(async () => {
    document = exampleDocument(name);
    evaluation = evaluateSetup(document);
    onA4 = await printed(document, evaluation, "a4");
  });

  it("has at most three sides of A4 and of Letter", async () => {
    const sides = [onA4, await printed(document, evaluation, "letter")].map(sidesOf);
    expect(sides.filter((count) => count < 1 || count > 3)).toEqual([]);
  });

  it("has in the text of its PDF alone what its zero and its checksum follow from", ({ skip }) => {
    const text = textOfPdf(onA4, "raw");
    if (text === undefined) return skip(noPdftotext);
    const again = opened(readRecordPdf(text));
    expect(inputsChecksum(again)).toBe(inputsChecksum(document));
    expect(zeroOf(again)).toEqual(zeroOf(document));
    // The zero as it is printed, to the digit, stands there as well.
    for (const { known } of recordOf(document, evaluation).strategy?.zero ?? [])
      if (known !== null) expect(text).toContain(known.written.value);
    return undefined;
  });
});

it("a record prints words that no line could hold, and texts that look like rows, so that they are put together again", async ({
  skip,
}) => {
  const example = exampleDocument("sawnPlate");
  const cell = (id: string, entry: string) => ({ kind: "cell" as const, id, entry });
  const document = opened({
    ...example,
    machine: { ...example.machine, name: `${"W".repeat(150)} ${'say "so" '.repeat(40)}${'\\"'.repeat(60)}` },
    ledger: [cell("long", `1 mm ${"- 1 mm ".repeat(60)}`), cell("longer", `(${Array.from({ length: 60 }, () => "1mm").join("+")})`)],
  });
  const text = textOfPdf(await printed(document, evaluateSetup(document), "a4"), "raw");
  if (text === undefined) return skip(noPdftotext);
  expect(inputsChecksum(opened(readRecordPdf(text)))).toBe(inputsChecksum(document));
  return undefined;
});

it("the rationale is worked out beside the page, and a record is replayed by its checksum and three readings", async () => {
  const { page, errors } = await browser.openSheet();
  const section = page.locator("#record");
  await section.getByLabel("why this strategy, in your words").fill("The bore is what the mating part sees.");
  await page.keyboard.press("Enter");
  await section.getByRole("button", { name: "show the rationale" }).click();
  const frame = section.frameLocator("iframe");
  await frame.getByRole("heading", { name: "The alternatives" }).waitFor({ timeout: 60_000 });
  expect(await frame.locator("blockquote").first().textContent()).toContain("The bore is what the mating part sees.");
  const sheet = await page.context().newPage();
  await sheet.setContent((await section.locator("iframe").getAttribute("srcdoc")) ?? "");
  await sheet.getByRole("heading", { name: "The alternatives" }).waitFor();
  expect(await sheetViolations(sheet)).toEqual([]);
  await sheet.close();
  // The frame in its place on the page as well.
  expect(await accessibilityViolations(page, "#record")).toEqual([]);

  const [, short] = /inputs is ([0-9a-f]{4} [0-9a-f]{4})/.exec((await section.textContent()) ?? "") ?? [];
  await section.getByLabel("checksum on the record").fill(short ?? "");
  // As the demo job's own readings were.
  await section.getByLabel("left, X shows").fill("-401.462");
  await section.getByLabel("front 1, Y shows").fill("-234.912");
  await section.getByLabel("top, Z shows").fill("-122.254");
  await section.getByText(/^Verified: the same inputs, and 3 readings/).waitFor();
  await page.getByLabel("b1, readings", { exact: true }).fill("-290.388 -290.389");
  await page.keyboard.press("Enter");
  await section.getByText("Not verified: this is another setup than the recorded one.").waitFor();
  expect(errors).toEqual([]);
});
