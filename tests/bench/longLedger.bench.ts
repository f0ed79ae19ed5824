import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { type OpenBrowser, openBrowser } from "../support/openBrowser.ts";
import type { Benchmark, SelfTimed } from "./benchmark.ts";
import { codeForPage } from "./codeForPage.ts";
import { heapOf } from "./heapOf.ts";
import type { painted, settledNext } from "./waitInPage.ts";

interface InPage {
  readonly library: { readonly painted: typeof painted; readonly settledNext: typeof settledNext };
}

const demo = readFileSync(fileURLToPath(new URL("../../notebooks/demo/bearingCover.json", import.meta.url)), "utf8");

/** Cells of a person's own, and rows of a free table of theirs. */
const sizes = [
  [20, 100],
  [2000, 10_000],
] as const;

const words = ([cells, rows]: (typeof sizes)[number]) => `a notebook of ${cells} cells and ${rows} rows`;

const typing: Benchmark = {
  name: "Typing into a notebook of one's own; wanted: 50 ms",
  work: "one letter into a formula in the middle, from the input event to the next paint, in Chromium; median of thirty, after ten that are not counted",
  sides: sizes.map((size) => ({ name: words(size), prepare: () => inPage(size, (page) => typeFormulas(page, "painted")) })),
  rounds: 3,
};

const settling: Benchmark = {
  name: "An edit of a notebook of one's own; wanted: 100 ms",
  work: "a formula in the middle entered anew, from the input event until all that is in sight is settled; median of thirty, after ten",
  sides: sizes.map((size) => ({ name: words(size), prepare: () => inPage(size, (page) => typeFormulas(page, "settled")) })),
  rounds: 3,
};

const tableTyping: Benchmark = {
  name: "Typing into a free table; wanted: 50 ms",
  work: "one letter into an entry of a column that formulas use, from the input event to the next paint; median of thirty, after ten",
  sides: sizes.map((size) => ({ name: words(size), prepare: () => inPage(size, (page) => typeEntries(page, "painted")) })),
  rounds: 3,
};

const tableEdit: Benchmark = {
  name: "An edit of a free table; wanted: 100 ms",
  work: "an entry of a column that formulas use, from the input event until all that is in sight is settled; median of thirty, after ten",
  sides: sizes.map((size) => ({ name: words(size), prepare: () => inPage(size, (page) => typeEntries(page, "settled")) })),
  rounds: 3,
};

export default [typing, settling, tableTyping, tableEdit];

/** A tenth of the cells are readings with their doubt, the others formulas of two before them; the table's mean enters the last cell. */
function documentOf(cells: number, rows: number): string {
  const cell = (i: number) => ({
    kind: "cell",
    id: `c${i}`,
    entry:
      i === cells - 1
        ? `c${i - 1} + mean(bolt_at)`
        : i % 10 === 0
          ? `${12 + i / 1000} mm ± 0.002 mm`
          : `(c${i - 1} + c${i - (i % 10)}) / 2 + ${i} um`,
  });
  const table = {
    kind: "table",
    id: "bolt",
    columns: [{ id: "at" }, { id: "off" }, { id: "radius", formula: "hypot(at, off)" }],
    rows: Array.from({ length: rows }, (_, i) => [`${100 + (i % 97) / 1000}`, `${(i % 89) / 1000}`, ""]),
  };
  return JSON.stringify({ ...JSON.parse(demo), ledger: [...Array.from({ length: cells }, (_, i) => cell(i)), table] });
}

/** A browser for each side, so that the memory that is told is its own. */
async function inPage([cells, rows]: (typeof sizes)[number], measure: (page: Page) => Promise<number>): Promise<SelfTimed> {
  const browser: OpenBrowser = await openBrowser();
  const { page } = await browser.openPage("", { viewport: { width: 1440, height: 900 }, reducedMotion: "no-preference" });
  await page.waitForSelector('.sheet[data-state="settled"]');
  const buffer = Buffer.from(documentOf(cells, rows));
  await page.locator('input[type="file"]').setInputFiles({ name: "own.json", mimeType: "application/json", buffer });
  await page.waitForFunction((id) => document.querySelector(`[aria-label="${id}"]`) !== null, `c${cells - 1}`, { timeout: 120_000 });
  await page.waitForSelector('.sheet[data-state="settled"]');
  await page.waitForTimeout(3000);
  await page.evaluate(await codeForPage("waitInPage.ts"));
  const held = await heapOf(page);
  return {
    measure: () => measure(page),
    note: () => `${(held / 1e6).toFixed(0)} MB of memory for the page and all that it holds`,
    close: () => browser.close(),
  };
}

/** Runs in the page. */
function typeFormulas(page: Page, until: "painted" | "settled"): Promise<number> {
  return page.evaluate(async (wanted) => {
    const { library } = globalThis as unknown as InPage;
    const cells = [...document.querySelectorAll<HTMLElement>(".block.cell")];
    const cell = cells[Math.floor(cells.length / 20) * 10 + 5] as HTMLElement;
    cell.scrollIntoView({ block: "center" });
    await new Promise((resolve) => setTimeout(resolve, 500));
    const control = cell.querySelector<HTMLTextAreaElement>('[data-column="entry"] textarea') as HTMLTextAreaElement;
    control.focus();
    const text = control.value;
    const times: number[] = [];
    for (let i = 0; i < 40; i++) {
      await new Promise(requestAnimationFrame);
      await new Promise((resolve) => setTimeout(resolve));
      const settled = library.settledNext(`letter ${i + 1} typed into ${control.ariaLabel}`);
      // Asked for first: what the page itself does after the same frame comes after it.
      const painted = library.painted();
      const start = performance.now();
      control.value = `${text} + ${i} nm`;
      control.dispatchEvent(new InputEvent("input", { bubbles: true }));
      await (wanted === "painted" ? painted : settled);
      times.push(performance.now() - start);
      await settled;
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    return times.slice(10).sort((a, b) => a - b)[15] as number;
  }, until);
}

/** Runs in the page. */
function typeEntries(page: Page, until: "painted" | "settled"): Promise<number> {
  return page.evaluate(async (wanted) => {
    const { library } = globalThis as unknown as InPage;
    const table = document.querySelector(".block.table") as HTMLElement;
    table.scrollIntoView({ block: "start" });
    await new Promise((resolve) => setTimeout(resolve, 500));
    // Of the rows: the table's own name stands before them.
    const control = table.querySelector<HTMLTextAreaElement>("tr[data-row] [data-cell]") as HTMLTextAreaElement;
    control.focus();
    const times: number[] = [];
    for (let i = 0; i < 40; i++) {
      await new Promise(requestAnimationFrame);
      await new Promise((resolve) => setTimeout(resolve));
      const settled = library.settledNext(`entry ${i + 1} into ${control.ariaLabel}`);
      // Asked for first: what the page itself does after the same frame comes after it.
      const painted = library.painted();
      const start = performance.now();
      // Never what stands there already: nothing would be worked out.
      control.value = `${200 + i / 1000}`;
      control.dispatchEvent(new InputEvent("input", { bubbles: true }));
      await (wanted === "painted" ? painted : settled);
      times.push(performance.now() - start);
      await settled;
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    return times.slice(10).sort((a, b) => a - b)[15] as number;
  }, until);
}
