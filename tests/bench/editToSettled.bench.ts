import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { manyStrategies } from "../support/manyStrategies.ts";
import { type OpenBrowser, openBrowser } from "../support/openBrowser.ts";
import type { Benchmark, SelfTimed } from "./benchmark.ts";
import { codeForPage } from "./codeForPage.ts";
import type { Draws, evaluateSetup, nothingBusy, parseDocument, settledNext } from "./evaluateInPage.ts";

/** What the page has of the library besides its own, once it is handed over. */
interface Library {
  readonly Draws: typeof Draws;
  readonly evaluateSetup: typeof evaluateSetup;
  readonly parseDocument: typeof parseDocument;
  readonly settledNext: typeof settledNext;
  readonly nothingBusy: typeof nothingBusy;
}

const usualWindow = { width: 1440, height: 900 };
const demoText = readFileSync(fileURLToPath(new URL("../../notebooks/demo/bearingCover.json", import.meta.url)), "utf8");
const largeText = manyStrategies({ strategies: 20, holes: 60, trials: 2048, chosen: 2 });

interface Edits {
  readonly rounds: number;
  /** Edits of a round whose median counts, and those before them. */
  readonly counted: number;
  readonly before: number;
}

/** From the input event of one reading to the last figure drawn, beside the computation alone in the same page. */
function editOf(name: string, work: string, text: string, { rounds, counted, before }: Edits): Benchmark {
  const inPage = sharedPage(text);
  const edits = { counted, before };
  return {
    name,
    work: `${work}: one reading entered anew, in Chromium; median of ${counted}, after ${before} that are not counted`,
    sides: [
      { name: "evaluateSetup(document) alone", prepare: () => inPage((page) => evaluateAlone(page, edits)) },
      { name: "input event to the last figure in sight settled", prepare: () => inPage((page) => enterReading(page, edits, false)) },
      { name: "the same in a higher window, strategies in sight", prepare: () => inPage((page) => inHigherWindow(page, edits)) },
      { name: "input event to everything settled, in sight or not", prepare: () => inPage((page) => enterReading(page, edits, true)) },
    ],
    rounds,
  };
}

const editToSettled: readonly Benchmark[] = [
  editOf("An edit of the demo job; wanted: 16 ms to what is in sight", "the bearing cover", demoText, {
    rounds: 5,
    counted: 25,
    before: 10,
  }),
  editOf("An edit of a large job; wanted: 16 ms", "20 strategies judged by 60 positions", largeText, { rounds: 1, counted: 5, before: 3 }),
];
export default editToSettled;

/** All sides share one page: it is opened by the first and closed by the last. */
function sharedPage(text: string) {
  let opened: Promise<{ readonly browser: OpenBrowser; readonly page: Page }> | undefined;
  let users = 0;
  return async (measure: (page: Page) => Promise<number>): Promise<SelfTimed> => {
    users += 1;
    opened ??= openOn(text);
    const { browser, page } = await opened;
    return {
      measure: () => measure(page),
      close: async () => {
        users -= 1;
        if (users === 0) await browser.close();
      },
    };
  };
}

async function openOn(text: string) {
  const browser = await openBrowser();
  const { page } = await browser.openPage("", { viewport: usualWindow, reducedMotion: "no-preference" });
  await page.waitForSelector('.sheet[data-state="settled"]');
  await page.locator('input[type="file"]').setInputFiles({ name: "setup.json", mimeType: "application/json", buffer: Buffer.from(text) });
  await page.locator(".said", { hasText: "is open" }).waitFor();
  // As a value of the page and not as its script: the page's policy allows none but its own.
  await page.evaluate(await codeForPage("evaluateInPage.ts"));
  await page.evaluate((opened) => {
    (globalThis as unknown as { documentText: string }).documentText = opened;
  }, text);
  return { browser, page };
}

/** Runs in the page. Readings differ each time, and the random draws are kept, as in the notebook. */
function evaluateAlone(page: Page, edits: Omit<Edits, "rounds">): Promise<number> {
  return page.evaluate(({ counted, before }) => {
    const { library, documentText } = globalThis as unknown as { library: Library; documentText: string };
    const parsed = library.parseDocument(documentText);
    if (!parsed.ok) throw new Error("the job cannot be read");
    const { seed, trials } = parsed.value.sampling;
    const draws = new library.Draws(seed, trials);
    const times = Array.from({ length: before + counted }, (_, i) => {
      const touches = parsed.value.touches.map((touch) =>
        touch.id === "left" ? { ...touch, readings: `-401.4${45 + i} -401.467 -401.460 -401.464` } : touch,
      );
      const start = performance.now();
      library.evaluateSetup({ ...parsed.value, touches }, draws);
      return performance.now() - start;
    });
    return times.slice(before).sort((a, b) => a - b)[Math.floor(counted / 2)] as number;
  }, edits);
}

/** The chances of all strategies, which are below the edge of the usual window, are counted with every edit. */
async function inHigherWindow(page: Page, edits: Omit<Edits, "rounds">): Promise<number> {
  await page.setViewportSize({ ...usualWindow, height: 1400 });
  await page.waitForFunction(() => document.querySelector('[data-table="strategies"][aria-busy]') === null);
  try {
    return await enterReading(page, edits, false);
  } finally {
    await page.setViewportSize(usualWindow);
  }
}

/** Runs in the page. */
function enterReading(page: Page, edits: Omit<Edits, "rounds">, untilAll: boolean): Promise<number> {
  return page.evaluate(
    async ({ counted, before, all }) => {
      const { library } = globalThis as unknown as { library: Library };
      const control = document.querySelector('[aria-label="left, readings"]') as HTMLTextAreaElement;
      control.focus();
      const times: number[] = [];
      for (let i = 0; i < before + counted; i++) {
        const settled = library.settledNext(`reading ${i + 1}`);
        control.value = `-401.4${45 + i} -401.467 -401.460 -401.464`;
        const start = performance.now();
        control.dispatchEvent(new InputEvent("input", { bubbles: true }));
        const seen = await settled;
        if (all) await library.nothingBusy();
        times.push((all ? performance.now() : seen) - start);
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
      return times.slice(before).sort((a, b) => a - b)[Math.floor(counted / 2)] as number;
    },
    { ...edits, all: untilAll },
  );
}
