import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Download, Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { readWorkbook } from "../exchange/readWorkbook.ts";
import { accessibilityViolations, type OpenBrowser, openBrowser } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const command = (page: Page, name: string) => page.locator(".commands").getByRole("button", { name, exact: true });
const sample = (name: string) => readFileSync(fileURLToPath(new URL(`../exchange/samples/${name}`, import.meta.url)), "utf8");

async function bytesOf(page: Page, act: () => Promise<void>): Promise<{ name: string; bytes: Buffer }> {
  const [download]: [Download, unknown] = await Promise.all([page.waitForEvent("download"), act()]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

it("takes results out as a workbook and as cells, and a figure as SVG and PNG, by keyboard and in the dark", async () => {
  const { page, errors } = await browser.openSheet({ colorScheme: "dark" });
  await command(page, "take out").focus();
  await page.keyboard.press("Enter");
  expect(await accessibilityViolations(page, ".commands")).toEqual([]);
  const workbook = await bytesOf(page, () => page.keyboard.press("Enter"));
  expect(workbook.name).toMatch(/\.xlsx$/);
  expect([...readWorkbook(new Uint8Array(workbook.bytes)).keys()]).toEqual(["Results", "Budgets", "Sources"]);
  const cells = await bytesOf(page, () => command(page, "results, CSV").click());
  expect(cells.bytes.toString("utf8")).toMatch(/^\ufeffresult,unit,value,/);
  // The cells of a person's own leave as well, and everything as JSON.
  expect(cells.bytes.toString("utf8")).toMatch(/^cell length_by_micrometer,mm,160\.212,/m);
  const all = JSON.parse((await bytesOf(page, () => command(page, "all results, JSON").click())).bytes.toString("utf8"));
  expect(all).toMatchObject({ format: "datumbook results", version: 1 });
  expect(all.own.map(({ name }: { name: string }) => name)).toContain("length_by_micrometer");
  await page.keyboard.press("Escape");
  expect(await command(page, "take out").evaluate((button) => button === document.activeElement)).toBe(true);

  const sketch = (kind: string) => page.getByRole("button", { name: `The setup, from above: take the figure out as ${kind}` });
  await sketch("SVG").focus();
  const drawing = (await bytesOf(page, () => page.keyboard.press("Enter"))).bytes.toString("utf8");
  // Of its own: no class, no variable, and the ink of a light sheet although the page is dark.
  expect(drawing).toMatch(/^<svg[^>]* xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
  expect(drawing).not.toMatch(/ class=|var\(--/);
  expect(drawing).toContain('color="rgb(23, 34, 45)"');
  const picture = (await bytesOf(page, () => sketch("PNG").click())).bytes;
  // PNG (ISO/IEC 15948), 5.2 and 11.2.2: eight bytes, then width and height of the first chunk.
  expect(picture.subarray(0, 8)).toEqual(Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]));
  const [width] = /(?<= width=")\d+/.exec(drawing) ?? [];
  expect(picture.readUInt32BE(16)).toBe(2 * Number(width));
  expect(errors).toEqual([]);
});

it("shows how a text was understood before anything is taken; taking it is one step that undo takes back", async () => {
  const { page, errors } = await browser.openSheet();
  await command(page, "bring in").click();
  const text = page.getByLabel(/^Paste what another program/);
  await text.fill("<!DOCTYPE a><a/>");
  await command(page, "see how it is understood").click();
  expect(await page.locator(".asked .wrong").textContent()).toContain("declares a document type");
  await text.fill(sample("plate.dxf"));
  await command(page, "see how it is understood").click();
  const dialog = page.locator("dialog.paste-preview");
  expect(await dialog.getByRole("row").count()).toBe(5);
  expect(await dialog.locator(".refused li").count()).toBe(7);
  expect(await accessibilityViolations(page, "dialog.paste-preview")).toEqual([]);
  // Without its layer of holes the drawing has its two pairs of sides.
  const holes = dialog.getByRole("checkbox", { name: /^holes/ });
  await holes.uncheck();
  expect(await dialog.getByRole("row").count()).toBe(3);
  expect(await dialog.locator(".refused").textContent()).toContain('layer "holes": 3 circles: not chosen');
  await holes.check();
  expect(await dialog.getByRole("row").count()).toBe(5);
  const elements = () =>
    page
      .locator("#part")
      .getByLabel(/^hole \d+, name$/)
      .count();
  const before = await elements();
  await page.keyboard.press("Escape");
  expect([await dialog.count(), await elements()]).toEqual([0, before]);
  await command(page, "see how it is understood").click();
  await page.keyboard.press("Enter");
  await page.locator(".said", { hasText: "2 things brought in" }).waitFor();
  expect(await elements()).toBe(before + 2);
  await command(page, "undo").click();
  await page.locator(".said", { hasText: "Undone: bringing in of 2 things." }).waitFor();
  expect(await elements()).toBe(before);

  // The same from a file; a name that looks like markup stays a name.
  await command(page, "bring in").click();
  const buffer = Buffer.from("characteristic,kind,tolerance\n<img src=x onerror=alert(1)>,position,0.2\n");
  await page.getByLabel("File to bring in").setInputFiles({ name: "demands.csv", mimeType: "text/csv", buffer });
  expect(await page.locator("dialog.paste-preview tbody").textContent()).toContain("<img src=x onerror=alert(1)>");
  await page.keyboard.press("Enter");
  await page.locator(".said", { hasText: "One thing brought in" }).waitFor();
  expect(await page.locator("img").count()).toBe(0);
  expect(errors).toEqual([]);
});

it("a part of the page that does not come is told, and comes when the page is loaded anew", async () => {
  const { page } = await browser.openPage();
  await page.waitForSelector('.sheet[data-state="settled"]');
  await page.route(/exchangePanels/, (route) => route.abort());
  await command(page, "take out").click();
  expect(await page.locator("#asked [role=alert]").textContent()).toMatch(
    /^This part of the page could not be loaded \(.+\)\. What is open stays as it is; the part is to be had once the page is loaded anew\.$/,
  );
  await command(page, "close").click();
  await page.unroute(/exchangePanels/);
  await page.reload();
  await page.waitForSelector('.sheet[data-state="settled"]');
  await command(page, "take out").click();
  await page.locator("#asked li").nth(5).waitFor();
  await page.context().close();
});
