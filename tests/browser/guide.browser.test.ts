import { afterAll, beforeAll, expect, it } from "vitest";
import { walk } from "../../notebooks/guide/walk.ts";
import { exampleNames } from "../../notebooks/pages/demo.ts";
import { accessibilityViolations, type OpenBrowser, openBrowser } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

it("a first visit offers a walk in one line; it is taken, step by step, and ended by the keyboard, and not offered again", async () => {
  const { page, errors } = await browser.openSheet();
  const take = page.getByRole("button", { name: "take the walk" });
  expect((await page.locator(".guide").boundingBox())?.height).toBeLessThan(60);
  await take.press("Enter");
  for (const [i, { section }] of walk.entries()) {
    await page.locator(".walk-words", { hasText: `${i + 1} of ${walk.length}` }).waitFor();
    const box = await page.locator(`#${section}`).boundingBox();
    expect(box?.y, section).toBeLessThan(500);
    expect(await page.evaluate(() => document.activeElement?.closest(".walk") !== null)).toBe(true);
    if (i === 1) expect(await accessibilityViolations(page, ".guide")).toEqual([]);
    if (i < 2) await page.keyboard.press("Enter");
    else break;
  }
  await page.keyboard.press("Escape");
  expect(await page.locator(".guide").isHidden()).toBe(true);
  await page.reload();
  await page.waitForSelector('.sheet[data-state="settled"]');
  expect(await take.count()).toBe(0);
  expect(errors).toEqual([]);
});

it("F1 lays a slip beside the entry, Escape and going on take it away; the entry keeps the focus", async () => {
  const { page, errors } = await browser.openSheet({ colorScheme: "dark" });
  const scatter = page.locator('[data-table="tools"] [data-column="scatter"] input').first();
  const slip = page.locator(".entry-slip");
  await scatter.focus();
  await page.keyboard.press("F1");
  await slip.getByText("JCGM 100:2008, 4.2.3").waitFor();
  expect(await slip.textContent()).toContain("shop default");
  expect(await scatter.evaluate((control) => control === document.activeElement)).toBe(true);
  expect(await accessibilityViolations(page, "#tools")).toEqual([]);
  await page.keyboard.press("Escape");
  expect(await slip.isHidden()).toBe(true);
  await page.keyboard.press("F1");
  await slip.waitFor();
  await page.keyboard.press("ArrowRight");
  expect(await slip.isHidden()).toBe(true);
  // By the mouse, of the entry that was stood on last.
  await page.getByRole("button", { name: "about an entry" }).click();
  await slip.getByText("scatter from").waitFor();
  expect(errors).toEqual([]);
});

it.each([
  [1440, "light"],
  [390, "dark"],
] as const)("the guide at %d px, %s: read, looked up and put away by the keyboard, without a violation", async (width, colorScheme) => {
  const { page, errors } = await browser.openSheet({ viewport: { width, height: 900 }, colorScheme });
  const guide = page.getByRole("button", { name: "guide", exact: true });
  await guide.press("Enter");
  const word = page.getByLabel("Look up a word in the guide");
  await word.waitFor();
  expect(await word.evaluate((control) => control === document.activeElement)).toBe(true);
  expect(await page.locator(".gallery li").count()).toBe(exampleNames.length);
  await page.getByRole("button", { name: "The mathematics on one page" }).press("Enter");
  await page.getByRole("heading", { name: "The mathematics on one page" }).waitFor();
  expect(await accessibilityViolations(page, ".guide")).toEqual([]);
  await word.fill("guard band");
  await page.locator(".found li").first().waitFor();
  expect(await accessibilityViolations(page, ".guide")).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  await page.keyboard.press("Escape");
  expect(await guide.evaluate((button) => button === document.activeElement)).toBe(true);
  expect(errors).toEqual([]);
});

it.each([
  [1440, "light"],
  [390, "dark"],
] as const)("a place of the sheet is found by the keyboard alone at %d px, %s, without a violation", async (width, colorScheme) => {
  const { page, errors } = await browser.openSheet({ viewport: { width, height: 900 }, colorScheme });
  const here = () => page.evaluate(() => document.activeElement?.getAttribute("aria-label"));
  // Nothing has the focus: the key works from everywhere.
  await page.keyboard.press("F8");
  expect(await here()).toBe("Find in the notebook");
  await page.keyboard.type("probe scatter");
  await page.locator(".found-places li").first().waitFor();
  expect(await page.locator(".found-places li").first().locator(".balloon").textContent()).toBe("13");
  expect(await accessibilityViolations(page, ".contents")).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  await page.keyboard.press("Enter");
  expect(await here()).toBe("probe, scatter");
  const box = await page.locator('[aria-label="probe, scatter"]').boundingBox();
  expect(box?.y).toBeGreaterThan(0);
  expect(box?.y).toBeLessThan(900);
  // And from an entry, with another of those found, and back.
  await page.keyboard.press("F8");
  await page.keyboard.type("-234.9");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("Escape");
  expect(await here()).toBe("probe, scatter");
  expect(await page.locator(".found-places").isHidden()).toBe(true);
  expect(errors).toEqual([]);
});
