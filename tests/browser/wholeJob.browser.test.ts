import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { addRow, enter, goBy } from "../support/keyboard.ts";
import { accessibilityViolations, type OpenBrowser, openBrowser, workedOut } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const zeros = (page: Page) => page.locator(".title-block .zero b").allTextContents();
const firstSteps = (page: Page) => page.locator(".first-steps:visible button").allTextContents();
const said = (page: Page) => page.locator(".said").textContent();

it("a whole job is built from an empty page by the keyboard alone, undone, done again and saved", { timeout: 240_000 }, async () => {
  const { page, errors } = await browser.openSheet();
  await goBy(page, "Tab", "new");
  await page.keyboard.press("Enter");
  await goBy(page, "Tab", "blank");
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.activeElement?.textContent === "add a tool");
  expect(await firstSteps(page)).toEqual([
    "add a tool",
    "add an element of the part",
    "add a touch",
    "make a strategy of the touches",
    "put a strategy to use",
  ]);
  expect(await accessibilityViolations(page)).toEqual([]);
  await page.keyboard.press("Enter");
  for (const [name, text] of [
    ["tool 1, name", "probe"],
    ["probe, kind", "touch probe"],
    ["probe, radius", "3"],
    ["probe, its u", "0.002"],
    ["probe, scatter", "0.001"],
  ] as const)
    await enter(page, name, text);
  await page.keyboard.press("Tab");
  await goBy(page, "Shift+Tab", "add an element of the part");
  await page.keyboard.press("Enter");
  const elements: readonly (readonly (readonly [string, string])[])[] = [
    [
      ["element 1, name", "left"],
      ["left, looks to", "-X"],
      ["left, datum", "B"],
    ],
    [
      ["element 2, name", "front"],
      ["front, looks to", "-Y"],
      ["front, datum", "C"],
    ],
    [
      ["element 3, name", "right"],
      ["right, looks to", "+X"],
    ],
    [
      ["element 4, name", "hole"],
      ["hole, kind", "bore"],
      ["hole, made", "here"],
      ["hole, X", "20"],
      ["hole, Y", "15"],
      ["hole, diameter", "8"],
    ],
  ];
  for (const [i, entries] of elements.entries()) {
    if (i > 0) await page.keyboard.press("Alt+Enter");
    for (const [name, text] of entries) await enter(page, name, text);
  }
  await page.keyboard.press("Tab");
  await addRow(page, "add a dimension", [
    ["dimension 1, name", "length"],
    ["length, from", "left"],
    ["length, to", "right"],
    ["length, along", "X"],
    ["length, nominal", "80"],
    ["length, tolerance", "±0.1"],
  ]);
  await page.keyboard.press("Tab");
  await goBy(page, "Shift+Tab", "add a cell");
  await page.keyboard.press("Enter");
  await enter(page, "cell_1, name", "apart");
  await enter(page, "apart, entry", "R_face - L_face");
  await page.keyboard.press("Tab");
  await goBy(page, "Shift+Tab", "add a characteristic");
  await page.keyboard.press("Enter");
  for (const [name, text] of [
    ["characteristic 1, name", "hole X"],
    ["hole X, demands", "coordinate"],
    ["hole X, of", "hole"],
    ["hole X, along", "X"],
    ["hole X, tolerance", "±0.05"],
  ] as const)
    await enter(page, name, text);
  await page.keyboard.press("Tab");
  await goBy(page, "Shift+Tab", "add a touch");
  await page.keyboard.press("Enter");
  const touches: readonly (readonly [string, string, string, string, string])[] = [
    ["touch 1", "L", "left", "+X", "-50.120"],
    ["touch 2", "F", "front", "+Y", "-70.250"],
    ["touch 3", "R", "right", "-X", "35.900"],
  ];
  for (const [i, [blank, name, face, travelling, reading]] of touches.entries()) {
    if (i > 0) await page.keyboard.press("Alt+Enter");
    for (const [entry, text] of [
      [`${blank}, name`, name],
      [`${name}, face`, face],
      [`${name}, travelling`, travelling],
      [`${name}, with`, "probe"],
      [`${name}, readings`, reading],
    ] as const)
      await enter(page, entry, text);
  }
  await page.keyboard.press("Tab");
  expect(await firstSteps(page)).toEqual(["make a strategy of the touches", "put a strategy to use"]);
  await goBy(page, "Shift+Tab", "make a strategy of the touches");
  await page.keyboard.press("Enter");
  await page.keyboard.type("left front");
  await goBy(page, "Tab", "add left, front");
  await page.keyboard.press("Enter");
  expect(await said(page)).toBe("“left, front” is among the strategies.");
  await goBy(page, "Tab", "put to use");
  await page.keyboard.press("Enter");
  // By hand: where each face is, one radius of 3 mm from the reading the way the tool went: -50.120 + 3 and -70.250 + 3; nothing tells Z.
  await workedOut(page);
  expect((await zeros(page)).slice(0, 2)).toEqual(["−47.1200", "−67.2500"]);
  expect(await firstSteps(page)).toEqual([]);
  expect(await page.locator(".open-problems li").allTextContents()).toEqual([
    "strategies.left, front: no touch of this strategy fixes Z. Add a touch that meets the part along Z.",
  ]);
  // Both readings with a radius towards each other: 35.900 - 3 - (-50.120 + 3); the doubt is that of two radii, which are one, and of two scatters.
  const apart = page.locator('.block.cell[aria-label="apart"] .result');
  expect(await apart.locator(".value").textContent()).toBe("80.0200 mm");
  // √((2 · 0.002)² + 2 · 0.001²) = 0.00424 mm.
  expect(await apart.locator("small").textContent()).toBe("u 0.0042");
  expect(await page.getByLabel("Characteristic whose stack is shown").locator("option").allTextContents()).not.toContain(
    "characteristic 1 (gone)",
  );
  // The strategy's own zero leaves the hole at its drawn place: nothing of the deviation but doubt.
  await expect.poll(() => page.locator('[data-table="part.characteristics"] tbody').textContent()).toContain("0.000");

  const reading = page.getByLabel("R, readings", { exact: true });
  expect(await reading.inputValue()).toBe("35.900");
  // The focus has not gone with the button, and where nothing has it the keys work all the same.
  expect(await page.evaluate(() => document.activeElement?.getAttribute("aria-label"))).toBe("Strategy that is put together");
  await page.evaluate(() => (document.activeElement as HTMLElement).blur());
  await page.keyboard.press("Control+z");
  expect(await said(page)).toMatch(/^Undone: /);
  await page.keyboard.press("Control+y");
  const built = { zeros: await zeros(page), apart: await apart.allTextContents() };
  const isSaid = async (words: string) => (await said(page)) === words;
  for (let steps = 0; steps < 100 && !(await isSaid("There is nothing to undo.")); steps++) await page.keyboard.press("Control+z");
  expect(await page.locator(".job").textContent()).toBe("Bearing cover, second side");
  for (let steps = 0; steps < 100 && !(await isSaid("There is nothing to redo.")); steps++) await page.keyboard.press("Control+y");
  // What is out of sight is drawn last.
  await expect.poll(async () => ({ zeros: await zeros(page), apart: await apart.allTextContents() })).toEqual(built);
  expect(await reading.inputValue()).toBe("35.900");
  await page.evaluate(() => Reflect.deleteProperty(window, "showSaveFilePicker"));
  const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Control+s")]);
  const saved = JSON.parse(readFileSync(await download.path(), "utf8"));
  expect(saved).toMatchObject({
    tools: [{ id: "probe", radius: "3" }],
    touches: [{ readings: "-50.120" }, { readings: "-70.250" }, { readings: "35.900" }],
    chosen: "left, front",
    ledger: [{ kind: "cell", id: "apart", entry: "R_face - L_face" }],
  });
  expect(errors).toEqual([]);
});

it("readings are pasted into a job by the mouse, with decimal commas, and the zero follows", { timeout: 120_000 }, async () => {
  const face = (id: string, outward: string, datum: string) => ({ id, kind: "face", outward, datum });
  const touch = (id: string, element: string, travelling: string) => ({ id, element, travelling, tool: "probe", readings: "" });
  const job = {
    format: "datumbook",
    version: 2,
    unit: "mm",
    part: { elements: [face("left", "-X", "B"), face("front", "-Y", "C")] },
    tools: [{ id: "probe", kind: "touch probe", radius: "3", radiusUncertainty: "0.002", scatter: "0.001" }],
    touches: [touch("L", "left", "+X"), touch("F", "front", "+Y")],
    strategies: [{ id: "corner", touches: ["L", "F"] }],
    chosen: "corner",
  };
  const { page, errors } = await browser.openSheet({ file: Buffer.from(JSON.stringify(job)) });
  await page.evaluate(() => navigator.clipboard.writeText("-50,120\n-70,250\n"));
  await page.getByLabel("L, readings", { exact: true }).click();
  await page.keyboard.press("Control+v");
  const preview = page.locator(".paste-preview");
  // A comma can mean two things: each token is shown as it would be read, and nothing is changed before a person has said.
  expect(await preview.locator("tbody").textContent()).toContain("-50,120");
  expect(await page.getByLabel("L, readings", { exact: true }).inputValue()).toBe("");
  await preview.getByLabel(/^decimal marks/).check();
  await expect.poll(() => preview.locator("tbody").textContent()).toContain("-50.12");
  await preview.getByRole("button", { name: "take it" }).click();
  // By hand: reading plus the radius of 3 mm, the way the tool went.
  await expect.poll(async () => (await zeros(page)).slice(0, 2)).toEqual(["−47.1200", "−67.2500"]);
  await page.getByRole("button", { name: "undo", exact: true }).click();
  expect(await page.getByLabel("L, readings", { exact: true }).inputValue()).toBe("");
  expect(errors).toEqual([]);
});
