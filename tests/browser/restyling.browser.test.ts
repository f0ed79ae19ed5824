import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type OpenBrowser, openBrowser, workedOut } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

interface TraceEvent {
  readonly name: string;
  readonly args: { readonly elementCount?: number };
}

/** How many elements the browser styles anew at a time while something is done, most of them first. */
async function styledAnew(page: Page, doing: () => Promise<void>): Promise<number[]> {
  const session = await page.context().newCDPSession(page);
  const events: TraceEvent[] = [];
  session.on("Tracing.dataCollected", ({ value }) => {
    events.push(...(value as unknown as TraceEvent[]));
  });
  await session.send("Tracing.start", { transferMode: "ReportEvents", traceConfig: { includedCategories: ["devtools.timeline"] } });
  await doing();
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  const complete = new Promise((done) => session.once("Tracing.tracingComplete", done));
  await session.send("Tracing.end");
  await complete;
  await session.detach();
  return events.flatMap(({ name, args }) => (name === "UpdateLayoutTree" ? [args.elementCount ?? 0] : [])).sort((a, b) => b - a);
}

it("neither a step of the focus nor a letter has more than a twentieth of the page styled anew", async () => {
  const { page, errors } = await browser.openSheet();
  const entry = page.getByLabel("difference, entry", { exact: true });
  await entry.scrollIntoViewIfNeeded();
  await entry.click();
  await page.keyboard.press("End");
  await workedOut(page);
  const most = (await page.evaluate(() => document.querySelectorAll("*").length)) / 20;

  const byLetters = await styledAnew(page, async () => {
    for (const key of [" ", "+", " ", "0"]) await page.keyboard.press(key);
  });
  expect(byLetters[0]).toBeGreaterThan(0);
  expect(byLetters[0]).toBeLessThan(most);

  await workedOut(page);
  const byFocus = await styledAnew(page, async () => {
    for (let steps = 0; steps < 12; steps++) await page.keyboard.press("Tab");
  });
  expect(byFocus[0]).toBeGreaterThan(0);
  expect(byFocus[0]).toBeLessThan(most);
  expect(errors).toEqual([]);
});
