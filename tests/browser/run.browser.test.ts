import { readFileSync } from "node:fs";
import { afterAll, beforeAll, expect, it } from "vitest";
import { addRow } from "../support/keyboard.ts";
import { accessibilityViolations, type OpenBrowser, openBrowser } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const plates = readFileSync(new URL("../documents/runOfPlates.json", import.meta.url));

it("made parts and warming up are judged on the page, anew with every entry, and told at their place where they cannot be", async () => {
  const { page, errors } = await browser.openSheet({ viewport: { width: 1024, height: 900 }, colorScheme: "dark", file: plates });

  const made = page.locator("#madeParts");
  await made.scrollIntoViewIfNeeded();
  await expect.poll(() => made.locator(".findings").textContent()).toContain("changes the offset by X -0.0220 mm");
  await made.getByLabel("Feature whose run is drawn").selectOption("hole 3 along Y");
  await expect.poll(() => made.locator("figure desc").textContent()).toContain("hole 3 along Y");
  await made.getByLabel("6: hole 3, off Y", { exact: true }).click();
  await page.keyboard.type("-0.0050");
  await page.keyboard.press("Enter");
  await expect.poll(() => made.locator(".findings").textContent()).not.toContain("part 6 of the run is beyond");

  const warm = page.locator("#warmUp");
  await warm.scrollIntoViewIfNeeded();
  await expect.poll(() => warm.locator(".findings").textContent()).toContain('which is what "depth" leaves along Z');
  await warm.getByLabel("allowed drift", { exact: true }).click();
  await page.keyboard.type("0.006");
  await page.keyboard.press("Enter");
  await expect.poll(() => warm.locator(".findings").textContent()).toContain("it is good until 56 min");
  expect(await accessibilityViolations(page)).toEqual([]);

  await warm.getByLabel("reading 2, minutes", { exact: true }).click();
  await page.keyboard.type("-3");
  await page.keyboard.press("Enter");
  await expect.poll(() => warm.textContent()).toContain("this time is out of reason");
  expect(errors).toEqual([]);
});

/** Part 1 as it was, off by 0.030 along X, and one after a correction of -0.030 that is off by 0.060. */
function doubledDeviation(): Buffer {
  const document = JSON.parse(plates.toString());
  const made = document.madeParts.measured.filter(({ part }: { part: string }) => part === "1");
  const next = made.map((row: { id: string; x: string }) => ({ ...row, id: `next ${row.id}`, part: "2", x: String(Number(row.x) + 0.03) }));
  document.madeParts = { ...document.madeParts, measured: [...made, ...next], partScatter: "0.003" };
  return Buffer.from(JSON.stringify(document));
}

it("a correction typed between two parts counts, and one with the wrong sign is told", async () => {
  const { page, errors } = await browser.openSheet({ viewport: { width: 1024, height: 900 }, file: doubledDeviation() });
  const made = page.locator("#madeParts");
  const findings = page.locator(".slips");
  await made.scrollIntoViewIfNeeded();
  await expect.poll(() => made.locator(".findings").textContent()).toContain("A shift along X: +0.0483");
  expect(await findings.textContent()).not.toContain("wrong sign");
  await made.getByRole("button", { name: "add a correction of the run" }).focus();
  await addRow(page, "add a correction of the run", [
    ["correction 1, after part", "1"],
    ["correction 1, moved X", "-0.03"],
  ]);
  await page.keyboard.press("Enter");
  await expect.poll(() => findings.textContent()).toContain("the correction may have gone in with the wrong sign");
  // One of two parts counts with -0.0300, so that the mean comes out 0.0150 less.
  await expect.poll(() => made.locator(".findings").textContent()).toContain("A shift along X: +0.0333");
  expect(await accessibilityViolations(page, "#madeParts")).toEqual([]);
  await made.getByLabel("correction 1, after part", { exact: true }).click();
  await page.keyboard.type("9");
  await page.keyboard.press("Enter");
  await expect.poll(() => made.textContent()).toContain("nothing was measured on a part by this name");
  expect(errors).toEqual([]);
});
