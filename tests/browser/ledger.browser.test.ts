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
  for (let presses = 0; presses < 200; presses++) {
    if ((await focused(page)) === name) return;
    await page.keyboard.press(key);
  }
  throw new Error(`${key} never came to "${name}", last to "${await focused(page)}"`);
}

/** Goes right in the row to the entry with this name, and types. */
async function enter(page: Page, name: string, text: string): Promise<void> {
  const isEdited = await page.evaluate(() => (document.activeElement as HTMLElement).dataset["editing"] !== undefined);
  if (isEdited) await page.keyboard.press("Tab");
  await goBy(page, "ArrowRight", name);
  await page.keyboard.type(text);
}

/** Presses a button that lies further on, then fills the row that comes. */
async function addRow(page: Page, button: string, entries: readonly (readonly [name: string, text: string])[]): Promise<void> {
  await goBy(page, "Tab", button);
  await page.keyboard.press("Enter");
  for (const [name, text] of entries) await enter(page, name, text);
}

const comesTo = (page: Page) =>
  page
    .locator(".block.cell .result")
    .evaluateAll((results) => results.map(({ children }) => [...children].map(({ textContent }) => textContent)));

const touchOf = (number: number, name: string, travelling: string, reading: string) =>
  [
    [`touch ${number}, name`, name],
    [`${name}, face`, name],
    [`${name}, travelling`, travelling],
    [`${name}, with`, "pin"],
    [`${name}, readings`, reading],
  ] as const;

it("a notebook is built from an empty page by keyboard alone: a slot centre from two wall touches with a pin, a formula of one's own, its budget; all undone and done again", {
  timeout: 240_000,
}, async () => {
  const { page, errors } = await openSheet();
  await goBy(page, "Tab", "new");
  await page.keyboard.press("Enter");
  await goBy(page, "Tab", "blank");
  await page.keyboard.press("Enter");
  await addRow(page, "add a heading", []);
  await page.keyboard.type("The slot");
  await addRow(page, "add an element", [
    ["element 1, name", "left"],
    ["left, looks to", "+X"],
    ["left, datum", "A"],
  ]);
  await page.keyboard.press("Alt+Enter");
  for (const [name, text] of [
    ["element 2, name", "right"],
    ["right, looks to", "-X"],
  ] as const)
    await enter(page, name, text);
  await addRow(page, "add a dimension", [
    ["dimension 1, name", "slot"],
    ["slot, from", "left"],
    ["slot, to", "right"],
    ["slot, along", "X"],
    ["slot, nominal", "30"],
    ["slot, tolerance", "±0.1"],
  ]);
  await addRow(page, "add a tool", [
    ["tool 1, name", "pin"],
    ["pin, kind", "tool"],
    ["pin, radius", "3"],
    ["pin, its u", "0.002"],
    ["pin, scatter", "0.001"],
  ]);
  await page.keyboard.press("Tab");
  // Round the end of the page to its beginning.
  await addRow(page, "add a touch", touchOf(1, "left", "-X", "-213.402"));
  await page.keyboard.press("Alt+Enter");
  for (const [name, text] of touchOf(2, "right", "+X", "-189.398")) await enter(page, name, text);
  await page.keyboard.press("Tab");
  await goBy(page, "Tab", "heading The slot");
  await page.keyboard.press("Alt+Enter");
  await enter(page, "cell_1, name", "middle");
  await enter(page, "middle, entry", "(left_face + right_face) / 2");
  await page.keyboard.press("Alt+Enter");
  await enter(page, "cell_1, name", "size");
  await enter(page, "size, entry", "right_face - left_face");
  await page.keyboard.press("Enter");
  // By hand: the middle of the readings, from which the radius vanishes, doubts as 0.001/√2; their distance with twice the radius
  // as the root of (2 · 0.002)² + 2 · 0.001².
  expect(await comesTo(page)).toEqual([
    ["−201.40000 mm", "u 0.00071"],
    ["30.0040 mm", "u 0.0042"],
  ]);
  await goBy(page, "Shift+Tab", "size, entry");
  await page.waitForFunction(() => document.querySelector(".made-of [aria-busy]") === null);
  const made = page.locator(".made-of");
  expect(await made.locator(".formula").allTextContents()).toEqual(["= right_face - left_face", "= −186.3980 mm - −216.4020 mm"]);
  expect(await made.locator("svg.fig-budget desc").textContent()).toContain("radius of pin +0.0040 mm");
  expect(await accessibilityViolations(page)).toEqual([]);
  const built = await comesTo(page);
  for (let steps = 0; steps < 100 && (await page.locator(".said").textContent()) !== "There is nothing to undo."; steps++)
    await page.keyboard.press("Control+z");
  expect(await page.locator(".job").textContent()).toBe("Bearing cover, second side");
  for (let steps = 0; steps < 100 && (await page.locator(".said").textContent()) !== "There is nothing to redo."; steps++)
    await page.keyboard.press("Control+y");
  expect(await comesTo(page)).toEqual(built);
  expect(errors).toEqual([]);
});

describe.each([
  ["light", 1440],
  ["dark", 1440],
  ["light", 390],
] as const)("the ledger in the %s scheme at a width of %i", (colorScheme, width) => {
  it("has no accessibility violations while something is supposed and something is wrong, and nothing scrolls sideways", {
    timeout: 120_000,
  }, async () => {
    const { page } = await openSheet({ viewport: { width, height: 900 }, colorScheme });
    await page.getByLabel("length_by_micrometer, name").focus();
    await page.getByRole("button", { name: "suppose:" }).click();
    await page.keyboard.type("160.3 mm ± 0.01 mm");
    await page.getByRole("button", { name: "lay a slider over it" }).click();
    await page.keyboard.press("ArrowRight");
    await page.getByLabel("wall_at_left, entry").fill("b2_face -");
    await page.getByLabel("difference, entry").focus();
    await page.getByRole("button", { name: "more:" }).click();
    expect(await page.locator(".suppositions").textContent()).toContain("length_by_micrometer is 160.3 mm ± 0.01 mm");
    expect(await page.locator('[aria-label="wall_at_left"] .words-of-block').textContent()).not.toBe("");
    expect(await page.locator(".lines").isVisible()).toBe(false);
    await page.waitForFunction(() => document.querySelector("[aria-busy]") === null);
    expect(await accessibilityViolations(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
  });
});
