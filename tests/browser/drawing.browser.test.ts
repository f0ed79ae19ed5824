import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { accessibilityViolations, type OpenBrowser, openBrowser } from "../support/openBrowser.ts";

// Many edits a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 180_000 });

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const block = readFileSync(new URL("../documents/orientedBlock.json", import.meta.url));

async function openBlock() {
  const { page, errors } = await browser.openSheet({ file: block });
  const names = (JSON.parse(block.toString()) as { part: { characteristics: { id: string }[] } }).part.characteristics.map(({ id }) => id);
  const row = (name: string) => page.locator('[data-table="part.characteristics"] tr[data-row]').nth(names.indexOf(name));
  const cell = (name: string, column: string) => row(name).locator(`[data-column="${column}"]`);
  const type = async (name: string, column: string, text: string) => {
    await cell(name, column).locator("[data-cell]").click();
    await page.keyboard.type(text);
    await page.keyboard.press("Enter");
  };
  return { page, errors, cell, type };
}

describe("what a drawing demands, on the page", () => {
  it("shows a pattern as one row with its worst member, an angle in degrees, and the stack of the row that one stands on", async () => {
    const { page, errors, cell } = await openBlock();
    await expect.poll(() => cell("holes", "deviation").textContent()).toMatch(/hole \d/);
    await expect.poll(() => cell("back angle", "deviation").textContent()).toContain("°");
    await cell("back angle", "tolerance").locator("[data-cell]").click();
    await expect.poll(() => page.locator("aside").textContent()).toContain("+0.02°");
    await cell("top level", "tolerance").locator("[data-cell]").click();
    await expect.poll(() => page.locator("aside").textContent()).toContain("Zone of width 0.05 mm.");
    const comparison = page.locator("#strategies figure");
    await comparison.scrollIntoViewIfNeeded();
    await expect.poll(() => comparison.textContent()).toContain("holes among themselves");
    expect(await comparison.textContent()).not.toContain("holes, hole 4");
    expect(await accessibilityViolations(page)).toEqual([]);
    expect(errors).toEqual([]);
  });

  it("takes members, zones and angles as they are typed, and says at the row what cannot be", async () => {
    const { page, type } = await openBlock();
    await type("back angle", "tolerance", "±1 arcmin");
    await expect.poll(() => page.locator("aside").textContent()).toContain("0.0166667");
    await type("bore upright", "from", "left");
    await expect
      .poll(() => page.locator('[data-table="part.characteristics"]').textContent())
      .toContain('the drawing puts "bore" and "left" parallel');
    await type("holes", "also", "hole 2");
    const stacks = () => page.getByLabel("Characteristic whose stack is shown").locator("option").allTextContents();
    await expect.poll(stacks).not.toContain("holes, hole 4");
    expect(await stacks()).toContain("holes, hole 2");
  });

  it("follows a datum system: without the mid-plane the bore's place is told from the letters", async () => {
    const { page, cell } = await openBlock();
    await expect.poll(() => cell("bore place", "deviation").textContent()).toContain("0.000");
    const secondary = page.locator('[data-table="part.datumSystems"] tr[data-row] [data-column="secondary"] [data-cell]');
    await secondary.click();
    await page.keyboard.type("left");
    await page.keyboard.press("Enter");
    // The width was found 0.052 over: from the left the bore is off by half of that, on either side, as the diameter used.
    await expect.poll(() => cell("bore place", "deviation").textContent()).toContain("0.052");
    await secondary.click();
    await page.keyboard.type("A");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.locator('[data-table="part.datumSystems"]').textContent()).toContain("a datum counts once in a system");
  });

  it("asks at the machine for a squareness that nobody stated", async () => {
    const { page } = await openBlock();
    const field = page.locator("#machine").getByLabel("out of square about Z");
    await field.scrollIntoViewIfNeeded();
    await field.click();
    await page.keyboard.press("Control+A");
    await page.keyboard.press("Delete");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.locator("#problems").textContent()).toContain("rests on the squareness of the machine about Z");
  });
});
