import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { studyTargets } from "../../lib/decision/studyTargets.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { studyModel } from "../../lib/record/studyResults.ts";
import { runBlocks } from "../../lib/uncertainty/trials/runTrials.ts";
import { writeTally } from "../../lib/uncertainty/trials/tallyText.ts";
import { demoDocument } from "../../notebooks/pages/firstJob.ts";
import { type OpenBrowser, openBrowser, violationsIn } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const longest = { timeout: 60_000 };
const said = (page: Page) => page.locator(".certainty [role=status]");

/** The section seen, with the correction worked out. */
async function openStudied() {
  const opened = await browser.openSheet();
  await opened.page.locator("#certainty").scrollIntoViewIfNeeded();
  await opened.page.locator(".certainty .answers:not([hidden]):not([aria-busy])").waitFor(longest);
  return opened;
}

it("trials in the page's worker give the same tally, to the last bit, as in Node; without an error, by the keyboard alone", async () => {
  const { page, errors } = await openStudied();
  await page.locator("#trials-wanted").fill("2048");
  await page.keyboard.press("Enter");
  await said(page).getByText("trials, seed").waitFor(longest);
  await page.getByRole("button", { name: "save the trials" }).focus();
  const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
  const document = demoDocument();
  const evaluation = evaluateSetup(document);
  const targets = studyTargets(evaluation, document.chosen, "thisPart");
  if (!targets.ok) throw new Error(JSON.stringify(targets.problems));
  const steps = [...runBlocks(studyModel(targets.value, document.sampling.seed), 0, 2)];
  expect(readFileSync(await download.path(), "utf8")).toBe(writeTally(steps.at(-1) as (typeof steps)[number]));
  expect(errors).toEqual([]);
}, 150_000);

it("trials that are stopped end, and an edit while they run takes them back, with the page answering all the time", async () => {
  const { page, errors } = await openStudied();
  await page.locator("#trials-wanted").fill("50000000");
  await page.getByRole("button", { name: "run trials" }).click();
  await page.locator(".fig-distribution path.fig-trials").waitFor({ state: "attached", ...longest });
  await page.getByRole("button", { name: "stop" }).click();
  await said(page).getByText("trials, seed").waitFor(longest);
  await page.getByRole("button", { name: "run until steady" }).click();
  await page.locator(".fig-distribution path.fig-trials").waitFor({ state: "attached", ...longest });
  await page.getByLabel("b1, readings", { exact: true }).fill("-290.288");
  await expect.poll(() => said(page).textContent()).toContain("The trials were stopped");
  await expect.poll(() => page.locator(".certainty .answers").isHidden()).toBe(true);
  expect(errors).toEqual([]);
}, 150_000);

it("the section, worked out, has no accessibility violations in either scheme, on a narrow screen either, where it does not scroll sideways", async () => {
  const { page } = await openStudied();
  const looks = [
    [1440, "light"],
    [1440, "dark"],
    [390, "light"],
  ] as const;
  expect(await violationsIn(page, "#certainty", looks)).toEqual([]);
}, 90_000);
