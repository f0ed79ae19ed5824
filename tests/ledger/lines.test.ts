import { describe, expect, it } from "vitest";
import type { LedgerBlock, TableBlock } from "../../lib/document/ledgerBlocks.ts";
import { newDocument } from "../../lib/document/newDocument.ts";
import { renameBlock, renameColumn } from "../../lib/document/renameBlock.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { type Budget, budgetOf } from "../../lib/uncertainty/budget.ts";
import { correlation } from "../../lib/uncertainty/covariance.ts";
import type { Uncertain } from "../../lib/uncertainty/uncertain.ts";
import { demoDocument } from "../../notebooks/pages/firstJob.ts";
import { cell, column, table } from "./blocks.ts";

const document = (ledger: readonly LedgerBlock[], more: Partial<SetupDocument> = {}): SetupDocument => ({
  ...newDocument(),
  ...more,
  ledger: [...ledger],
});

const resultOf = (setup: SetupDocument, name: string) => evaluateSetup(setup).own.get(name);

function valueIn(setup: SetupDocument, name: string): Uncertain {
  const found = resultOf(setup, name);
  if (!found?.ok || found.value.kind !== "quantity") throw new Error(`${name}: ${JSON.stringify(found)}`);
  return found.value.value;
}

const budgetIn = (setup: SetupDocument, name: string): Budget => budgetOf(valueIn(setup, name));

/** What is wrong with a cell, and at which character. */
function problemIn(ledger: readonly LedgerBlock[], name: string): string {
  const found = resultOf(document(ledger), name);
  const problem = found?.ok === false ? found.problems[0] : undefined;
  return problem === undefined ? "no problem" : `${problem.at} @${problem.character}: ${problem.what}`;
}

/** An indicator against gauge blocks: what it shows at each. By hand: mean place 20 mm, Σ(t − t̄)² = 1000 mm², mean value 5.2 µm. */
const blocks: TableBlock = {
  ...table(
    "gauge",
    ["size", "error"],
    [
      ["0", "1"],
      ["10", "3"],
      ["20", "6"],
      ["30", "6"],
      ["40", "10"],
      ["", ""],
    ],
  ),
  columns: [column("size", { unit: "mm" }), column("error", { unit: "um", family: "contact tool" })],
};
const slope = cell("slope", "slope_of_line(gauge_size; gauge_error)", { unit: "um/mm" });
const at = (name: string, place: string) => cell(name, `value_on_line(gauge_size; gauge_error; ${place})`);

// By hand, in µm and mm: Σ(t − t̄)y = -20·1 - 10·3 + 10·6 + 20·10 = 210, slope 0.21; residuals -0.0, -0.1, 0.8, -1.3, 0.6; their squares come to 2.7.
describe("the line through two columns", () => {
  const setup = document([
    blocks,
    slope,
    cell("zero", "intercept_of_line(gauge_size; gauge_error)"),
    at("low", "5 mm"),
    at("high", "35 mm"),
    cell("way", "high - low"),
    cell("back", "place_on_line(gauge_size; gauge_error; low)"),
    cell("where", "place_on_line(gauge_size; gauge_error; 7 um)"),
  ]);
  const s = Math.sqrt(2.7 / 3);

  it("has slope, intercept and values with the doubt of what its rows scatter, n - 2 degrees of freedom", () => {
    const found = budgetIn(setup, "slope");
    expect(found.value).toBeCloseTo(0.21e-3, 15);
    expect(found.standardUncertainty).toBeCloseTo((s / Math.sqrt(1000)) * 1e-3, 15);
    expect(found.contributions.map(({ source }) => source)).toMatchObject([
      {
        id: "cell gauge_error over gauge_size, slope",
        family: "contact tool",
        degreesOfFreedom: 3,
        evidence: { kind: "measured", readings: 5 },
      },
    ]);
    expect(resultOf(setup, "slope")).toMatchObject({ ok: true, value: { dimension: { length: 0, angle: 0, temperature: 0 } } });
    const zero = budgetIn(setup, "zero");
    expect(zero.value).toBeCloseTo(1e-3, 15);
    expect(zero.standardUncertainty).toBeCloseTo(s * Math.sqrt(1 / 5 + 400 / 1000) * 1e-3, 15);
    // JCGM 100:2008, H.3.3 (H.13f) with these sums: r = -Σt / √(n Σt²) = -100 / √(5 · 3000).
    expect(correlation(zero, found)).toBeCloseTo(-100 / Math.sqrt(15_000), 12);
    const low = budgetIn(setup, "low");
    expect(low.value).toBeCloseTo(2.05e-3, 15);
    expect(low.standardUncertainty).toBeCloseTo(s * Math.sqrt(1 / 5 + 225 / 1000) * 1e-3, 15);
  });

  it("gives results that share its sources: two values differ by the slope times their distance, and a value read back is its place without doubt", () => {
    const way = budgetIn(setup, "way");
    const steep = budgetIn(setup, "slope");
    expect(way.value).toBeCloseTo(30 * steep.value, 15);
    expect(way.standardUncertainty).toBeCloseTo(30 * steep.standardUncertainty, 16);
    expect(way.contributions.map(({ source }) => source.id)).toEqual(["cell gauge_error over gauge_size, slope"]);
    const back = budgetIn(setup, "back");
    expect(back.value).toBeCloseTo(5, 12);
    expect(back.standardUncertainty).toBeLessThan(1e-12);
  });

  // Inverse use: u² = (s/b)² (1/n + (y - ȳ)² / (b² Σ(t - t̄)²)), by the law of propagation.
  it("gives the place of a value", () => {
    const { value, standardUncertainty } = budgetIn(setup, "where");
    expect(value).toBeCloseTo(20 + 1.8 / 0.21, 11);
    expect(standardUncertainty).toBeCloseTo((s / 0.21) * Math.sqrt(1 / 5 + 1.8 ** 2 / (0.21 ** 2 * 1000)), 11);
  });

  it("takes a place in doubt, whose doubt goes through the slope", () => {
    const doubtful = document([blocks, slope, cell("place", "20 mm ± 2 mm"), at("there", "place")]);
    expect(budgetIn(doubtful, "there").standardUncertainty).toBeCloseTo(Math.hypot(s / Math.sqrt(5), 0.21 * 2) * 1e-3, 15);
  });

  it("is the same for every cell, before and after one of them changes", () => {
    const before = document([blocks, slope, at("low", "5 mm")]);
    const after = document([blocks, slope, at("low", "25 mm"), cell("both", "low - 25 mm * slope")]);
    valueIn(before, "low");
    expect(budgetIn(after, "both").contributions.map(({ source }) => source.id)).toHaveLength(2);
    // The height alone is left at the middle of the places.
    const middle = document([blocks, slope, at("low", "25 mm"), cell("both", "low - 5 mm * slope")]);
    expect(budgetIn(middle, "both").standardUncertainty).toBeCloseTo((s / Math.sqrt(5)) * 1e-3, 15);
  });

  it("can be named by entries of the setup, and follows what is supposed of it", () => {
    const demo = demoDocument();
    const named = {
      ...demo,
      ledger: [blocks, cell("ring", "3 mm - value_on_line(gauge_size; gauge_error; 20 mm)")],
      tools: demo.tools.map((tool, i) => (i === 0 ? { ...tool, radius: "ring", radiusUncertainty: "" } : tool)),
    };
    const { problems, faces } = evaluateSetup(named);
    expect(problems).toEqual([]);
    const height = (setup: SetupDocument) =>
      (setup === named ? faces : evaluateSetup(setup).faces)
        .find(({ id }) => id === "left")
        ?.budget.contributions.find(({ source }) => source.id === "cell gauge_error over gauge_size, height")?.amount;
    expect(height(named)).toBeCloseTo((-s / Math.sqrt(5)) * 1e-3, 12);
    const twice = { ...named, whatIf: [{ source: "cell gauge_error over gauge_size, height", shift: "", doubt: "2" }] };
    expect(height(twice)).toBeCloseTo((-2 * s * 1e-3) / Math.sqrt(5), 12);
  });

  it("is worked out row by row in a column of its own table: what each row is off it", () => {
    const off = {
      ...blocks,
      columns: [...blocks.columns, column("off", { formula: "error - value_on_line(gauge_size; gauge_error; size)" })],
    };
    const found = resultOf(document([off]), "gauge_off");
    const rows = found?.ok && found.value.kind === "column" ? found.value.rows.map((row) => row?.ok && row.value.value * 1e3) : found;
    expect(rows).toEqual([0, -0.1, 0.8, -1.3, 0.6].map((each) => expect.closeTo(each, 10)).concat([undefined]));
  });

  it("keeps its sources in sight where a table or column is called otherwise", () => {
    const supposed = document([blocks, slope], { whatIf: [{ source: "cell gauge_error over gauge_size, slope", shift: "1", doubt: "" }] });
    const renamed = renameBlock(supposed, "gauge", "blocks", new Map());
    const again = renamed.ok ? renameColumn(renamed.value, "blocks", "size", "length", new Map()) : renamed;
    if (!again.ok) throw new Error(again.problems[0]?.what);
    expect(again.value.whatIf.map(({ source }) => source)).toEqual(["cell blocks_error over blocks_length, slope"]);
    expect(again.value.ledger[1]).toMatchObject({ entry: "slope_of_line(blocks_length; blocks_error)" });
    expect(budgetIn(again.value, "slope").value).toBeCloseTo((0.21 + s / Math.sqrt(1000)) * 1e-3, 15);
  });
});

describe("doubts of the rows themselves", () => {
  const compared = (entry: string) => ({
    ...table(
      "t",
      ["at", "read"],
      [0, 10, 20, 30].map((place, i) => [`${place}`, `${[5.001, 5.004, 5.003, 5.008][i]}`]),
    ),
    columns: [column("at", { unit: "mm" }), column("read", { unit: "mm" }), column("off", { formula: entry })],
  });

  // 5.001, 5.004, 5.003, 5.008 less 5: slope 0.0002, residuals 0, 1, -2, 1 µm, s² = 6/2 µm²: by hand. What all rows were compared with errs for all of them.
  it("that all rows share move the line as a whole and not its slope", () => {
    const setup = document([
      compared("read - standard"),
      cell("standard", "5 mm ± 0.004 mm"),
      cell("middle", "value_on_line(t_at; t_off; 15 mm)"),
      cell("slope", "slope_of_line(t_at; t_off)"),
      cell("again", "middle + standard"),
    ]);
    expect(budgetIn(setup, "middle").standardUncertainty).toBeCloseTo(Math.hypot(Math.sqrt(3) / 2, 4) * 1e-3, 14);
    expect(budgetIn(setup, "slope").standardUncertainty).toBeCloseTo(Math.sqrt(3 / 500) * 1e-3, 14);
    // The standard is taken off and put back.
    expect(budgetIn(setup, "again").standardUncertainty).toBeCloseTo((Math.sqrt(3) / 2) * 1e-3, 14);
  });

  it("that go with the place, as an error of scale does, move the slope", () => {
    const setup = document([
      compared("read - 5 mm + at * scale"),
      cell("scale", "0 ± 1e-4"),
      cell("slope", "slope_of_line(t_at; t_off)"),
      cell("middle", "value_on_line(t_at; t_off; 0 mm)"),
    ]);
    expect(budgetIn(setup, "slope").standardUncertainty).toBeCloseTo(Math.hypot(Math.sqrt(3 / 500) * 1e-3, 1e-4), 14);
    // Nothing of it is left at place 0.
    expect(budgetIn(setup, "middle").standardUncertainty).toBeCloseTo(Math.sqrt(3) * 1e-3 * Math.sqrt(1 / 4 + 225 / 500), 14);
  });

  it("of one row, and of the places, are refused with the reason", () => {
    const own = table(
      "t",
      ["a", "b"],
      [
        ["1", "1"],
        ["2", "2.5 ± 0.1"],
        ["3", "3"],
      ],
    );
    expect(problemIn([own, cell("x", "2 * slope_of_line(t_a; t_b)")], "x")).toMatch(
      /^ledger\.x\.entry @23: row 2 of "t_b" states a doubt of its own/,
    );
    expect(problemIn([own, cell("x", "slope_of_line(t_b; t_a)")], "x")).toBe(
      'ledger.x.entry @14: row 2 of "t_b" is in doubt, and the places of a line count as exact',
    );
    const aside = { ...own, columns: [...own.columns, column("c", { formula: "estimate(b)" })] };
    expect(budgetIn(document([aside, cell("x", "slope_of_line(t_a; t_c)")]), "x").value).toBeCloseTo(1, 14);
  });

  // Readings never tell less than their last digit: δ/√12 (JCGM 100:2008, F.2.2.1), here 0.01 mm; over √4, and over √500 mm.
  it("are no less than the last digit of what was read", () => {
    const rows = [0, 10, 20, 30].map((place, i) => [`${place}`, `0.0${i + 1}`]);
    const setup = document([
      { ...table("t", ["a", "b"], rows), columns: [column("a", { unit: "mm" }), column("b", { unit: "mm" })] },
      cell("middle", "value_on_line(t_a; t_b; 15 mm)"),
      cell("slope", "slope_of_line(t_a; t_b)"),
    ]);
    expect(budgetIn(setup, "middle").standardUncertainty).toBeCloseTo(0.0014433756729740645, 15);
    expect(budgetIn(setup, "slope").standardUncertainty).toBeCloseTo(0.00012909944487358055, 15);
    expect(budgetIn(setup, "slope").contributions[0]?.source.degreesOfFreedom).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("what has no line", () => {
  const rows = (...pairs: readonly (readonly [string, string])[]) => table("t", ["a", "b"], pairs);
  const three = rows(["1", "1"], ["2", "3"], ["3", "4"]);
  it.each([
    ["slope_of_line(t_a; t_b)", rows(["1", "2"], ["2", "3"]), '@19: a line needs three rows or more to tell its doubt, and "t_b" has 2'],
    [
      "slope_of_line(t_a; t_b)",
      rows(["1", "2"], ["1", "3"], ["1", "4"]),
      '@14: all places in "t_a" are the same, and through one place a line goes any way',
    ],
    [
      "slope_of_line(t_a; t_b)",
      rows(["1", "2"], ["2", ""], ["3", "4"], ["4", "5"]),
      '@19: row 2 of "t_b" is empty, and that of "t_a" is not',
    ],
    [
      "slope_of_line(t_a; t_b)",
      rows(["1", "2"], ["", "5"], ["3", "4"], ["4", "5"]),
      '@14: row 2 of "t_a" is empty, and that of "t_b" is not',
    ],
    ["slope_of_line(t_a; u_c)", three, '@19: "t_a" has 3 rows and "u_c" 2: it is not known which go together'],
    ["slope_of_line(t_a; t_b)", rows(["1", "2"], ["2", "two"], ["3", "4"]), '@undefined: "t_b" has no value, so this has none'],
    [
      "slope_of_line(t_a; t_b)",
      rows(["1", "1e90"], ["2", "3"], ["3", "4"]),
      '@14: the numbers of "t_a" and "t_b" are too large, or too near to each other, for a line',
    ],
    [
      "slope_of_line(t_a; 2)",
      three,
      "@19: slope_of_line takes whole columns: first the places, then the values found there; and this is one value",
    ],
    [
      "1 + slope_of_line(mean(t_a); t_b)",
      three,
      "@18: slope_of_line takes whole columns: first the places, then the values found there; and this is one value",
    ],
    ["slope_of_line(t_a; nothing)", three, '@19: unknown name "nothing"'],
    ["slope_of_line(t_a)", three, "@0: slope_of_line takes 2 arguments, not 1"],
    ["value_on_line(t_a; t_b)", three, "@0: value_on_line takes 3 arguments, not 2"],
    ["value_on_line(t_a; t_b; 2 deg)", three, '@24: this is an angle, and the values of "t_a" are a length'],
    // In a cell whose unit is another one, a bare number would be in that.
    ["value_on_line(t_a; t_b; 2)", three, '@24: this is a number, and the values of "t_a" are a length'],
    ["place_on_line(t_a; t_b; 3 K)", three, '@24: this is a temperature, and the values of "t_b" are a length'],
    ["value_on_line(t_a; t_b; t_a)", three, '@24: "t_a" is a column, and one value is expected here'],
    [
      "1 + place_on_line(t_a; t_b; 2 mm)",
      rows(["1", "1"], ["2", "3"], ["3", "1.5"]),
      "@4: these rows do not tell the slope of their line from none (at 95 %), so that a value may belong to any place",
    ],
    ["12 mm ± slope_of_line(t_a; t_b) * 1 mm", three, "@8: a doubt cannot itself be in doubt, and this is"],
  ])("%s is refused at its place", (entry, points, expected) => {
    const other = table("u", ["c"], [["1"], ["2"]]);
    expect(problemIn([points, other, cell("x", entry)], "x")).toBe(`ledger.x.entry ${expected}`);
  });

  it("rows worked out by a formula that all lie on one line tell no doubt", () => {
    const exact = { ...three, columns: [...three.columns, column("c", { formula: "2 * a + 0.1" })] };
    expect(problemIn([exact, cell("x", "slope_of_line(t_a; t_c)")], "x")).toMatch(
      /@19: all rows of "t_c" lie on one line, and no digit tells/,
    );
  });

  it("the source of a line is related to nothing by a coefficient", () => {
    const related = { one: "cell gauge_error over gauge_size, slope", other: "cell ring", coefficient: "0.5" };
    const { problems } = evaluateSetup(
      document([blocks, slope, cell("ring", "5 mm ± 1 um")], {
        correlations: [{ id: "x", evidence: "stated", note: "", ...related }] as unknown as SetupDocument["correlations"],
      }),
    );
    expect(problems.find(({ at: place }) => place.startsWith("correlations"))?.what).toMatch(
      /^this is the doubt of a line through two columns/,
    );
  });
});
