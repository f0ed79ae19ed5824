import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { accessibilityViolations, type OpenBrowser, openBrowser } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const flange = readFileSync(new URL("../../notebooks/demo/bothSides.json", import.meta.url));

async function openFlange() {
  const { page, errors } = await browser.openSheet({ file: flange });
  return { page, errors, choice: page.getByLabel("Operation that is looked at"), section: page.locator("#operations") };
}

describe("a part with two operations on the page", () => {
  it("shows the strategies of the operation that is looked at, and the finished part of both", async () => {
    const { page, errors, choice, section } = await openFlange();
    expect(await choice.inputValue()).toBe("20");
    await section.scrollIntoViewIfNeeded();
    await expect.poll(() => section.locator(".finished-sentence").textContent()).toContain("after operations 10, 20");
    const rows = await section.locator(".finished tbody tr").allTextContents();
    expect(rows.map((row) => /counterbore on the bore20/.test(row))).toContain(true);
    await choice.selectOption("10");
    // Where the job's readings of the first side put the corner of the blank, and the register of that operation.
    await expect.poll(() => page.locator("#zero").textContent()).toContain("G10 L2 P1 X-420.000 Y-210.000 Z-330.000");
    expect(await accessibilityViolations(page)).toEqual([]);
    expect(errors).toEqual([]);
  });

  it("another strategy in use for the second operation changes what the two sides have to do with each other", async () => {
    const { page, section } = await openFlange();
    await section.scrollIntoViewIfNeeded();
    const counterbore = section.locator(".finished tbody tr").filter({ hasText: "counterbore on the bore" });
    await expect.poll(() => counterbore.textContent()).toContain("cutting counterbore");
    const chosen = section.locator('[data-table="operations"] tr[data-row] [data-column="chosen"] [data-cell]').nth(1);
    await chosen.click();
    // This part's right face was touched 0.0308 further out and its front 0.0012 further in than the bore is from where they should be: 2·√(0.0308² + 0.0012²).
    await page.keyboard.type("opposite face");
    await page.keyboard.press("Enter");
    await expect.poll(() => counterbore.textContent()).toContain("0.0616 mm");
  });

  it("a document with one operation shows no choice of operations", async () => {
    const { page } = await browser.openSheet();
    expect(await page.getByLabel("Operation that is looked at").isVisible()).toBe(false);
    expect(await page.locator("#operations .finished").isVisible()).toBe(false);
    expect(await page.locator('[data-table="touches"] [data-column="operation"]').first().isVisible()).toBe(false);
  });
});

describe("heat on the page", () => {
  it("asks for all of it, and tells what is taken out before anything is typed", async () => {
    const { page, errors } = await browser.openSheet();
    const entries = [
      ["part, °C", "26.5"],
      ["expansion of part, 1e-6/K", "23.6"],
      ["scales, °C", "22"],
      ["expansion of scales, 1e-6/K", "11.5"],
    ] as const;
    for (const [i, [label, text]] of entries.entries()) {
      await page.getByLabel(label, { exact: true }).click();
      await page.keyboard.type(text);
      await page.keyboard.press("Enter");
      const problems = page.locator("#problems");
      if (i < entries.length - 1) await expect.poll(() => problems.textContent()).toContain("expansion needs temperature and coefficient");
      else await expect.poll(() => problems.textContent()).not.toContain("expansion needs");
    }
    await page.locator("#zero").scrollIntoViewIfNeeded();
    await expect.poll(() => page.locator("main").textContent()).toContain("Nothing takes that out");
    expect(errors).toEqual([]);
  });
});
