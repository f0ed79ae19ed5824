import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { accessibilityViolations, type OpenBrowser, openBrowser, workedOut } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const cell = (page: Page, label: string) => page.getByLabel(label, { exact: true }).first();
const putOnClipboard = (page: Page, text: string) => page.evaluate((copied) => navigator.clipboard.writeText(copied), text);
const clipboard = (page: Page) => page.evaluate(() => navigator.clipboard.readText());
const here = (page: Page) => page.evaluate(() => document.activeElement?.getAttribute("aria-label"));
const said = (page: Page) => page.locator(".said").textContent();
const selected = (page: Page) => page.locator("[data-table='touches'] .note .selected").textContent();
const press = async (page: Page, ...keys: string[]) => {
  for (const key of keys) await page.keyboard.press(key);
};
const dialog = (page: Page) => page.locator("dialog.paste-preview");
const column = (page: Page, name: string) =>
  page
    .locator(`[data-table="touches"] tr[data-row] [data-column="${name}"] [data-cell]`)
    .evaluateAll((all) => all.map((each) => (each as HTMLInputElement).value));
const zeros = (page: Page) => page.locator(".title-block .zero b").allTextContents();

/** Twenty repeats of a touch as a display with a decimal comma would be noted: common practice, no source. */
const twenty = Array.from({ length: 20 }, (_, i) => `-290,${385 + (i % 7)}`);

describe("twenty readings pasted, by the keyboard alone", () => {
  it("are asked about, taken, undone and done again, each as one step", async () => {
    const { page, errors } = await browser.openSheet();
    await cell(page, "b1, readings").focus();
    const [before, beforeZeros, names] = [await column(page, "readings"), await zeros(page), await column(page, "id")];
    await putOnClipboard(page, twenty.join("\n"));
    await press(page, "Control+v");
    // The comma is a question, and Enter takes nothing until it is answered.
    expect(await dialog(page).locator("legend").allTextContents()).toEqual(["Commas are"]);
    await press(page, "Enter");
    expect(await dialog(page).locator(".wrong").textContent()).toContain("First say what this means");
    expect(await column(page, "readings")).toEqual(before);
    await press(page, "ArrowDown");
    expect(await dialog(page).locator("input:checked").getAttribute("value")).toBe("decimal");
    expect(await dialog(page).locator("td").first().textContent()).toContain("-290,385");
    await press(page, "Enter");
    expect(await dialog(page).count()).toBe(0);
    expect(await here(page)).toBe("b1, readings");
    const taken = await column(page, "readings");
    expect(taken).toEqual(twenty.map((text) => text.replace(",", ".")));
    expect(await said(page)).toBe("20 cells filled, 11 rows added; undo takes it back.");
    await expect.poll(() => zeros(page)).not.toEqual(beforeZeros);
    // More steps upon it, then all of them back, and all of them again.
    await press(page, "Control+d", "Delete", "Alt+ArrowDown");
    const last = await column(page, "readings");
    await press(page, "Control+z", "Control+z");
    await press(page, "Control+z", "Control+z");
    expect(await column(page, "readings")).toEqual(before);
    expect(await column(page, "id")).toEqual(names);
    await expect.poll(() => zeros(page)).toEqual(beforeZeros);
    await press(page, "Control+y", "Control+y", "Control+y", "Control+y", "Control+y");
    expect(await column(page, "readings")).toEqual(last);
    expect(errors).toEqual([]);
  });

  it("are refused by Escape, and nothing is changed", async () => {
    const { page } = await browser.openSheet();
    await cell(page, "b1, readings").focus();
    const before = await column(page, "readings");
    await putOnClipboard(page, twenty.join("\n"));
    await press(page, "Control+v", "Tab", "Tab", "Tab", "Tab", "Tab");
    // However often Tab is pressed, the focus stays within the dialog.
    expect(await page.evaluate(() => document.activeElement?.closest("dialog") !== null || document.activeElement === document.body)).toBe(
      true,
    );
    await press(page, "Escape");
    expect(await dialog(page).count()).toBe(0);
    expect(await column(page, "readings")).toEqual(before);
    expect(await here(page)).toBe("b1, readings");
    expect(await said(page)).toBe("Nothing was pasted.");
  });

  it("are taken at once where there is nothing to ask", async () => {
    const { page } = await browser.openSheet();
    await cell(page, "b1, readings").focus();
    await putOnClipboard(page, twenty.map((text) => text.replace(",", ".")).join("\r\n"));
    await press(page, "Control+v");
    expect(await dialog(page).count()).toBe(0);
    expect(await column(page, "readings")).toHaveLength(20);
    await press(page, "Control+z");
    expect(await column(page, "readings")).toHaveLength(9);
  });
});

it("a block with doubts in cells shows each, with what could be meant instead", async () => {
  const { page } = await browser.openSheet();
  await cell(page, "b1, name").focus();
  await putOnClipboard(
    page,
    "hole\twhere\tway\twith\tupon\tx\ty\tshows\textra\nb1\tbore\t+x\tProbe\t\t\t\t-290.388\t7\nb2\tboer\t-X\tprobe\t\t\t\tabout 12\t",
  );
  await press(page, "Control+v");
  expect(await dialog(page).locator("legend").allTextContents()).toEqual(["The first row (hole, where, way, with, …)"]);
  expect(await dialog(page).locator(".doubts b").allTextContents()).toEqual(["“+x”", "“Probe”", "“boer”", "“about 12”"]);
  expect(await dialog(page).locator(".refused li").allTextContents()).toEqual(["“7” stands beyond the last column"]);
  await page.getByLabel("“boer” in face").selectOption({ label: "take it for “bore”" });
  expect(await accessibilityViolations(page, "dialog.paste-preview")).toEqual([]);
  await page.getByRole("button", { name: "take it" }).click();
  expect((await column(page, "element")).slice(0, 2)).toEqual(["bore", "bore"]);
  expect((await column(page, "travelling")).slice(0, 2)).toEqual(["+X", "-X"]);
  expect((await column(page, "tool")).slice(0, 2)).toEqual(["probe", "probe"]);
  expect((await column(page, "readings")).slice(0, 2)).toEqual(["-290.388", "about 12"]);
  expect(await said(page)).toContain("Left out: “7” stands beyond the last column.");
  await expect.poll(() => cell(page, "b2, readings").getAttribute("aria-invalid")).toBe("true");
});

describe("a range by the keyboard", () => {
  it("is drawn out with Shift, told in words, copied, cut, and pasted elsewhere", async () => {
    const { page, errors } = await browser.openSheet();
    await cell(page, "b1, travelling").focus();
    await press(page, "Shift+ArrowDown", "Shift+ArrowRight");
    expect(await selected(page)).toBe("2 rows by 2 columns selected: b1, travelling to b2, with. ");
    expect(await page.locator("[aria-selected='true']").count()).toBe(4);
    await press(page, "Control+c");
    expect(await clipboard(page)).toBe("+X\tprobe\n-X\tprobe");
    await press(page, "ArrowDown", "ArrowDown");
    expect(await page.locator("[aria-selected='true']").count()).toBe(0);
    expect(await here(page)).toBe("b3, travelling");
    await press(page, "Control+v");
    expect((await column(page, "travelling")).slice(0, 4)).toEqual(["+X", "-X", "+X", "-X"]);
    await press(page, "Control+z");
    await cell(page, "b1, readings").focus();
    await press(page, "Shift+ArrowDown", "Control+x");
    expect((await column(page, "readings")).slice(0, 3)).toEqual(["", "", "-148.895"]);
    expect(await clipboard(page)).toBe("-290.388\n-346.411");
    await press(page, "Control+z");
    expect((await column(page, "readings")).slice(0, 2)).toEqual(["-290.388", "-346.411"]);
    expect(errors).toEqual([]);
  });

  it("passes over results when what was copied with them is pasted", async () => {
    const { page } = await browser.openSheet();
    await cell(page, "bore, name").focus();
    await press(page, "Control+a", "Control+c");
    expect(await clipboard(page)).toContain("-318.3995");
    await press(page, "Control+v");
    expect(await dialog(page).count()).toBe(0);
    expect(await said(page)).toContain("cells filled; undo takes it back.");
    expect(await page.locator(".title-block .problems").textContent()).toBe("none");
  });

  it("is filled by one value with Control and Enter, as one step", async () => {
    const { page } = await browser.openSheet();
    await cell(page, "b1, readings").focus();
    await press(page, "Shift+ArrowDown", "Shift+ArrowDown");
    await page.keyboard.type("-5");
    await press(page, "Control+Enter");
    expect((await column(page, "readings")).slice(0, 4)).toEqual(["-5", "-5", "-5", "-204.907"]);
    await press(page, "Control+z");
    expect((await column(page, "readings")).slice(0, 3)).toEqual(["-290.388", "-346.411", "-148.895"]);
  });

  it("moves, removes and adds as many rows as it has", async () => {
    const { page } = await browser.openSheet();
    const before = await column(page, "id");
    await cell(page, "b2, readings").focus();
    await press(page, "Shift+ArrowDown", "Alt+ArrowUp");
    expect((await column(page, "id")).slice(0, 3)).toEqual(["b2", "b3", "b1"]);
    await press(page, "Alt+Shift+Enter");
    expect((await column(page, "id")).slice(2, 4)).toEqual(["b2", "b3"]);
    await press(page, "Control+z", "Control+z");
    expect(await column(page, "id")).toEqual(before);
    await cell(page, "b2, readings").focus();
    await press(page, "Shift+ArrowDown", "Shift+Space", "Alt+Delete");
    expect((await column(page, "id")).slice(0, 3)).toEqual(["b1", "b4", "left"]);
    // A cell of the ledger names the face that b2 finds.
    expect(await said(page)).toBe("2 rows are removed; undo brings them back. Without them there is no wall_at_left.");
    await press(page, "Control+z");
    expect(await column(page, "id")).toEqual(before);
  });
});

describe("a range by the mouse", () => {
  it("is drawn from cell to cell, with Shift to another, and over the heads of rows and columns", async () => {
    const { page, errors } = await browser.openSheet();
    const box = async (label: string) => {
      const found = await cell(page, label).boundingBox();
      if (found === null) throw new Error(`${label} is not on the page`);
      return [found.x + 8, found.y + found.height / 2] as const;
    };
    await page.mouse.move(...(await box("b2, travelling")));
    await page.mouse.down();
    await page.mouse.move(...(await box("b3, with")), { steps: 4 });
    await page.mouse.move(...(await box("b4, readings")), { steps: 4 });
    await page.mouse.up();
    expect(await selected(page)).toContain("3 rows by 6 columns selected: b2, travelling to b4, readings.");
    expect(await here(page)).toBe("b2, travelling");
    await page.keyboard.down("Shift");
    await page.mouse.click(...(await box("left, with")));
    await page.keyboard.up("Shift");
    expect(await selected(page)).toContain("4 rows by 2 columns selected: b2, travelling to left, with.");
    await page.getByLabel("select row b3").first().click();
    await page
      .getByLabel("select row left")
      .first()
      .click({ modifiers: ["Shift"] });
    expect(await selected(page)).toContain("3 rows by");
    expect(await here(page)).toBe("b3, name");
    await page.locator("[data-table='touches'] th[data-head='readings']").click();
    expect(await selected(page)).toContain("9 rows by 1 column selected: b1, readings to top, readings.");
    // A click within the text that one stands on puts the caret there and selects nothing.
    await page.mouse.click(...(await box("b2, readings")));
    await page.mouse.click(...(await box("b2, readings")));
    expect(await cell(page, "b2, readings").getAttribute("data-editing")).toBe("");
    expect(await selected(page)).toBe("");
    expect(errors).toEqual([]);
  });

  it("is sorted by the column that one stands in, numbers as numbers with their units, and back", async () => {
    const { page } = await browser.openSheet();
    const before = await column(page, "id");
    await cell(page, "b4, at Y").fill("-10 in");
    await cell(page, "b1, at Y").focus();
    const sort = page.locator("[data-table='touches']").getByRole("button", { name: "sort" });
    await sort.click();
    // -254 mm, -176.912, -176.912, -170, -170; rows without one come last in their own order.
    expect(await column(page, "id")).toEqual(["b4", "b1", "b2", "left", "right", "b3", "front 1", "front 2", "top"]);
    await sort.click();
    expect(await column(page, "id")).toEqual(["left", "right", "b1", "b2", "b4", "b3", "front 1", "front 2", "top"]);
    await press(page, "Control+z", "Control+z", "Control+z");
    expect(await column(page, "id")).toEqual(before);
  });
});

describe.each([
  ["light", 1440],
  ["dark", 390],
] as const)("in the %s scheme at a width of %i", (colorScheme, width) => {
  it("a range and a preview have no accessibility violations", async () => {
    const { page } = await browser.openSheet({ viewport: { width, height: 900 }, colorScheme });
    await cell(page, "b1, travelling").focus();
    await press(page, "Shift+ArrowDown", "Shift+ArrowRight");
    expect(await accessibilityViolations(page, "[data-table='touches']")).toEqual([]);
    await putOnClipboard(page, "12,500\tprobe\n13,500 abc\tspindle");
    await cell(page, "b1, at Y").focus();
    await press(page, "Control+v");
    expect(await dialog(page).count()).toBe(1);
    expect(await accessibilityViolations(page, "dialog.paste-preview")).toEqual([]);
  });
});

describe("a long table", () => {
  const demo = JSON.parse(readFileSync(new URL("../../notebooks/demo/bearingCover.json", import.meta.url), "utf8"));
  const count = 1200;
  const spacers = Array.from({ length: count }, (_, i) => ({
    id: `paper ${i + 1}`,
    thickness: "0.05",
    uncertainty: "",
    evidence: "stated",
    note: "",
  }));
  const inPage = (page: Page) => page.locator("[data-table='spacers'] tr[data-row]").count();

  async function openLong() {
    const { page, errors } = await browser.openSheet();
    const buffer = Buffer.from(JSON.stringify({ ...demo, title: "Much paper", spacers: [...demo.spacers, ...spacers] }));
    await page.locator('input[type="file"]').setInputFiles({ name: "long.json", mimeType: "application/json", buffer });
    await page.getByText("Much paper", { exact: true }).first().waitFor();
    await page.waitForSelector('.sheet[data-state="settled"]');
    // What is out of sight is drawn last, and moves what is below it; last of all comes what the worker studies when nothing else is to be done.
    await page.locator("#certainty .answers:not([hidden]):not([aria-busy])").waitFor({ state: "attached", timeout: 30_000 });
    await page.waitForTimeout(400);
    await workedOut(page);
    return { page, errors };
  }

  it("has the rows near the window alone in the page, tells their number and places, and prints the first thousand", async () => {
    const { page, errors } = await openLong();
    const table = page.locator("[data-table='spacers'] table");
    expect(Number(await table.getAttribute("aria-rowcount"))).toBe(count + demo.spacers.length + 1);
    expect(await inPage(page)).toBeLessThan(120);
    // A name far down is found, focused, and in sight.
    await page.getByLabel("Find in the notebook").fill("paper 900");
    await press(page, "Enter");
    expect(await here(page)).toBe("paper 900, name");
    const place = await page.locator("[data-table='spacers'] tr[data-standing]").getAttribute("aria-rowindex");
    expect(Number(place)).toBe(900 + demo.spacers.length + 1);
    const [row, frame] = await Promise.all([
      page.locator("[data-table='spacers'] tr[data-standing]").boundingBox(),
      page.locator("[data-table='spacers'] .frame").boundingBox(),
    ]);
    expect(row?.y).toBeGreaterThan(frame?.y ?? Number.POSITIVE_INFINITY);
    expect(row?.y).toBeLessThan((frame?.y ?? 0) + (frame?.height ?? 0));
    await press(page, "ArrowDown", "ArrowDown", "ArrowRight");
    expect(await here(page)).toBe("paper 902, thickness");
    await press(page, "Control+End");
    expect(await here(page)).toContain(`paper ${count}, `);
    await press(page, "ArrowUp", "PageUp", "Control+Home");
    expect(await here(page)).toContain(`${demo.spacers[0].id}, `);
    await press(page, "Control+a");
    expect(await page.locator("[data-table='spacers'] .note .selected").textContent()).toContain(`${count + demo.spacers.length} rows by`);
    expect(await inPage(page)).toBeLessThan(120);
    expect(await accessibilityViolations(page, "[data-table='spacers']")).toEqual([]);
    // On paper the first thousand rows, and how many are left.
    await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
    expect(await inPage(page)).toBeGreaterThanOrEqual(1000);
    await page.emulateMedia({ media: "print" });
    expect(await page.locator("[data-table='spacers'] .unprinted").textContent()).toContain(
      `${count + demo.spacers.length - 1000} more rows are not printed`,
    );
    expect(await page.locator("[data-table='spacers'] .unprinted").isVisible()).toBe(true);
    await page.emulateMedia({ media: "screen" });
    await page.evaluate(() => dispatchEvent(new Event("afterprint")));
    expect(await inPage(page)).toBeLessThan(120);
    expect(errors).toEqual([]);
  });

  it("keeps the cell that one stands on while it is scrolled away, and has all rows that are scrolled to", async () => {
    const { page } = await openLong();
    await cell(page, "paper 3, thickness").focus();
    await page.locator("[data-table='spacers'] .frame").evaluate((frame) => {
      frame.scrollIntoView({ block: "center" });
      frame.scrollTo(0, frame.scrollHeight / 2);
    });
    const seen = () =>
      page.locator("[data-table='spacers'] .frame").evaluate((frame) => {
        const { top, bottom, left } = frame.getBoundingClientRect();
        const rows: boolean[] = [];
        for (let y = top + 40; y < Math.min(bottom, innerHeight) - 70; y += 20)
          rows.push(document.elementFromPoint(left + 30, y)?.closest("tr:not(.gap)") !== null);
        return rows;
      });
    await expect.poll(async () => (await seen()).every(Boolean), { timeout: 10_000 }).toBe(true);
    expect((await seen()).length).toBeGreaterThan(10);
    expect(await here(page)).toBe("paper 3, thickness");
    await page.keyboard.type("0.07");
    expect(await cell(page, "paper 3, thickness").inputValue()).toBe("0.07");
  });
});

describe("the table of doubts that err together", () => {
  const demo = JSON.parse(readFileSync(new URL("../../notebooks/demo/bearingCover.json", import.meta.url), "utf8"));
  const correlations = [
    { id: "one cut", one: "element left, roughness", other: "element right, roughness", coefficient: "1" },
    { id: "slip", one: "tool probe, radius", other: "tool probe, radius", coefficient: "2" },
  ];

  it.each([
    [1440, "light"],
    [390, "dark"],
  ] as const)("is whole at %i pixels, %s, and tells what is wrong at the entry", async (width, colorScheme) => {
    const { page, errors } = await browser.openSheet({ viewport: { width, height: 900 }, colorScheme });
    const buffer = Buffer.from(JSON.stringify({ ...demo, correlations }));
    await page.locator('input[type="file"]').setInputFiles({ name: "related.json", mimeType: "application/json", buffer });
    await page.waitForSelector('[data-table="correlations"] [data-cell][aria-invalid="true"]');
    const table = page.locator('[data-table="correlations"]');
    expect(await table.textContent()).toContain("a source goes together with itself");
    await cell(page, "slip, coefficient").fill("0.5");
    await cell(page, "slip, and this one").selectOption("tool probe, late trigger");
    // A radius is normal and a late trigger rectangular: in part they have no joint distribution.
    await expect.poll(() => table.textContent(), { timeout: 20_000 }).toContain("differ in shape");
    await cell(page, "slip, coefficient").fill("0");
    await page.waitForFunction(() => document.querySelector('[data-table="correlations"] [aria-invalid="true"]') === null);
    expect(await table.locator('[data-column="correlation in use"] .value').allTextContents()).toEqual(["1.00", "0.00"]);
    const [inner, frame] = await table.evaluate((each) => [each.scrollWidth, each.clientWidth]);
    expect(inner).toBeLessThanOrEqual(frame as number);
    expect(await accessibilityViolations(page, "[data-table='correlations']")).toEqual([]);
    expect(errors).toEqual([]);
  });
});
