import { afterAll, beforeAll, expect, it } from "vitest";
import { accessibilityViolations, type OpenBrowser, openBrowser } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

it("the built page opens under its own name, without an error and without asking another host", async () => {
  const { page, errors } = await browser.openPage();
  expect(await page.title()).toBe("Datumbook");
  expect(await page.getByRole("heading", { level: 1 }).textContent()).toContain("Datumbook");
  expect(errors).toEqual([]);
});

it("the built page's policy stops a request to anywhere", async () => {
  const { page, errors } = await browser.openPage();
  const answer = await page.evaluate(() =>
    fetch("/").then(
      () => "answered",
      () => "refused",
    ),
  );
  expect(answer).toBe("refused");
  expect(errors.join("\n")).toContain("Content Security Policy");
});

it.each(["light", "dark"] as const)("the built page has no accessibility violations in the %s scheme", async (colorScheme) => {
  const { page } = await browser.openPage("", { colorScheme });
  expect(await accessibilityViolations(page)).toEqual([]);
});

it("accessibilityViolations(page) finds an image without a text, under the page's own policy", async () => {
  const { page } = await browser.openPage();
  await page.evaluate(() => document.body.append(document.createElement("img")));
  expect((await accessibilityViolations(page)).join("\n")).toContain("image-alt");
});
