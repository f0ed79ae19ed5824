import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import axe from "axe-core";
import { type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { preview } from "vite";

const at = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url));

/** Chromium and a server of the built page, both of this process alone. */
export interface OpenBrowser {
  /** Where the built page is served, for example `http://127.0.0.1:4173/`. */
  readonly address: string;
  /** A page in a profile of its own; `path` is taken from `address`. */
  openPage(path?: string, options?: BrowserContextOptions): Promise<OpenPage>;
  /**
   * The demo job or a file, worked out, for one test after another. It is one page of one profile, loaded anew with nothing kept from before:
   * a process that has had the page before takes half the time of a new one. A test that leaves more behind than what the page
   * keeps, for instance a script for every load, wants `openPage`.
   */
  openSheet(options?: SheetOptions): Promise<OpenPage>;
  close(): Promise<void>;
}

export interface SheetOptions {
  /** 1440 by 900 where nothing is said. */
  readonly viewport?: { readonly width: number; readonly height: number };
  readonly colorScheme?: "light" | "dark";
  /** A setup file to open in the place of the demo job. */
  readonly file?: Buffer;
}

export interface OpenPage {
  readonly page: Page;
  /** What went wrong so far: console errors, uncaught exceptions, and every request to anywhere but `address`. */
  readonly errors: readonly string[];
}

/** @throws Error if no Chromium is to be had, or the page has not been built */
export async function openBrowser(): Promise<OpenBrowser> {
  const server = await preview({ configFile: at("notebooks/vite.config.ts"), logLevel: "error", preview: { port: 0 } });
  const address = server.resolvedUrls?.local[0];
  if (!address) throw new Error("The preview server tells no address.");
  const browser = await chromium.launch({
    executablePath: browserPath(),
    args: [
      "--no-sandbox", // Chromium refuses to run as root with one, and containers run as root.
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
  const blankPage = async (options: BrowserContextOptions) => {
    // What fades in is drawn for a second after every edit, which nobody watches here.
    const context = await browser.newContext({ reducedMotion: "reduce", ...options });
    const page = await context.newPage();
    return { page, errors: collectErrors(page, address) };
  };
  let sheet: Promise<{ page: Page; errors: string[] }> | undefined;
  return {
    address,
    openPage: async (path = "", options = {}) => {
      const opened = await blankPage(options);
      await opened.page.goto(new URL(path, address).href);
      return opened;
    },
    openSheet: async ({ viewport = { width: 1440, height: 900 }, colorScheme = "light", file } = {}) => {
      sheet ??= blankPage({ permissions: ["clipboard-read", "clipboard-write"] });
      const { page, errors } = await sheet;
      await forgetEverything(page, address);
      await page.setViewportSize(viewport);
      await page.emulateMedia({ media: "screen", colorScheme, reducedMotion: "reduce" });
      errors.length = 0;
      await page.goto(address);
      await page.waitForSelector('.sheet[data-state="settled"]');
      if (file !== undefined) {
        await page.locator('input[type="file"]').setInputFiles({ name: "setup.json", mimeType: "application/json", buffer: file });
        await page.locator(".said", { hasText: "is open" }).waitFor();
        await page.waitForSelector('.sheet[data-state="settled"]');
      }
      return { page, errors };
    },
    close: async () => {
      await browser.close();
      await server.close();
    },
  };
}

/** What axe finds against the page as it stands, or against one part of it: one line per rule and element; none when all is well. */
export async function accessibilityViolations(page: Page, part = "html"): Promise<string[]> {
  if ((await page.locator(part).count()) === 0) throw new Error(`Nothing on the page is ${part}.`);
  if (await page.evaluate(() => !("axe" in globalThis))) await page.evaluate(axe.source);
  return page.evaluate(async (within) => {
    const bringBack = leaveAlone(within);
    try {
      const { violations } = await (globalThis as unknown as { axe: typeof axe }).axe.run(within, {
        resultTypes: ["violations"],
        preload: false,
      });
      return violations.flatMap(({ id, help, nodes }) => nodes.map(({ target }) => `${id}: ${help}: ${target.join(" ")}`));
    } finally {
      bringBack();
    }

    /**
     * Takes the other sections out of the page, as high as they are: axe looks at every element that there is for what lies over what, which is four fifths of
     * its time. What has the focus stays, and what would load anew. @returns puts all of it back as it was
     */
    function leaveAlone(selector: string): () => void {
      const looked = [...document.querySelectorAll(selector)];
      const others = [...document.querySelectorAll<HTMLElement>(".sheet > main > section, .sheet > aside")].filter(
        (each) =>
          !each.contains(document.activeElement) &&
          each.querySelector("iframe, dialog[open]") === null &&
          !looked.some((element) => each.contains(element) || element.contains(each)),
      );
      const [x, y] = [window.scrollX, window.scrollY];
      const scrolled = others
        .flatMap((other) => [other, ...other.querySelectorAll("*")])
        .filter(({ scrollTop, scrollLeft }) => scrollTop !== 0 || scrollLeft !== 0)
        .map((element) => [element, element.scrollLeft, element.scrollTop] as const);
      const heights = others.map(({ offsetHeight }) => offsetHeight);
      const places = others.map((other, i) => {
        const place = document.createElement("div");
        place.style.height = `${heights[i]}px`;
        other.replaceWith(place);
        return place;
      });
      return () => {
        places.forEach((place, i) => {
          place.replaceWith(others[i] as HTMLElement);
        });
        for (const [element, left, top] of scrolled) element.scrollTo(left, top);
        window.scrollTo(x, y);
      };
    }
  }, part);
}

/**
 * The page as it stands, in each of these widths and schemes one after the other: what axe finds against a part of it, and whether the page scrolls sideways.
 * A flow needs to be gone through only once for all of them.
 */
export async function violationsIn(
  page: Page,
  part: string,
  looks: readonly (readonly [width: number, colorScheme: "light" | "dark"])[],
): Promise<string[]> {
  const found: string[] = [];
  for (const [width, colorScheme] of looks) {
    await page.setViewportSize({ width, height: 900 });
    await page.emulateMedia({ media: "screen", colorScheme, reducedMotion: "reduce" });
    // Figures follow the width in the next frames.
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    await workedOut(page, part);
    const sideways = (await page.evaluate(() => document.documentElement.scrollWidth)) > width ? ["the page scrolls sideways"] : [];
    for (const each of [...(await accessibilityViolations(page, part)), ...sideways]) found.push(`${width} px, ${colorScheme}: ${each}`);
  }
  return found;
}

/** Until the last edit is worked out, and nothing within a part of the page is left to be. */
export async function workedOut(page: Page, part = ""): Promise<void> {
  const waiting = `.sheet:is([data-state="edited"], [data-state="computing"]), ${part} [aria-busy]`;
  await page.waitForFunction((any) => document.querySelector(any) === null, waiting);
}

/** Leaves the page for an empty one of the same origin, and takes out what the page kept there. */
async function forgetEverything(page: Page, address: string): Promise<void> {
  const empty = new URL("empty", address).href;
  await page.mouse.move(0, 0);
  await page.route(empty, (route) => route.fulfill({ contentType: "text/html", body: "<!doctype html><title>empty</title>" }));
  await page.goto(empty);
  await page.unroute(empty);
  await page.evaluate(async () => {
    sessionStorage.clear();
    localStorage.clear();
    await navigator.clipboard.writeText("");
    for (const { name } of await indexedDB.databases()) {
      if (name === undefined) continue;
      await new Promise<void>((resolve, reject) => {
        const request = indexedDB.deleteDatabase(name);
        request.onsuccess = () => resolve();
        request.onerror = () => reject(request.error);
        request.onblocked = () => reject(new Error(`The database ${name} is still open.`));
      });
    }
  });
}

function browserPath(): string {
  return execFileSync(process.execPath, [at(".ci/ensure-browser.mjs"), "--print"], {
    encoding: "utf8",
    stdio: ["ignore", "pipe", "inherit"],
  }).trim();
}

function collectErrors(page: Page, address: string): string[] {
  const errors: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  page.on("pageerror", (error) => {
    errors.push(String(error));
  });
  page.on("request", (request) => {
    if (!/^(data|blob):/.test(request.url()) && !request.url().startsWith(address)) errors.push(`request to ${request.url()}`);
  });
  return errors;
}
