import { describe, expect, it, vi } from "vitest";
import { mm } from "../../../lib/base/quantity.ts";
import { detectionOf } from "../../../lib/fixture/seatCheck.ts";
import { axisLift } from "../../../lib/fixture/vBlock.ts";
import { parseStatement } from "../../../lib/formula/parseStatement.ts";
import { usualProbability } from "../../../lib/part/decisionRule.ts";
import { generalTolerance } from "../../../lib/part/generalTolerance.ts";
import { usualSlipChances } from "../../../lib/readings/slipKinds.ts";
import { normalUpperTail } from "../../../lib/uncertainty/special/normalCumulative.ts";
import { normalQuantile } from "../../../lib/uncertainty/special/normalQuantile.ts";
import { entryHelp, helpedPlaces } from "../../../notebooks/guide/entryHelp.ts";
import { guideTexts, lookUp } from "../../../notebooks/guide/texts.ts";
import { walk } from "../../../notebooks/guide/walk.ts";
import { aboutEntry } from "../../../notebooks/inputs/entryAbout.ts";
import { markdown } from "../../../notebooks/inputs/markdown.ts";
import { createCommands } from "../../../notebooks/pages/commands.ts";
import { demoDocument } from "../../../notebooks/pages/firstJob.ts";
import { Sheet } from "../../../notebooks/pages/sheet.ts";

const nothing = () => undefined;
const commands = createCommands({
  document: demoDocument,
  open: nothing,
  openFile: nothing,
  save: nothing,
  saveAs: nothing,
  undo: nothing,
  redo: nothing,
  kept: async () => [],
  goTo: nothing,
  forget: async () => undefined,
  takeOutList: async () => [],
  bringInForm: async () => [],
  guide: nothing,
  aboutEntry: nothing,
});
const sheet = new Sheet(demoDocument(), { commands, onDocument: nothing });

describe("the guide", () => {
  it("names sections, commands and headings as the sheet has them", async () => {
    commands.querySelector("button")?.click();
    // What a command asks is filled in when it is there.
    await vi.waitFor(() => expect(commands.querySelector(".examples li")).not.toBeNull());
    const onSheet = [...sheet.element.querySelectorAll("h2, h3, button, label, summary, th, legend, option")].map(({ textContent }) =>
      (textContent ?? "").replace(/^\d+/, "").trim(),
    );
    const views = ["this part, after its readings", "the batch, before them"];
    const named = guideTexts.slice(0, 4).flatMap(({ title, text }) => {
      const names = markdown(text).flatMap((block) =>
        [...block.querySelectorAll("strong, em")].map(({ textContent }) => textContent ?? ""),
      );
      expect(names.length, title).toBeGreaterThan(2);
      return names;
    });
    expect(named.filter((name) => !onSheet.includes(name) && !views.includes(name))).toEqual([]);
  });

  it("has a text for each person, the words and the mathematics, each with a heading and nothing that is not shown as written", () => {
    expect(guideTexts.map(({ title }) => title)).toEqual([
      "For the setter at the machine",
      "For the manufacturing engineer",
      "For the quality engineer",
      "For whoever documents the fixture",
      "Words",
      "The mathematics on one page",
      "Keys",
    ]);
    for (const { text } of guideTexts) {
      const shown = markdown(text)
        .map((block) => block.textContent)
        .join("\n");
      expect(shown).not.toMatch(/\*\*|`|^#|\[\w+\]\(/m);
    }
  });

  it("defers to the machine builder's manual and to licensed practice before anything is touched", () => {
    const setter = guideTexts[0]?.text ?? "";
    const said = setter.indexOf("licensed practice come first");
    expect(said).toBeGreaterThan(0);
    expect(said).toBeLessThan(setter.indexOf("## Touch"));
  });

  it("walks through sections that are there", () => {
    expect(walk.filter(({ section }) => sheet.element.querySelector(`#${section}`) === null)).toEqual([]);
  });

  it("finds the lines in which all words stand, those that begin with them first", () => {
    const [first, ...others] = lookUp("guard band");
    expect(first?.line.toLowerCase().startsWith("guard")).toBe(true);
    expect(others.length).toBeGreaterThan(1);
    expect(lookUp("ISO 14253").every(({ line }) => line.includes("ISO 14253"))).toBe(true);
    expect(lookUp("no such word anywhere")).toEqual([]);
    expect(lookUp("  ")).toEqual([]);
  });
});

describe("the help of an entry", () => {
  it("is of entries that the sheet has", () => {
    const places = [...sheet.element.querySelectorAll("[data-cell]")].map((control) => aboutEntry(control)?.place ?? "");
    const tables = [...sheet.element.querySelectorAll<HTMLElement>("[data-table]")].flatMap((table) =>
      [...table.querySelectorAll<HTMLElement>("th[data-head]")].map(({ dataset }) => `${table.dataset["table"]}.${dataset["head"]}`),
    );
    const all = [...places, ...tables];
    expect(helpedPlaces.filter((place) => !all.some((each) => each === place || each.startsWith(`${place}.`)))).toEqual([]);
  });

  it("is there for every entry that takes a number", () => {
    const columns = [...sheet.element.querySelectorAll<HTMLElement>("[data-table]")].flatMap((table) =>
      [...table.querySelectorAll<HTMLElement>("th[data-head].entry.figures")].map(
        ({ dataset }) => `${table.dataset["table"]}.${dataset["head"]}`,
      ),
    );
    // Fields do not say that they take numbers: all do in which a line is typed, but those of words.
    const fields = [...sheet.element.querySelectorAll<HTMLElement>(".field input")].map((control) => aboutEntry(control)?.place ?? "");
    const words = ["title", "revision", "part.name", "machine.name", "machine.working.x", "machine.working.y", "machine.working.z"];
    const numbers = [...columns, ...fields.filter((place) => !words.includes(place) && !/(^|\.)note$|^record\./.test(place))].filter(
      // A moment is no quantity.
      (place) => !place.endsWith(".when"),
    );
    expect(columns.length).toBeGreaterThan(60);
    expect(numbers).toEqual(expect.arrayContaining(["sampling.seed", "decision.guardBand", "heat.part.temperature", "nests.foundX"]));
    expect(numbers.filter((place) => entryHelp(place) === undefined)).toEqual([]);
  });

  it("is told of an entry within a place by that of the place, and of nothing else", () => {
    expect(entryHelp("machine.lostMotion.x")).toBe(entryHelp("machine.lostMotion"));
    expect(entryHelp("touches.note")).toBeUndefined();
  });

  it("of a cell tells forms of a doubt that can be typed as they stand, one of each kind", () => {
    const kinds = (entryHelp("ledger.cell.entry")?.typical ?? []).map(({ value }) => {
      const statement = parseStatement(value);
      return statement.ok ? (statement.value.doubt?.kind ?? "formula") : `${value}: ${statement.problems[0]?.what}`;
    });
    expect([...new Set(kinds)].sort()).toEqual(["formula", "limits", "notBelow", "readings", "standard", "within"]);
  });

  it("says of every usual value and formula what it rests on", () => {
    for (const place of helpedPlaces) {
      const { typical = [], formula } = entryHelp(place) ?? {};
      expect(typical.length > 0 || formula !== undefined, place).toBe(true);
      for (const { value, evidence } of typical) expect(value === "" || evidence === "", place).toBe(false);
      if (formula) expect(formula.source, place).not.toBe("");
    }
  });

  it("tells figures as the library has them", () => {
    const formula = (place: string) => entryHelp(place)?.formula?.text ?? "";
    // The library's functions are held against published tables in tests/published.
    expect(formula("decision.guardBand")).toContain(`at most ${(100 * normalUpperTail(2)).toFixed(1)} %`);
    expect(formula("decision.conformanceProbability")).toContain(`${normalQuantile(usualProbability).toFixed(3)} u`);
    const { noticedAbove, smallestFound } = detectionOf(1);
    expect(formula("fixture.seatScatter")).toContain(`above ${noticedAbove.toFixed(3)} u, and a chip of ${smallestFound.toFixed(2)} u`);
    expect(formula("fixture.locators.angle")).toContain(`${axisLift(Math.PI / 2).toFixed(3)} at 90 degrees`);
    const chances = Object.values(usualSlipChances);
    const percent = (chance: number) => (100 * chance).toFixed(1);
    expect(entryHelp("slipChances.chance")?.typical?.[0]?.value).toBe(
      `${percent(Math.min(...chances))} to ${percent(Math.max(...chances))} %`,
    );
  });

  // ISO 2768-1, table 1, class m, by the library's own table, which is held against the standard in tests/published.
  it("tells general tolerances as the standard's table has them", () => {
    const told = (entryHelp("part.dimensions.tolerance")?.typical ?? []).map(
      ({ of, value }) => [Number(of.match(/\d+(?= mm, medium)/)?.[0]), value] as const,
    );
    expect(told.length).toBe(4);
    for (const [upTo, value] of told) {
      const limit = generalTolerance(mm(upTo), "m");
      expect(limit.ok && `± ${limit.value.upper} mm`).toBe(value);
    }
  });
});

it("markdown(text) makes no element of what is written as one", () => {
  const made = markdown("# <b>x</b>\n\n- `<img src=x>` and **<script>**");
  expect(made.flatMap((block) => [...block.querySelectorAll("img, script, b")])).toEqual([]);
  expect(made.map(({ textContent }) => textContent)).toEqual(["<b>x</b>", "<img src=x> and <script>"]);
});

it("shows rows of cells as a table, with the pipes that are part of a cell", () => {
  const [table] = markdown("| check | to |\n| --- | ---: |\n| a \\| b | **no** |\n| c |  |");
  expect([...(table?.querySelectorAll("tr") ?? [])].map((row) => [...row.children].map(({ textContent }) => textContent))).toEqual([
    ["check", "to"],
    ["a | b", "no"],
    ["c", ""],
  ]);
  expect(table?.querySelectorAll("th[scope=col]")).toHaveLength(2);
  expect(table?.querySelectorAll("td strong")).toHaveLength(1);
});
