import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { Page } from "playwright-core";
import { build } from "vite";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { checkDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { exampleDocument, exampleNames } from "../../notebooks/pages/demo.ts";
import { demoDocument } from "../../notebooks/pages/firstJob.ts";
import { buildFile } from "../support/buildPage.ts";
import { corner } from "../support/corner.ts";
import { type Consumer, installPackage } from "../support/installPackage.ts";
import { accessibilityViolations, type OpenBrowser, openBrowser } from "../support/openBrowser.ts";
import { buildEvaluate, runEvaluate } from "../support/runEvaluate.ts";

const at = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url));

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
}, 120_000);
afterAll(() => browser?.close());

describe("in a page of somebody else's", () => {
  let consumer: Consumer;
  beforeAll(async () => {
    consumer = installPackage();
    await build({
      root: consumer.folder,
      configFile: false,
      logLevel: "silent",
      build: {
        target: "es2022",
        rolldownOptions: {
          input: consumer.write("host.ts", readFileSync(at("tests/browser/host/host.ts"), "utf8")),
          output: { entryFileNames: "host.js", codeSplitting: false },
        },
      },
    });
  }, 120_000);
  afterAll(() => consumer?.remove());

  /** The host's page and what it loads, under the address of the browser's own server. */
  async function openHost(body: string, before = "") {
    const opened = await browser.openPage("empty");
    const { page } = opened;
    const files: Record<string, string> = {
      "host.js": join(consumer.folder, "dist/host.js"),
      "element.js": join(consumer.folder, "node_modules/datumbook/notebooks/element.js"),
    };
    await page.route("**/host/*", (route) => {
      const name = new URL(route.request().url()).pathname.split("/").pop() ?? "";
      return files[name] === undefined
        ? route.fulfill({ contentType: "text/html", body: hostPage(body), headers: { "Content-Security-Policy": policy } })
        : route.fulfill({ contentType: "text/javascript", path: files[name] });
    });
    if (before !== "") await page.addInitScript(before);
    await page.goto(new URL("host/page.html", browser.address).href);
    return opened;
  }

  it("the notebook runs in the page's own copy of the runtime: entries overridden, results read", async () => {
    const { page, errors } = await openHost(`<output id="told"></output><script type="module" src="host.js"></script>`);
    const told = (text: string) => page.locator("#told", { hasText: text }).waitFor();
    const { touches, tools } = cornerDocument;
    await page.evaluate((document) => (globalThis as unknown as Host).fillSetup(document), cornerDocument);
    await told("-47");
    const override = (name: string, value: unknown) =>
      page.evaluate(([cell, held]) => (globalThis as unknown as Host).override(cell as string, held), [name, value]);
    // The face is a radius further along the way: 1 mm on each takes the zero along by as much.
    await override(
      "touches",
      touches.map((touch) => (touch.id === "left" ? { ...touch, readings: "-49" } : touch)),
    );
    await told("-46");
    await override("tools", [{ ...tools[0], radius: "4 mm" }]);
    await told("-45");
    expect(errors).toEqual([]);
  });

  it("elements stand side by side: each its own setup, colours and width, telling of its results, leaving nothing behind", async () => {
    const { page, errors } = await openHost(
      `<style>#one { --datumbook-sheet: rgb(255, 250, 200) } #small { width: 420px }</style>
       <datum-book id="one" sections="touches zero"><script type="application/json">${JSON.stringify(corner)}</script></datum-book>
       <div id="small"><datum-book id="two" scheme="dark"></datum-book></div>
       <script type="module" src="element.js"></script>`,
      watchPage,
    );
    const [one, two] = [page.locator("#one"), page.locator("#two")];
    const settled = (which: string) => page.locator(`#${which} .sheet[data-state="settled"]`).waitFor();
    await settled("one");
    expect(await one.locator("section:visible").evaluateAll((all) => all.map(({ id }) => id))).toEqual(["touches", "zero"]);
    await toldOf(page, "one", -47);

    await page.evaluate((document) => {
      (document_("two") as unknown as { document: unknown }).document = document;
      function document_(id: string) {
        return globalThis.document.getElementById(id);
      }
    }, demoDocument());
    await settled("two");
    await page.waitForFunction(() => "two" in (globalThis as unknown as Told).results);

    // What is told is what the library gives without a page.
    const told = await page.evaluate(() => JSON.stringify((globalThis as unknown as Told).results["two"]));
    expect(JSON.parse(told, nineDecimals)).toEqual(JSON.parse(JSON.stringify(plainResults(evaluateSetup(demoDocument()))), nineDecimals));

    // An edit within one is told by it alone.
    const first = await page.evaluate(() => JSON.stringify((globalThis as unknown as Told).results["two"]));
    await one.getByLabel("left, readings", { exact: true }).fill("-46");
    await toldOf(page, "one", -43);
    expect(await page.evaluate(() => JSON.stringify((globalThis as unknown as Told).results["two"]))).toBe(first);
    await one.getByLabel("left, readings", { exact: true }).fill("-46 mmm");
    await page.waitForFunction(() => (globalThis as unknown as Told).problems["one"]?.some(({ at }) => at === "touches.left.readings"));
    await page.keyboard.press("Control+z");
    await toldOf(page, "one", -47);

    // Completion, focus and links know that they are not in the page itself.
    await one.getByLabel("left, readings", { exact: true }).press("ArrowDown");
    expect(await page.evaluate(() => document.querySelector("#one")?.shadowRoot?.activeElement?.getAttribute("aria-label"))).toBe(
      "front, readings",
    );

    const paper = (of: typeof one) => of.locator(".sheet").evaluate((sheet) => getComputedStyle(sheet).backgroundColor);
    expect(await paper(one)).toBe("rgb(255, 250, 200)");
    expect(await paper(two)).toBe("rgb(15, 37, 60)");
    const [wide, narrow] = [one, two].map((of) => of.locator(".sheet").evaluate((sheet) => sheet.hasAttribute("data-wide")));
    expect([await wide, await narrow]).toEqual([true, false]);
    expect(await two.locator(".sheet").evaluate((sheet) => sheet.scrollWidth)).toBeLessThanOrEqual(420);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(1280);
    expect(await accessibilityViolations(page, "#one")).toEqual([]);

    // A figure that leaves has the colours of a white sheet, whatever the element shows.
    const [download] = await Promise.all([page.waitForEvent("download"), two.getByRole("button", { name: /SVG/ }).first().click()]);
    const svg = readFileSync(await download.path(), "utf8");
    expect(svg).toContain("rgb(157, 67, 14)");
    expect(svg).not.toContain("rgb(255, 180, 112)");

    // Taken out, an element is as if it had never been there; put back, it goes on where it was.
    await one.getByLabel("left, readings", { exact: true }).fill("-45");
    await toldOf(page, "one", -42);
    await page.evaluate(() => {
      const elements = [...document.querySelectorAll("datum-book")];
      Object.assign(globalThis, { elements });
      for (const element of elements) element.remove();
    });
    const left = await page.evaluate(async () => {
      await new Promise((resolve) => setTimeout(resolve, 50));
      return (globalThis as unknown as Left).leftBehind();
    });
    expect(left).toEqual({ listeners: [], workers: 0, globals: [], nodes: 0 });
    await page.evaluate(() => document.body.prepend((globalThis as unknown as { elements: Element[] }).elements[0] as Element));
    await settled("one");
    expect(await one.getByLabel("left, readings", { exact: true }).inputValue()).toBe("-45");
    expect(errors).toEqual([]);
  });

  it("comes to what the command line prints of every example, to twelve digits", { timeout: 240_000 }, async () => {
    buildEvaluate();
    const { page, errors } = await openHost(
      `<datum-book id="one"></datum-book><script type="module" src="element.js"></script>`,
      watchPage,
    );
    const toldOfDocument = async (document: SetupDocument) =>
      JSON.parse(
        await page.evaluate(async (given) => {
          const { results } = globalThis as unknown as Told;
          delete results["one"];
          (globalThis.document.getElementById("one") as unknown as { document: unknown }).document = given;
          while (results["one"] === undefined) await new Promise((resolve) => setTimeout(resolve, 20));
          return JSON.stringify(results["one"]);
        }, document),
      );
    for (const name of exampleNames) {
      const { status, output } = runEvaluate([at(`notebooks/demo/${name}.json`), "--json"]);
      expect(status).toBe(0);
      const printed = JSON.parse(output);
      const document = exampleDocument(name);
      // Of several operations the element tells of the one that is looked at.
      const pairs: [SetupDocument, unknown][] =
        document.operations.length === 0
          ? [[document, printed]]
          : document.operations.map(({ id }, i) => [{ ...document, operation: id }, printed.operations[i].results]);
      for (const [each, wanted] of pairs) expect(differences(wanted, await toldOfDocument(each)).slice(0, 20), name).toEqual([]);
    }
    expect(errors).toEqual([]);
  });

  it("an element says what keeps its text from being read, and writes none of it into the page as markup", async () => {
    const { page } = await openHost(
      `<datum-book id="one"><script type="application/json">{"format":"<img src=x>"}</script></datum-book><script type="module" src="element.js"></script>`,
      watchPage,
    );
    await page.waitForFunction(() => ((globalThis as unknown as Told).problems["one"] ?? []).length > 0);
    expect(await page.locator("#one [role=alert]").textContent()).toContain("The setup cannot be read");
    expect(await page.locator("#one img").count()).toBe(0);
  });
});

describe("as one file", () => {
  let file: string;
  beforeAll(async () => {
    file = await buildFile();
  }, 120_000);

  it("opens by its address on the disk, works a reading out, runs trials in its own worker, and reaches nothing else", async () => {
    const { page, errors } = await browser.openPage(pathToFileURL(file).href);
    await page.waitForSelector('.sheet[data-state="settled"]');
    const zero = page.locator(".title-block .zero output, .title-block .zero").first();
    const before = await zero.textContent();
    await page.getByLabel("b1, readings", { exact: true }).fill("-291.288");
    await page.waitForFunction((old) => document.querySelector(".title-block .zero")?.textContent !== old, before);
    await page.locator("#certainty").scrollIntoViewIfNeeded();
    await page.locator("#trials-wanted").fill("2048");
    await page.locator("#trials-wanted").press("Enter");
    await page.locator(".certainty [role=status]", { hasText: "trials, seed" }).waitFor();
    const own = `request to ${pathToFileURL(file).href}`;
    expect(errors.filter((error) => error !== own)).toEqual([]);
    const refused = await page.evaluate(() => fetch(location.href).then(String, () => "refused"));
    expect(refused).toBe("refused");
    const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute("content");
    expect(policy).toMatch(/default-src 'none'; script-src 'sha256-[\w+/=]+' 'sha256-[\w+/=]+' 'wasm-unsafe-eval';/);
    expect(policy).not.toMatch(/'unsafe-eval'|https?:|\*|ws:/);
    // The smallest module that there is: what the trials are made of is not refused.
    const isTaken = await page.evaluate(
      () => new WebAssembly.Module(Uint8Array.of(0, 0x61, 0x73, 0x6d, 1, 0, 0, 0)) instanceof WebAssembly.Module,
    );
    expect(isTaken).toBe(true);
  }, 90_000);
});

interface Host {
  fillSetup(document: unknown): void;
  override(name: string, value: unknown): void;
}

interface Told {
  readonly results: Record<string, { readonly strategies: readonly { readonly zero?: { readonly X: { readonly value: number } } }[] }>;
  readonly problems: Record<string, readonly { readonly at: string }[]>;
}

interface Left {
  leftBehind(): object;
}

const cornerDocument = (() => {
  const checked = checkDocument(corner);
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.value;
})();

const policy = "default-src 'none'; script-src 'self'; style-src 'unsafe-inline'; worker-src blob:; img-src data:";

const hostPage = (body: string) =>
  `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>A page of another kind</title><link rel="icon" href="data:,"></head>
   <body><main><h1>A page of another kind</h1>${body}</main></body></html>`;

/** Where two values differ, and how. */
function differences(one: unknown, other: unknown, at = ""): string[] {
  if (typeof one === "number" && typeof other === "number" && isNearlySame(one, other)) return [];
  if (typeof one !== "object" || typeof other !== "object" || one === null || other === null)
    return one === other ? [] : [`${at}: ${JSON.stringify(one)} and ${JSON.stringify(other)}`];
  const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
  return [...keys].flatMap((key) =>
    differences((one as Record<string, unknown>)[key], (other as Record<string, unknown>)[key], `${at}.${key}`),
  );
}

/** Node and the browser work logarithms and the like out to other last bits; what is 0 but for rounding has no digits. */
function isNearlySame(one: number, other: number): boolean {
  return Math.abs(one - other) <= 1e-12 * Math.max(Math.abs(one), Math.abs(other)) + 1e-14;
}

/** The same of whole texts. */
function nineDecimals(_: string, value: unknown): unknown {
  return typeof value === "number" ? Number(value.toFixed(9)) : value;
}

/** Until this is the zero that an element has told last; while it tells of a problem, there is none. */
async function toldOf(page: Page, id: string, x: number): Promise<void> {
  await page.waitForFunction(
    ([which, wanted]) => (globalThis as unknown as Told).results[which as string]?.strategies[0]?.zero?.X.value === wanted,
    [id, x] as const,
  );
}

/** Keeps what the elements tell, and counts what they leave with the window, the document and the browser. */
const watchPage = `
  globalThis.results = {};
  globalThis.problems = {};
  document.addEventListener("datumbook-results", ({ target, detail }) => { results[target.id] = detail; });
  document.addEventListener("datumbook-problem", ({ target, detail }) => { problems[target.id] = detail; });
  const listeners = new Set();
  const names = new Map([[globalThis, "window"], [document, "document"]]);
  const { addEventListener: add, removeEventListener: remove } = EventTarget.prototype;
  const key = (target, kind, listener, options) => ({ target, kind, listener, capture: options === true || options?.capture === true });
  const same = (a) => (b) => a.target === b.target && a.kind === b.kind && a.listener === b.listener && a.capture === b.capture;
  EventTarget.prototype.addEventListener = function (kind, listener, options) {
    const target = this ?? globalThis;
    const isOurs = new Error().stack.includes("element.js");
    if (isOurs && (names.has(target) || target instanceof MediaQueryList)) listeners.add(key(target, kind, listener, options));
    return add.call(target, kind, listener, options);
  };
  EventTarget.prototype.removeEventListener = function (kind, listener, options) {
    const target = this ?? globalThis;
    for (const each of listeners) if (same(key(target, kind, listener, options))(each)) listeners.delete(each);
    return remove.call(target, kind, listener, options);
  };
  let workers = 0;
  globalThis.Worker = class extends Worker {
    constructor(...given) { super(...given); workers += 1; }
    terminate() { workers -= 1; super.terminate(); }
  };
  // What the test itself and the library that looks for accessibility leave.
  const known = /^(leftBehind|elements|axe|__core-js_shared__|__playwright.*)$/;
  const before = new Set(Object.getOwnPropertyNames(globalThis));
  globalThis.leftBehind = () => ({
    listeners: [...listeners].map(({ target, kind }) => (names.get(target) ?? "media") + " " + kind),
    workers,
    globals: Object.getOwnPropertyNames(globalThis).filter((name) => !before.has(name) && !known.test(name)),
    nodes: document.querySelectorAll("body > :not(main), datum-book, [id^=name-], dialog").length,
  });
`;
