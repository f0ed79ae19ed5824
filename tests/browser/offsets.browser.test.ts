import { readFileSync } from "node:fs";
import { afterAll, beforeAll, expect, it } from "vitest";
import { accessibilityViolations, type OpenBrowser, openBrowser } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const patience = { timeout: 15_000 };
const demo = JSON.parse(readFileSync(new URL("../../notebooks/demo/bearingCover.json", import.meta.url), "utf8"));
const job = {
  ...demo,
  offsets: [
    { id: "first", register: "G54", x: "-412.607 mm ± 0.002 mm", y: "-203.112", z: "-118.400" },
    { id: "nest 2", kind: "local shift", register: "G54", x: "114.3", nest: "2" },
  ],
};

it.each([
  [1440, "light"],
  [390, "dark"],
] as const)(
  "a shift changes hands at %d px, %s: the zero is logged, the machine read back, an old state restored",
  async (width, colorScheme) => {
    const { page, errors } = await browser.openSheet({
      viewport: { width, height: 900 },
      colorScheme,
      file: Buffer.from(JSON.stringify(job)),
    });
    const section = page.locator("#offsets");
    await section.scrollIntoViewIfNeeded();
    const sums = section.locator(".plain tbody").first();
    await expect.poll(() => sums.textContent(), patience).toContain("−298.3070");
    await section.getByRole("button", { name: "log the zero in use" }).click();
    await expect.poll(() => sums.textContent(), patience).toContain("−204.0990");
    await section.getByLabel("Paste what the machine shows", { exact: false }).fill("G21 G90\nG10 L2 P1 X-318.399 Y-176.901 Z284.600");
    await expect.poll(() => section.locator(".agreement").textContent(), patience).toBe("2 values agree with the table; 1 value differs.");
    expect(await section.locator(".told").allTextContents()).toContainEqual(expect.stringContaining("the other sign"));
    await section.getByRole("button", { name: "restore that state" }).click();
    await expect.poll(() => sums.textContent(), patience).toContain("−412.6070");
    expect(await section.locator('[data-table="offsets"] tr[data-row]').count()).toBe(4);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth)).toBe(true);
    expect(await accessibilityViolations(page, "#offsets")).toEqual([]);
    expect(errors).toEqual([]);
  },
);
