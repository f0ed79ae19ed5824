import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { accessibilityViolations, type OpenBrowser, type OpenPage, openBrowser } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const opened: Page[] = [];
afterEach(async () => {
  await Promise.all(opened.splice(0).map((page) => page.context().close()));
});

async function openSheet(options: Parameters<OpenBrowser["openPage"]>[1] = { viewport: { width: 1440, height: 900 } }): Promise<OpenPage> {
  const sheet = await browser.openPage("", options);
  opened.push(sheet.page);
  await sheet.page.waitForSelector('.sheet[data-state="settled"]');
  return sheet;
}

/** What has the focus, as a screen reader would name it. */
const focused = (page: Page) =>
  page.evaluate(() => {
    const element = document.activeElement as HTMLElement;
    const labelled = element.id === "" ? null : document.querySelector(`label[for="${CSS.escape(element.id)}"]`);
    return element.getAttribute("aria-label") ?? labelled?.textContent ?? element.textContent?.trim() ?? "";
  });

/** Presses a key until what has the focus is called so. */
async function goBy(page: Page, key: string, name: string): Promise<void> {
  for (let presses = 0; presses < 400; presses++) {
    if ((await focused(page)) === name) return;
    await page.keyboard.press(key);
  }
  throw new Error(`${key} never came to "${name}", last to "${await focused(page)}"`);
}

/** Goes right in the row to the entry with this name, and types. */
async function enter(page: Page, name: string, text: string): Promise<void> {
  await goBy(page, "ArrowRight", name);
  await page.keyboard.type(text);
}

const comesTo = (page: Page, name: string) =>
  page
    .locator(`.block.cell[aria-label="${name}"] .result`)
    .evaluate((result) => [...result.children].map(({ textContent }) => textContent));

/** A slot between two walls, touched by a pin of 6 mm; everything that is needed to know where its middle lies, and no more. */
async function buildSlot(page: Page): Promise<void> {
  await goBy(page, "Tab", "new");
  await page.keyboard.press("Enter");
  await goBy(page, "Tab", "add a touch");
  await goBy(page, "Tab", "add an element");
  for (const [number, name, outward] of [
    ["1", "left", "+X"],
    ["2", "right", "-X"],
  ] as const) {
    await (number === "1" ? page.keyboard.press("Enter") : page.keyboard.press("Alt+Enter"));
    await enter(page, `element ${number}, name`, name);
    await enter(page, `${name}, looks toward`, outward);
  }
  await goBy(page, "Tab", "add a tool");
  await page.keyboard.press("Enter");
  await enter(page, "tool 1, name", "pin");
  await enter(page, "pin, kind", "tool or pin");
  await enter(page, "pin, radius", "3");
  await enter(page, "pin, u of radius", "0.002");
  await goBy(page, "Shift+Tab", "add a touch");
  for (const [number, name, travelling, reading] of [
    ["1", "left", "-X", "-213.402"],
    ["2", "right", "+X", "-189.398"],
  ] as const) {
    await (number === "1" ? page.keyboard.press("Enter") : page.keyboard.press("Alt+Enter"));
    await enter(page, `touch ${number}, name`, name);
    await enter(page, `${name}, face`, name);
    await enter(page, `${name}, travelling`, travelling);
    await enter(page, `${name}, with`, "pin");
    await enter(page, `${name}, readings`, reading);
  }
}

describe("a notebook from an empty page, by keyboard alone", () => {
  it("finds the middle of a slot by a formula of one's own, and its budget; undo all, redo all", async () => {
    const { page, errors } = await openSheet();
    await buildSlot(page);
    expect(errors).toEqual([]);
  });
});
