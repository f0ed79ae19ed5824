import { readFileSync } from "node:fs";
import { afterAll, beforeAll, expect, it } from "vitest";
import { accessibilityViolations, type OpenBrowser, openBrowser } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

/** What is out of sight follows when the page is idle, which a busy machine is late with. */
const patience = { timeout: 15_000 };
const plates = readFileSync(new URL("../documents/runOfPlates.json", import.meta.url));

it("made parts and warming up are judged on the page, anew with every entry, and told at their place where they cannot be", async () => {
  const { page, errors } = await browser.openSheet({ viewport: { width: 1024, height: 900 }, colorScheme: "dark", file: plates });

  const made = page.locator("#madeParts");
  await made.scrollIntoViewIfNeeded();
  await expect.poll(() => made.locator(".findings").textContent(), patience).toContain("changes the offset by X -0.0220 mm");
  await made.getByLabel("Feature whose run is drawn").selectOption("hole 3 along Y");
  await expect.poll(() => made.locator("figure desc").textContent(), patience).toContain("hole 3 along Y");
  await made.getByLabel("6: hole 3, off Y", { exact: true }).click();
  await page.keyboard.type("-0.0050");
  await page.keyboard.press("Enter");
  await expect.poll(() => made.locator(".findings").textContent(), patience).not.toContain("part 6 of the run is beyond");

  const warm = page.locator("#warmUp");
  await warm.scrollIntoViewIfNeeded();
  await expect.poll(() => warm.locator(".findings").textContent(), patience).toContain('which is what "depth" leaves along Z');
  await warm.getByLabel("allowed drift", { exact: true }).click();
  await page.keyboard.type("0.006");
  await page.keyboard.press("Enter");
  await expect.poll(() => warm.locator(".findings").textContent(), patience).toContain("it is good until 56 min");
  expect(await accessibilityViolations(page)).toEqual([]);

  await warm.getByLabel("reading 2, minutes", { exact: true }).click();
  await page.keyboard.type("-3");
  await page.keyboard.press("Enter");
  await expect.poll(() => warm.textContent(), patience).toContain("this time is out of reason");
  expect(errors).toEqual([]);
});
