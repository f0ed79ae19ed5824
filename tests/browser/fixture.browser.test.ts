import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { accessibilityViolations, type OpenBrowser, openBrowser } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const plate = readFileSync(new URL("../documents/locatedPlate.json", import.meta.url));

async function openPlate() {
  const { page, errors } = await browser.openSheet({ file: plate });
  await page.locator("#fixture").scrollIntoViewIfNeeded();
  return { page, errors, section: page.locator("#fixture") };
}

describe("the fixture on the page", () => {
  it("shows locators, what they hold, and the part moved by the locator that one stands on", async () => {
    const { page, errors, section } = await openPlate();
    await expect.poll(() => section.locator(".findings").textContent()).toContain("The locators hold all six motions of the part.");
    await section.getByLabel("height ±", { exact: false }).nth(3).click();
    await expect.poll(() => section.locator("figure").first().textContent()).toContain("moved by one standard uncertainty of jaw, one end");
    expect(await accessibilityViolations(page, "#fixture")).toEqual([]);
    expect(errors).toEqual([]);
  });

  it("works out again what an entry changes, and says at its row what cannot be", async () => {
    const { page, section } = await openPlate();
    const x = section.locator('[data-table="fixture.locators"] tr[data-row] [data-column="x"] [data-cell]').nth(1);
    await x.click();
    await page.keyboard.type("20");
    await page.keyboard.press("Enter");
    // Beside the first pad at the same place: five motions are held.
    await expect.poll(() => section.locator(".findings").textContent()).toContain("The locators hold 5 of the part's six motions.");
    expect(await section.locator('[data-table="fixture.locators"]').textContent()).toContain(
      "“pad 2” holds nothing that “pad 1” does not hold already".replace(/[“”]/g, '"'),
    );
  });

  it("offers what of the fixture can be touched after the faces of the part, and ticks for such touches", async () => {
    const file = readFileSync(new URL("../documents/viceZero.json", import.meta.url));
    const { page, errors } = await browser.openSheet({ file });
    const face = page.getByLabel("jaw a, face", { exact: true }).first();
    const offered = await face.locator("option").allTextContents();
    expect(offered.filter((name) => ["right", "jaw", "stop", "parallel left"].includes(name))).toEqual([
      "right",
      "parallel left",
      "jaw",
      "stop",
    ]);
    expect(await page.locator("#strategies").textContent()).toContain("fixed jaw of the fixture");
    expect(errors).toEqual([]);
  });
});
