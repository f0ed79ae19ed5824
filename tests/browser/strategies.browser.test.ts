import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { manyStrategies } from "../support/manyStrategies.ts";
import { accessibilityViolations, type OpenBrowser, openBrowser } from "../support/openBrowser.ts";

// Many steps and a look at the whole page by axe: not to fail on a busy machine.
vi.setConfig({ testTimeout: 240_000 });

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

async function openLarge(page: Page): Promise<void> {
  await page.locator('input[type="file"]').setInputFiles({
    name: "large.json",
    mimeType: "application/json",
    buffer: Buffer.from(manyStrategies({ strategies: 12, holes: 40, trials: 64, chosen: 2 })),
  });
  await expect.poll(() => page.locator(".said").textContent()).toContain("is open");
}

describe("a strategy put together", () => {
  it.each([
    [1440, "light"],
    [390, "dark"],
  ] as const)("by the keyboard alone, told at once, undone like the rest, at %i pixels, %s", async (width, colorScheme) => {
    const { page, errors } = await browser.openSheet({ viewport: { width, height: 900 }, colorScheme });
    const editor = page.locator(".strategy-editor");
    await page.getByLabel("Strategy that is put together").focus();
    await page.keyboard.press("Tab");
    await editor.getByRole("checkbox", { name: "top", exact: false }).first().focus();
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Space");
    await expect.poll(() => editor.locator(".told-of").textContent()).toContain("Free: a shift along Z.");
    expect(await editor.locator(".wrong-of").textContent()).toContain("No touch pushes along Z, so nothing fixes it");
    expect(await page.locator('[data-table="strategies"] tr[data-row]').nth(1).textContent()).not.toContain("top, ");
    expect(await accessibilityViolations(page, "#strategies")).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
    await page.keyboard.press("Control+Z");
    await expect.poll(() => editor.locator(".told-of").textContent()).toContain("Found: X, Y, Z and the turn about Z.");

    await editor.locator("summary").focus();
    await page.keyboard.press("Enter");
    await page.getByLabel("Words of the new strategy").focus();
    await page.keyboard.type("left front top");
    const rows = page.locator('[data-table="strategies"] tr[data-row]');
    const before = await rows.count();
    await editor
      .getByRole("button", { name: /^add left/ })
      .first()
      .focus();
    await page.keyboard.press("Enter");
    await expect.poll(() => rows.count()).toBe(before + 1);
    const put = page.getByLabel("Strategy that is put together");
    await expect.poll(() => put.evaluate((select) => (select as HTMLSelectElement).value)).toContain("left");
    expect(errors).toEqual([]);
  });

  it("by the mouse, with all touches of an element at once", async () => {
    const { page } = await browser.openSheet({ viewport: { width: 1024, height: 900 }, colorScheme: "light" });
    const editor = page.locator(".strategy-editor");
    await editor.getByText("bore, datum B").click();
    await expect.poll(() => editor.locator(".told-of").textContent()).not.toContain("check each other");
    await editor.getByText("bore, datum B").click();
    await expect.poll(() => editor.locator(".told-of").textContent()).toContain('"b1", "b2", "b3" and "b4" check each other');
  });
});

describe("figures of a large job", () => {
  it("scroll inside with heads and names in sight, by the keyboard too, and print in pieces", async () => {
    const { page, errors } = await browser.openSheet();
    await openLarge(page);
    const figure = page.locator("#strategies figure").first();
    await figure.scrollIntoViewIfNeeded();
    const view = figure.locator(".view");
    await expect.poll(() => view.locator(".fig-stays-top").textContent()).toContain("middle of");
    await view.focus();
    await page.keyboard.press("End");
    await page.keyboard.press("ArrowRight");
    await expect.poll(() => view.evaluate((box) => box.scrollTop)).toBeGreaterThan(100);
    const stay = () =>
      view.evaluate((box) => {
        const frame = box.getBoundingClientRect();
        const grounds = [...box.querySelectorAll(".fig-stays-top .fig-ground, .fig-stays-left .fig-ground")].map((each) =>
          each.getBoundingClientRect(),
        );
        return [grounds.some(({ top }) => Math.abs(top - frame.top) <= 1), grounds.some(({ left }) => Math.abs(left - frame.left) <= 1)];
      });
    await expect.poll(stay).toEqual([true, true]);
    expect(await accessibilityViolations(page, "#strategies")).toEqual([]);

    await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
    const pieces = figure.locator(".pieces > svg");
    expect(await pieces.count()).toBeGreaterThan(3);
    await page.emulateMedia({ media: "print" });
    expect(await view.isVisible()).toBe(false);
    expect(await pieces.evaluateAll((all) => all.every((piece) => piece.getBoundingClientRect().width <= 1047))).toBe(true);
    await page.emulateMedia({ media: "screen" });
    await page.evaluate(() => dispatchEvent(new Event("afterprint")));
    expect(await pieces.count()).toBe(0);
    expect(errors).toEqual([]);
  });

  it("map and chain follow the strategy in use", async () => {
    const { page, errors } = await browser.openSheet({ viewport: { width: 1440, height: 900 }, colorScheme: "dark" });
    const map = page.locator("figure", { hasText: "Where the features come to lie" });
    await map.scrollIntoViewIfNeeded();
    await expect.poll(() => map.locator("svg").textContent()).toContain("All regions lie within their zones.");
    await page.locator(".title-block select").first().selectOption("middle of the length");
    await expect.poll(() => map.locator("svg").textContent()).toContain("In the batch the region reaches out of the zone");
    const chain = page.locator("figure", { hasText: "Sizes of the part behind it" });
    await page.getByLabel("the batch, before them").check();
    await chain.scrollIntoViewIfNeeded();
    await expect.poll(() => chain.locator("svg").textContent()).toContain("length 160 ±0.3: gain +1/2, gives 0.087 mm");
    expect(await accessibilityViolations(page, "#strategies")).toEqual([]);
    expect(errors).toEqual([]);
  });
});
