import { readFileSync } from "node:fs";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type OpenBrowser, openBrowser, violationsIn } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const demo = JSON.parse(readFileSync(new URL("../../notebooks/demo/bearingCover.json", import.meta.url), "utf8"));
const job = {
  ...demo,
  offsets: [
    { id: "first", register: "G54", x: "-412.607 mm ± 0.002 mm", y: "-203.112", z: "-118.400" },
    { id: "nest 2", kind: "local shift", register: "G54", x: "114.3", nest: "2" },
  ],
};

it("a shift changes hands: the zero is logged, the machine read back, an old state restored; the outcome is whole at 1440 px, light, and 390 px, dark", async () => {
  const { page, errors } = await browser.openSheet({ file: Buffer.from(JSON.stringify(job)) });
  const section = page.locator("#offsets");
  await section.scrollIntoViewIfNeeded();
  const sums = section.locator(".plain tbody").first();
  await expect.poll(() => sums.textContent()).toContain("−298.3070");
  await section.getByRole("button", { name: "log the zero in use" }).click();
  await expect.poll(() => sums.textContent()).toContain("−204.0990");
  await section.getByLabel("Paste what the machine shows", { exact: false }).fill("G21 G90\nG10 L2 P1 X-318.399 Y-176.901 Z284.600");
  await expect.poll(() => section.locator(".agreement").textContent()).toBe("2 values agree with the table; 1 value differs.");
  expect(await section.locator(".told").allTextContents()).toContainEqual(expect.stringContaining("the other sign"));
  await section.getByRole("button", { name: "restore that state" }).click();
  await expect.poll(() => sums.textContent()).toContain("−412.6070");
  expect(await section.locator('[data-table="offsets"] tr[data-row]').count()).toBe(4);
  const looks = [
    [1440, "light"],
    [390, "dark"],
  ] as const;
  expect(await violationsIn(page, "#offsets", looks)).toEqual([]);
  expect(errors).toEqual([]);
});
