import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { accessibilityViolations, type OpenBrowser, openBrowser } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

describe("what would help", () => {
  it.each([
    [1440, "light"],
    [390, "dark"],
  ] as const)("is asked, answered and taken over by the keyboard alone at %i pixels, %s", async (width, colorScheme) => {
    const { page, errors } = await browser.openSheet({ viewport: { width, height: 900 }, colorScheme });
    const section = page.locator("#help");
    await page.getByLabel("each characteristic is to have a chance of").focus();
    await page.keyboard.press("Control+A");
    await page.keyboard.type("95 %");
    await page.keyboard.press("Enter");
    await expect.poll(() => section.locator(".what-helps li").count()).toBeGreaterThan(1);
    expect(await section.locator(".what-helps li").first().textContent()).toMatch(/^The chance that all characteristics are met is /);
    expect(await accessibilityViolations(page, "#help")).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);

    const before = await page.locator('[data-table="strategies"] tr[data-row]').count();
    const take = section.getByRole("button", { name: /^take over / }).first();
    await take.focus();
    await page.keyboard.press("Enter");
    await expect.poll(() => page.locator('[data-table="strategies"] tr[data-row]').count()).toBe(before + 1);
    // The answer stays, since one more strategy changes nothing of it.
    expect(await take.isVisible()).toBe(true);
    await page.keyboard.press("Control+Z");
    await expect.poll(() => page.locator('[data-table="strategies"] tr[data-row]').count()).toBe(before);
    expect(errors).toEqual([]);
  });
});
