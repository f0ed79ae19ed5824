import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { addRow, enter, goBy } from "../support/keyboard.ts";
import { accessibilityViolations, type OpenBrowser, openBrowser, violationsIn, workedOut } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const comesTo = (page: Page) =>
  page
    .locator(".block.cell .result")
    .evaluateAll((results) => results.map(({ children }) => [...children].map(({ textContent }) => textContent)));

const touchOf = (number: number, name: string, travelling: string, reading: string) =>
  [
    [`touch ${number}, name`, name],
    [`${name}, face`, name],
    [`${name}, travelling`, travelling],
    [`${name}, with`, "pin"],
    [`${name}, readings`, reading],
  ] as const;

it("a notebook is built from an empty page by keyboard alone: a slot centre from two wall touches with a pin, a formula of one's own, its budget; all undone and done again", {
  timeout: 240_000,
}, async () => {
  const { page, errors } = await browser.openSheet();
  await goBy(page, "Tab", "new");
  await page.keyboard.press("Enter");
  await goBy(page, "Tab", "blank");
  await page.keyboard.press("Enter");
  await addRow(page, "add a heading", []);
  await page.keyboard.type("The slot");
  await addRow(page, "add an element", [
    ["element 1, name", "left"],
    ["left, looks to", "+X"],
    ["left, datum", "A"],
  ]);
  await page.keyboard.press("Alt+Enter");
  for (const [name, text] of [
    ["element 2, name", "right"],
    ["right, looks to", "-X"],
  ] as const)
    await enter(page, name, text);
  await addRow(page, "add a dimension", [
    ["dimension 1, name", "slot"],
    ["slot, from", "left"],
    ["slot, to", "right"],
    ["slot, along", "X"],
    ["slot, nominal", "30"],
    ["slot, tolerance", "±0.1"],
  ]);
  await addRow(page, "add a tool", [
    ["tool 1, name", "pin"],
    ["pin, kind", "tool"],
    ["pin, radius", "3"],
    ["pin, its u", "0.002"],
    ["pin, scatter", "0.001"],
  ]);
  await page.keyboard.press("Tab");
  // Round the end of the page to its beginning.
  await addRow(page, "add a touch", touchOf(1, "left", "-X", "-213.402"));
  await page.keyboard.press("Alt+Enter");
  for (const [name, text] of touchOf(2, "right", "+X", "-189.398")) await enter(page, name, text);
  await page.keyboard.press("Tab");
  await goBy(page, "Tab", "heading The slot");
  await page.keyboard.press("Alt+Enter");
  await enter(page, "cell_1, name", "middle");
  await enter(page, "middle, entry", "(left_face + right_face) / 2");
  await page.keyboard.press("Alt+Enter");
  await enter(page, "cell_1, name", "size");
  await enter(page, "size, entry", "right_face - left_face");
  await page.keyboard.press("Enter");
  // By hand: the middle of the readings, from which the radius vanishes, doubts as 0.001/√2; their distance with twice the radius
  // as the root of (2 · 0.002)² + 2 · 0.001².
  expect(await comesTo(page)).toEqual([
    ["−201.40000 mm", "u 0.00071"],
    ["30.0040 mm", "u 0.0042"],
  ]);
  await goBy(page, "Shift+Tab", "size, entry");
  await workedOut(page, ".made-of");
  const made = page.locator(".made-of");
  expect(await made.locator(".formula").allTextContents()).toEqual(["= right_face - left_face", "= −186.3980 mm - −216.4020 mm"]);
  expect(await made.locator("svg.fig-budget desc").textContent()).toContain("radius of pin +0.0040 mm");
  expect(await accessibilityViolations(page, "#ledger")).toEqual([]);
  const built = await comesTo(page);
  for (let steps = 0; steps < 100 && (await page.locator(".said").textContent()) !== "There is nothing to undo."; steps++)
    await page.keyboard.press("Control+z");
  expect(await page.locator(".job").textContent()).toBe("Bearing cover, second side");
  for (let steps = 0; steps < 100 && (await page.locator(".said").textContent()) !== "There is nothing to redo."; steps++)
    await page.keyboard.press("Control+y");
  // The page stands where the last entry was brought back: what the ledger comes to follows out of sight.
  await workedOut(page, "#ledger");
  expect(await comesTo(page)).toEqual(built);
  expect(errors).toEqual([]);
});

/** Clicks until the entry stands, as a person does who points at it: the first click stands on a cell. */
const pointAt = async (page: Page, name: string) => {
  const entry = page.getByLabel(name, { exact: true });
  await entry.scrollIntoViewIfNeeded();
  await entry.click();
  return entry;
};

it("the ledger by mouse: a cell built with a name from the list, another renamed, one supposed, a source slid, a table pasted", {
  timeout: 240_000,
}, async () => {
  const { page, errors } = await browser.openSheet({
    viewport: { width: 1440, height: 1000 },
  });
  await pointAt(page, "difference, name");
  await page.getByRole("button", { name: "add a cell" }).click();
  await page.keyboard.type("half");
  await pointAt(page, "half, entry");
  await page.keyboard.type("length_by_mi");
  await page
    .getByRole("listbox", { name: "Names that fit" })
    .getByRole("option", { name: /^length_by_micrometer/ })
    .click();
  await page.keyboard.type(" / 2");
  await pointAt(page, "half, note");
  const results = async () => Object.fromEntries(await namesAndResults(page));
  // By hand: half of 160.212 mm, and half of 0.003 mm.
  expect((await results())["half"]).toEqual(["80.1060 mm", "u 0.0015"]);

  await pointAt(page, "length_by_micrometer, name");
  await page.keyboard.type("micrometer");
  await pointAt(page, "half, note");
  expect(await page.getByLabel("half, entry", { exact: true }).inputValue()).toBe("micrometer / 2");
  expect(await page.getByLabel("difference, entry", { exact: true }).inputValue()).toBe("length_by_touches - micrometer");

  await pointAt(page, "micrometer, entry");
  await page.getByRole("button", { name: "suppose:" }).click();
  await page.keyboard.type("160.3 mm");
  await pointAt(page, "half, note");
  await expect.poll(async () => (await results())["half"]).toEqual(["80.15 mm", "no doubt"]);
  await page.locator(".suppositions button").first().click();
  await expect.poll(async () => (await results())["half"]).toEqual(["80.1060 mm", "u 0.0015"]);

  await pointAt(page, "half, entry");
  await page.getByLabel("Source to suppose otherwise").selectOption("cell micrometer");
  await page.getByRole("button", { name: "lay a slider over it" }).click();
  const slider = page.getByRole("slider", { name: /shifted by/ });
  await slider.scrollIntoViewIfNeeded();
  const box = await slider.boundingBox();
  if (box === null) throw new Error("The slider is not on the page.");
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width - 1, box.y + box.height / 2, { steps: 4 });
  await page.mouse.up();
  // By hand: three standard uncertainties of 0.003 mm at the end of the slider, of which a half counts.
  await page.waitForFunction(() => document.querySelector(".compared")?.textContent?.includes("half"));
  expect(await slider.inputValue()).toBe("3");
  expect((await results())["half"]).toEqual(["80.1105 mm", "u 0.0015"]);
  await page.locator(".suppositions button").first().click();

  await pointAt(page, "half, name");
  await page.getByRole("button", { name: "add a table" }).click();
  await page.evaluate(() => navigator.clipboard.writeText("1.5 mm ± 0.003 mm\n2.5 mm ± 0.004 mm\n"));
  const table = page.locator(".block.table").last();
  const first = table.locator("tbody [data-cell]").first();
  await first.click();
  await page.keyboard.press("Control+v");
  // Nothing in it is in doubt, so nothing is asked.
  expect(await table.locator("tbody [data-cell]").evaluateAll((all) => all.map((each) => (each as HTMLTextAreaElement).value))).toEqual([
    "1.5 mm ± 0.003 mm",
    "2.5 mm ± 0.004 mm",
  ]);
  await pointAt(page, "half, name");
  await page.getByRole("button", { name: "add a cell" }).click();
  await page.keyboard.type("total");
  await pointAt(page, "total, entry");
  await page.keyboard.type("sum(table_1_value)");
  await pointAt(page, "half, note");
  // By hand: 1.5 + 2.5, and the root of 0.003² + 0.004².
  expect((await results())["total"]).toEqual(["4.0000 mm", "u 0.0050"]);
  await table.locator("tbody [data-cell]").nth(1).click();
  await workedOut(page, ".made-of");
  expect(await page.locator(".made-of .formula").first().textContent()).toBe("= 2.5 mm ± 0.004 mm");
  expect(await accessibilityViolations(page, "#ledger")).toEqual([]);
  expect(errors).toEqual([]);
});

/** Keeps what workers say until it is let through. */
function holdWorkers(): void {
  const held: (() => void)[] = [];
  const state = Object.assign(globalThis, {
    heldAnswers: held,
    letAnswersThrough: () => held.splice(0).forEach((answer) => void answer()),
  });
  const listen = Worker.prototype.addEventListener;
  Worker.prototype.addEventListener = function (this: Worker, kind: string, heed: (event: Event) => void) {
    listen.call(this, kind, kind === "message" ? (event: Event) => void state.heldAnswers.push(() => heed(event)) : heed);
  } as typeof listen;
}

interface WithHeldAnswers {
  readonly heldAnswers: readonly unknown[];
  readonly letAnswersThrough: () => void;
}

/** The sheet with what its worker says held back, an entry of the ledger, and what is to be measured of it. */
async function openHeldBack() {
  const { page } = await browser.openPage("empty", { viewport: { width: 1440, height: 1200 } });
  await page.addInitScript(holdWorkers);
  await page.goto(browser.address);
  await page.waitForSelector('.sheet[data-state="settled"]');
  const entry = page.getByLabel("difference, entry", { exact: true });
  const place = () =>
    entry.evaluate((control) => ({
      entry: control.getBoundingClientRect().top,
      section: document.querySelector("#certainty")?.getBoundingClientRect(),
    }));
  /** By how much the entry moves and the section grows when the answers come. */
  const answersCome = async () => {
    // First order, then the whole model.
    await page.waitForFunction(() => (globalThis as unknown as WithHeldAnswers).heldAnswers.length >= 2);
    await workedOut(page, "#ledger");
    const before = await place();
    // A worker on a busy machine has more to say after these.
    await page.waitForFunction(() => {
      (globalThis as unknown as WithHeldAnswers).letAnswersThrough();
      const isShown = document.querySelector(".certainty .answers:not([hidden]):not([aria-busy]) svg.fig-distribution") !== null;
      return isShown && document.querySelector("#certainty [aria-busy]") === null;
    });
    const after = await place();
    return {
      moved: Math.abs(after.entry - before.entry),
      grown: (after.section?.height ?? 0) - (before.section?.height ?? 0),
      // Where the section ended before, from the top of the window.
      end: before.section?.bottom ?? Number.NaN,
    };
  };
  return { page, entry, answersCome };
}

it("what is typed into a formula stays where it is, its list of names too, when answers of the worker come into sight above it", async () => {
  const { page, entry, answersCome } = await openHeldBack();
  await entry.scrollIntoViewIfNeeded();
  await entry.click();
  await page.keyboard.type(" + length_by_mi");
  const option = page.getByRole("listbox", { name: "Names that fit" }).getByRole("option", { name: /^length_by_micrometer/ });
  await option.waitFor();
  const first = await answersCome();
  expect(first.end).toBeGreaterThan(0);
  // Otherwise nothing could have moved.
  expect(first.grown).toBeGreaterThan(500);
  expect(first.moved).toBeLessThan(2);
  await option.click();
  expect(await entry.inputValue()).toMatch(/ \+ length_by_micrometer$/);
  // The answers are put away and come again: the place that they had is kept for them.
  await expect.poll(() => page.locator(".certainty .answers").isHidden()).toBe(true);
  const second = await answersCome();
  expect(second.moved).toBeLessThan(2);
  expect(Math.abs(second.grown)).toBeLessThan(60);
  await page.context().close();
});

it("what is looked at without the focus in it stays where it is when answers of the worker come out of sight above it", async () => {
  const { page, entry, answersCome } = await openHeldBack();
  await entry.evaluate((control) => control.scrollIntoView({ block: "start" }));
  const { moved, grown, end } = await answersCome();
  expect(end).toBeLessThan(0);
  expect(grown).toBeGreaterThan(500);
  expect(moved).toBeLessThan(2);
  await page.context().close();
});

const namesAndResults = (page: Page): Promise<[string, (string | null)[]][]> =>
  page
    .locator(".block.cell")
    .evaluateAll((cells) =>
      cells.map((cell): [string, (string | null)[]] => [
        cell.getAttribute("aria-label") ?? "",
        [...(cell.querySelector(".result")?.children ?? [])].map(({ textContent }) => textContent),
      ]),
    );

it("the ledger has no accessibility violations while something is supposed and something is wrong, in both schemes and on a narrow screen, and nothing scrolls sideways", {
  timeout: 120_000,
}, async () => {
  const { page } = await browser.openSheet();
  await page.getByLabel("length_by_micrometer, name").focus();
  await page.getByRole("button", { name: "suppose:" }).click();
  await page.keyboard.type("160.3 mm ± 0.01 mm");
  await page.getByRole("button", { name: "lay a slider over it" }).click();
  await page.keyboard.press("ArrowRight");
  await page.getByLabel("wall_at_left, entry").fill("b2_face -");
  await page.getByLabel("difference, entry").focus();
  await page.getByRole("button", { name: "more:" }).click();
  expect(await page.locator(".suppositions").textContent()).toContain("length_by_micrometer is 160.3 mm ± 0.01 mm");
  expect(await page.locator('[aria-label="wall_at_left"] .words-of-block').textContent()).not.toBe("");
  expect(await page.locator(".lines").isVisible()).toBe(false);
  const looks = [
    [1440, "light"],
    [1440, "dark"],
    [390, "light"],
  ] as const;
  expect(await violationsIn(page, "#ledger", looks)).toEqual([]);
});
