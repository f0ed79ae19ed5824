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

it("the built page's policy names nothing but itself, and no evaluation of text", async () => {
  const { page } = await browser.openPage();
  const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute("content");
  expect(policy).toContain("default-src 'none'");
  expect(policy).toContain("connect-src 'none'");
  expect(policy).toContain("script-src 'self'");
  expect(policy).not.toMatch(/'unsafe-eval'|https?:|\*|ws:/);
});

it("the built page runs no text as code, and loads and sends nothing anywhere", async () => {
  const { page, errors } = await browser.openPage();
  const tried = await page.evaluate(async () => {
    const tries: Record<string, () => unknown> = {
      Function: () => new Function("return 1")(),
      // biome-ignore lint/security/noGlobalEval: that it is stopped is what is tested
      eval: () => globalThis.eval("1"),
      WebSocket: () =>
        new Promise((done, failed) => {
          const socket = new WebSocket("ws://127.0.0.1:9/");
          socket.onopen = done;
          socket.onerror = failed;
        }),
      image: () =>
        new Promise((done, failed) => {
          const image = new Image();
          image.onload = done;
          image.onerror = failed;
          image.src = "/favicon.ico";
        }),
      script: () =>
        new Promise((done, failed) => {
          const script = document.createElement("script");
          script.onload = done;
          script.onerror = failed;
          script.src = "data:text/javascript,0";
          document.head.append(script);
        }),
      beacon: async () => {
        const told = new Promise((_, failed) => addEventListener("securitypolicyviolation", failed, { once: true }));
        navigator.sendBeacon("/", "readings");
        await told;
      },
    };
    // In a task of the page's own: what the tests send in is exempt from its policy.
    const outcome = async (attempt: () => unknown) => {
      await new Promise((resolve) => setTimeout(resolve));
      return Promise.resolve()
        .then(attempt)
        .then(
          () => "went through",
          () => "stopped",
        );
    };
    return Object.fromEntries(await Promise.all(Object.entries(tries).map(async ([name, attempt]) => [name, await outcome(attempt)])));
  });
  expect(tried).toEqual(Object.fromEntries(Object.keys(tried).map((name) => [name, "stopped"])));
  expect(Object.keys(tried)).toHaveLength(6);
  expect(errors.filter((error) => error.startsWith("request to "))).toEqual([]);
});

it("accessibilityViolations(page) finds an image without a text and letters that are too pale, under the page's own policy, and leaves the page as it was", async () => {
  const { page } = await browser.openPage();
  await page.waitForSelector('.sheet[data-state="settled"]');
  await page.evaluate(() => {
    const part = document.createElement("p");
    part.append("pale", document.createElement("img"));
    part.style.color = "#ddd";
    document.querySelector("#help")?.append(part);
    document.querySelector("#zero")?.append(document.createElement("img"));
    scrollTo(0, 1000);
  });
  const state = () => page.evaluate(() => [scrollY, ...[...document.querySelectorAll("main > *, .sheet > *")].map(({ id }) => id)]);
  const before = await state();
  const found = (await accessibilityViolations(page, "#help")).map((violation) => violation.split(":")[0]);
  expect(found.sort()).toEqual(["color-contrast", "image-alt"]);
  expect((await accessibilityViolations(page)).filter((violation) => violation.startsWith("image-alt"))).toHaveLength(2);
  expect(await state()).toEqual(before);
});
