import type { Page } from "playwright-core";
import { type OpenBrowser, openBrowser } from "../support/openBrowser.ts";
import type { Benchmark, SelfTimed } from "./benchmark.ts";
import { codeForPage } from "./codeForPage.ts";
import { heapOf } from "./heapOf.ts";
import type { nothingBusy, openTable, painted } from "./tableInPage.ts";

const lengths = [10, 1000, 10_000];

const typing: Benchmark = {
  name: "Typing into a table",
  work: "one letter into a cell in the middle, from the input event to the next paint, in Chromium; median of thirty, after ten that are not counted",
  sides: lengths.map((count) => ({ name: `of ${count} rows`, prepare: () => inPage(count, typeLetters) })),
  rounds: 5,
};

const settling: Benchmark = {
  name: "An edit of a table, worked out and drawn",
  work: "a cell typed and left by Enter, from the input event until the page is idle; median of thirty, after ten that are not counted",
  sides: lengths.map((count) => ({ name: `of ${count} rows`, prepare: () => inPage(count, enterCells) })),
  rounds: 5,
};

const opening: Benchmark = {
  name: "A table opened",
  work: "rows handed over, laid out and painted, in Chromium",
  sides: lengths.map((count) => ({ name: `of ${count} rows`, prepare: () => inPage(count, openAgain) })),
  rounds: 5,
};

export default [typing, settling, opening];

interface InPage {
  readonly library: { readonly openTable: typeof openTable; readonly painted: typeof painted; readonly nothingBusy: typeof nothingBusy };
}

/** A browser for each side, so that the memory that is told is its own. */
async function inPage(count: number, measure: (page: Page, count: number) => Promise<number>): Promise<SelfTimed> {
  const browser: OpenBrowser = await openBrowser();
  const { page } = await browser.openPage("", { viewport: { width: 1440, height: 900 }, reducedMotion: "no-preference" });
  await page.waitForSelector('.sheet[data-state="settled"]');
  // What the page itself works out beforehand is over.
  await page.waitForTimeout(3000);
  await page.evaluate(await codeForPage("tableInPage.ts"));
  const empty = await heapOf(page);
  await page.evaluate((rows) => (globalThis as unknown as InPage).library.openTable(rows), count);
  const full = await heapOf(page);
  const inPageRows = await page.locator(".ledger tr[data-row]").count();
  const megabytes = ((full - empty) / 1e6).toFixed(1);
  return {
    measure: () => measure(page, count),
    note: () => `${megabytes} MB of memory for the rows, ${inPageRows} of them in the page`,
    close: () => browser.close(),
  };
}

/** Runs in the page. */
function typeLetters(page: Page, count: number): Promise<number> {
  return page.evaluate(async (rows) => {
    const { painted } = (globalThis as unknown as InPage).library;
    const frame = document.querySelector(".ledger .frame") as HTMLElement;
    frame.scrollTop = frame.scrollHeight / 2;
    await painted();
    const shown = [...document.querySelectorAll<HTMLInputElement>('[data-column="at"] [data-cell]')];
    const control = shown[Math.floor(shown.length / 2)] as HTMLInputElement;
    control.focus();
    await painted();
    const times: number[] = [];
    for (let i = 0; i < 40; i++) {
      control.value = `-${400 + i + (rows % 7)}`;
      // At the beginning of a frame, so that waiting for one is not counted.
      await new Promise(requestAnimationFrame);
      await new Promise((resolve) => setTimeout(resolve));
      const start = performance.now();
      control.dispatchEvent(new InputEvent("input", { bubbles: true }));
      // Style and layout are what is left before the paint.
      frame.getBoundingClientRect();
      await painted();
      times.push(performance.now() - start);
    }
    return times.slice(10).sort((a, b) => a - b)[15] as number;
  }, count);
}

/** Runs in the page. */
function enterCells(page: Page): Promise<number> {
  return page.evaluate(async () => {
    const shown = [...document.querySelectorAll<HTMLInputElement>('[data-column="at"] [data-cell]')];
    (shown[Math.floor(shown.length / 2)] as HTMLInputElement).focus();
    const times: number[] = [];
    for (let i = 0; i < 40; i++) {
      const control = document.activeElement as HTMLInputElement;
      const start = performance.now();
      control.value = `-${500 + i}`;
      control.dispatchEvent(new InputEvent("input", { bubbles: true }));
      control.dispatchEvent(new KeyboardEvent("keydown", { key: i % 2 ? "ArrowUp" : "Enter", bubbles: true, cancelable: true }));
      document.body.getBoundingClientRect();
      await (globalThis as unknown as InPage).library.nothingBusy();
      await new Promise<void>((resolve) => requestIdleCallback(() => resolve()));
      times.push(performance.now() - start);
    }
    return times.slice(10).sort((a, b) => a - b)[15] as number;
  });
}

/** Runs in the page. */
function openAgain(page: Page, count: number): Promise<number> {
  return page.evaluate(async (rows) => {
    const start = performance.now();
    (globalThis as unknown as InPage).library.openTable(rows);
    document.body.getBoundingClientRect();
    await new Promise(requestAnimationFrame);
    await new Promise((resolve) => setTimeout(resolve));
    return performance.now() - start;
  }, count);
}
