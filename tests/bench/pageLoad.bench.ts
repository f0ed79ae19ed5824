import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";
import { buildFile } from "../support/buildPage.ts";
import { type OpenBrowser, openBrowser } from "../support/openBrowser.ts";
import type { Benchmark, SelfTimed } from "./benchmark.ts";

/** What a person waits for who opens the page: a new profile each time, nothing kept, from the address to the demo job worked out. */
const pageLoad: Benchmark = {
  name: "Opening the page",
  work: "the demo job from nothing to settled in a new profile of Chromium, 1440 by 900; times since the navigation began",
  sides: [
    { name: "a page without anything", prepare: () => opening(async () => "empty") },
    { name: "the page, served on this machine", prepare: () => opening(async () => "") },
    { name: "the page as one file, from the disk", prepare: () => opening(async () => pathToFileURL(await buildFile()).href) },
  ],
  rounds: 5,
};
export default pageLoad;

/** What the browser tells of one opening, ms and bytes. */
interface Opening {
  readonly settled: number;
  readonly firstPaint: number;
  readonly longestTask: number;
  readonly elements: number;
  readonly files: readonly string[];
}

let shared: Promise<OpenBrowser> | undefined;
let users = 0;

async function opening(addressOf: () => Promise<string>): Promise<SelfTimed> {
  users += 1;
  shared ??= openBrowser();
  const browser = await shared;
  const path = await addressOf();
  const seen: Opening[] = [];
  return {
    measure: async () => {
      const { page } = await browser.openPage("empty-first");
      await page.addInitScript(watchTasks);
      await page.route("**/empty", (route) =>
        route.fulfill({ contentType: "text/html", body: '<div class="sheet" data-state="settled">.</div>' }),
      );
      await page.goto(new URL(path, browser.address).href);
      await page.waitForSelector('.sheet[data-state="settled"]');
      const told = await page.evaluate(readTimes);
      seen.push(told);
      await page.context().close();
      return told.settled;
    },
    note: () => {
      const last = seen.at(-1);
      if (last === undefined) return "";
      const middle = (of: (each: Opening) => number) => Math.round(seen.map(of).sort((a, b) => a - b)[seen.length >> 1] as number);
      return `first paint ${middle((each) => each.firstPaint)} ms, longest task ${middle((each) => each.longestTask)} ms, ${last.elements} elements; ${bytesOf(last.files)}`;
    },
    close: async () => {
      users -= 1;
      if (users === 0) await browser.close();
    },
  };
}

/** Sizes of what was loaded, from the built files: a preview server tells none. */
function bytesOf(files: readonly string[]): string {
  const texts = files.flatMap((file) => {
    const name = decodeURIComponent(new URL(file).pathname);
    const path = file.startsWith("file:") ? name : new URL(`../../.cache/page${name === "/" ? "/index.html" : name}`, import.meta.url);
    try {
      return [readFileSync(path)];
    } catch {
      return [];
    }
  });
  const total = texts.reduce((sum, text) => sum + text.length, 0);
  const packed = texts.reduce((sum, text) => sum + gzipSync(text).length, 0);
  return `${texts.length} ${texts.length === 1 ? "file" : "files"}, ${(total / 1000).toFixed(0)} kB, gzip ${(packed / 1000).toFixed(0)} kB`;
}

/** Runs in the page, before anything of it. */
function watchTasks(): void {
  const told = globalThis as unknown as { longestTask: number; settledAt: number };
  told.longestTask = 0;
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) told.longestTask = Math.max(told.longestTask, duration);
  }).observe({ type: "longtask", buffered: true });
  new MutationObserver(() => {
    if (told.settledAt === undefined && document.querySelector('.sheet[data-state="settled"]') !== null) told.settledAt = performance.now();
  }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ["data-state"] });
}

/** Runs in the page. */
async function readTimes(): Promise<Opening> {
  await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
  const told = globalThis as unknown as { longestTask: number; settledAt: number };
  return {
    settled: told.settledAt,
    firstPaint: performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? 0,
    longestTask: told.longestTask,
    elements: document.querySelectorAll("*").length,
    files: [location.href, ...performance.getEntriesByType("resource").map(({ name }) => name)].filter((name) => /^(file|http)/.test(name)),
  };
}
