import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { csvText } from "../../lib/exchange/csvText.ts";
import { defused, undefused } from "../../lib/exchange/defused.ts";
import { exchangedTables } from "../../lib/exchange/resultTables.ts";
import { takeOut } from "../../lib/exchange/takeOut.ts";
import { parseTable } from "../../lib/readings/parseTable.ts";
import type { plainResults } from "../../lib/record/plainResults.ts";
import { fewRepeats, ownCells, supposing, withTable } from "./demoEvaluations.ts";

const table = (rows: readonly (readonly (string | number)[])[]) => ({ title: "", columns: ["a", "b"], rows });

// RFC 4180, clause 2, items 1 to 7.
describe("csvText writes what RFC 4180 says:", () => {
  it("a line for each record, ended by CR LF, names first, commas between (1 to 4)", () => {
    expect(csvText(table([["x", 1.5]]))).toBe("a,b\r\nx,1.5\r\n");
  });
  it("quotes round cells with a comma, a quote or a line end, quotes inside doubled (5 to 7)", () => {
    expect(csvText(table([['1" plate, long', "two\nlines"]]))).toBe('a,b\r\n"1"" plate, long","two\nlines"\r\n');
  });
});

it("csvText with a decimal comma parts cells by semicolons", () => {
  expect(csvText(table([["x", -412.607]]), { decimalMark: "," })).toBe("a;b\r\nx;-412,607\r\n");
});

// Common practice, no standard: what the signs do is known of spreadsheet programs in general.
it.each(["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1", "=cmd|' /C calc'!A0", "＝1+1", "'=1"])(
  "csvText makes %j a harmless text",
  (text) => {
    const [, line = ""] = csvText(table([[text, 0]])).split("a,b\r\n");
    expect(line.replace(/^"/, "").startsWith("'")).toBe(true);
    expect(undefused(defused(text))).toBe(text);
  },
);

it("csvText leaves numbers numbers, negative ones too, and refuses those that are none", () => {
  expect(csvText(table([[-0.5, -0]]))).toBe("a,b\r\n-0.5,0\r\n");
  expect(() => csvText(table([[Number.NaN, 0]]))).toThrow("expected a finite number or a text, got NaN");
});

it("what csvText writes, a reader of cells takes back: the same digits, the same texts", () => {
  // Blanks round a cell are no part of it to the reader, and neither is a table of nothing.
  const text = fc.string({ unit: "binary", maxLength: 30 }).map((each) => `n${each}n`.replace(/\0/g, ""));
  const formula = fc.tuple(fc.constantFrom("=", "+", "-", "@", "'", "'=", "''="), text).map(([sign, rest]) => sign + rest);
  const number = fc.double({ noNaN: true, noDefaultInfinity: true });
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.oneof(text, formula), number), { minLength: 1, maxLength: 5 }),
      fc.constantFrom(".", ","),
      (rows, mark) => {
        const written = csvText(table(rows), { decimalMark: mark as "." | "," });
        const read = parseTable(written, { separator: mark === "," ? ";" : "," });
        if (!read.ok) throw new Error(JSON.stringify(read.problems));
        expect(read.value.header ?? []).toEqual(["a", "b"]);
        expect(read.value.rows.map(([a = "", b = ""]) => [undefused(a), Number(b.replace(",", "."))])).toEqual(
          rows.map(([a, b]) => [a, b === 0 ? 0 : b]),
        );
      },
    ),
  );
});

/** A column of lengths, one of them empty, one that cannot be read and one of another kind, and twice that. */
const tabled = evaluateSetup(
  withTable(
    [{ id: "length" }, { id: "twice", formula: "2 * length" }],
    [
      ["5 mm ± 0.001 mm", ""],
      ["", ""],
      ["5 mm +", ""],
      ["1 in ± 0.001 in", ""],
      ["3 K", ""],
    ],
  ),
);

describe("the tables of a setup", () => {
  const evaluation = evaluateSetup(fewRepeats);
  it.each(Object.entries(exchangedTables))("%s has a cell for every column, and rows", (_, make) => {
    const { columns, rows } = make(evaluation);
    expect(rows.length).toBeGreaterThan(0);
    for (const row of rows) expect(row).toHaveLength(columns.length);
  });

  // By hand: the mean of 10.003, 10.001 and 10.006 is 10.00333..., the radius of the pin is 3, so the face stands at 13.00333...
  it("results tell a value with all its digits, and why one is not known", () => {
    const lines = csvText(exchangedTables.results(evaluation)).split("\r\n");
    const zero = lines.find((line) => line.startsWith("zero X,mm,"));
    expect(Number(zero?.split(",")[2])).toBeCloseTo(13 + 0.01 / 3, 12);
    expect(lines.find((line) => line.startsWith("zero Y,"))).toMatch(/^zero Y,mm,,,,,,,"?strategies\.left/);
  });

  // By hand: in the batch neither face of the length is touched or cut anew, so that its deviation is its own, 0 with limits of ±0.03 at three standard
  // deviations (as everywhere for a drawing's limits: common practice, no source), whatever the readings of this part say.
  it("results and budget have the characteristics of the batch beside those of this part", () => {
    const { columns, rows } = exchangedTables.results(evaluation);
    const of = (id: string) => Object.fromEntries(columns.map((name, i) => [name, rows.find(([first]) => first === id)?.[i]]));
    expect(of("|long|, the batch")).toMatchObject({
      unit: "mm",
      value: { number: expect.closeTo(0, 12) },
      "standard uncertainty": { number: expect.closeTo(0.01, 12) },
    });
    expect(of("|long|")["value"]).not.toMatchObject({ number: expect.closeTo(0, 3) });
    expect(exchangedTables.budget(evaluation).rows.filter(([id]) => id === "|long|, the batch")).toHaveLength(1);
  });

  // By hand: 12.5², u = 2 · 12.5 · 0.004 (JCGM 100:2008, 5.1.2); 13.00333... - 12.5.
  it("results and budget have the cells of a person's own in their units, and why one has no value", () => {
    const own = evaluateSetup(ownCells);
    const { columns, rows } = exchangedTables.results(own);
    const of = (id: string) => Object.fromEntries(columns.map((name, i) => [name, rows.find(([first]) => first === id)?.[i]]));
    expect(of("cell area")).toMatchObject({
      unit: "mm^2",
      value: { number: 156.25 },
      "standard uncertainty": { number: expect.closeTo(0.1, 12) },
    });
    expect(of("cell gap")).toMatchObject({ unit: "mm", value: { number: expect.closeTo(0.5 + 0.01 / 3, 12) } });
    expect(of("cell wrong")).toMatchObject({ unit: "", value: "", note: expect.stringContaining("temperature") });
    expect(rows.filter(([id]) => String(id).startsWith("cell")).map(([id]) => id)).toEqual(
      ["shim", "area", "ratio", "rate", "gap", "wrong", "gauge_length, row 1"].map((id) => `cell ${id}`),
    );
    expect(exchangedTables.budget(own).rows.filter(([id]) => id === "cell area")).toMatchObject([
      [
        "cell area",
        "mm^2",
        "shim",
        expect.anything(),
        expect.anything(),
        { number: 25 },
        { number: 0.004 },
        ...Array(3).fill(expect.anything()),
      ],
    ]);
  });

  // By hand: 2 · 5 mm with twice the doubt (JCGM 100:2008, 5.1.2); an inch is 25.4 mm (NIST SP 811, B.8).
  it("results and budget have every row of the columns of free tables, and why one has no value; the others keep their numbers", () => {
    const { columns, rows } = exchangedTables.results(tabled);
    const told = rows.filter(([id]) => String(id).startsWith("cell gauge_"));
    const of = (id: string) => Object.fromEntries(columns.map((name, i) => [name, told.find(([first]) => first === id)?.[i]]));
    expect(told.map(([id]) => id)).toEqual([
      "cell gauge_length, row 1",
      "cell gauge_length, row 3",
      "cell gauge_length, row 4",
      "cell gauge_length, row 5",
      "cell gauge_twice, row 1",
      "cell gauge_twice, row 3",
      "cell gauge_twice, row 4",
      "cell gauge_twice, row 5",
    ]);
    const doubt = (u: number) => ({ unit: "mm", "standard uncertainty": { number: expect.closeTo(u, 12) }, note: "" });
    expect(of("cell gauge_length, row 1")).toMatchObject({ value: { number: 5 }, ...doubt(0.001) });
    expect(of("cell gauge_twice, row 1")).toMatchObject({ value: { number: 10 }, ...doubt(0.002) });
    expect(of("cell gauge_length, row 4")).toMatchObject({ value: { number: expect.closeTo(25.4, 12) }, ...doubt(0.0254) });
    for (const id of ["cell gauge_length, row 3", "cell gauge_twice, row 3", "cell gauge_length, row 5"])
      expect([id, of(id)]).toEqual([id, expect.objectContaining({ unit: "", value: "", note: expect.stringMatching(/^ledger\.gauge\./) })]);
    const contributions = exchangedTables.budget(tabled).rows.filter(([id]) => id === "cell gauge_twice, row 4");
    expect(contributions).toMatchObject([
      [
        "cell gauge_twice, row 4",
        "mm",
        "gauge_length 4",
        ...Array(2).fill(expect.anything()),
        { number: 2 },
        { number: expect.closeTo(0.0254, 12) },
        ...Array(3).fill(expect.anything()),
      ],
    ]);
  });

  it("rows of free tables leave in every format, and none that could not be worked out is dropped silently", () => {
    for (const format of ["csv", "markdown", "dsi"] as const) {
      const text = takeOut(tabled, format) as string;
      for (const row of [1, 3, 4, 5])
        expect([format, row, text.replaceAll("\\_", "_").includes(`cell gauge_length, row ${row}`)]).toEqual([format, row, true]);
      expect([format, text.includes("gauge_length, row 2")]).toEqual([format, false]);
    }
    const { own } = JSON.parse(takeOut(tabled, "json") as string) as ReturnType<typeof plainResults>;
    expect(own.find(({ name }) => name === "gauge_length")).toMatchObject({
      unit: "mm",
      rows: [
        { value: 5, standardUncertainty: 0.001 },
        null,
        { problems: [expect.anything()] },
        { value: expect.closeTo(25.4, 12) },
        { problems: [expect.anything()] },
      ],
    });
  });

  it.each(Object.entries(exchangedTables))("%s say in every row what is only supposed, and else nothing of it", (_, make) => {
    const { title, columns, rows } = make(evaluateSetup(supposing));
    expect(title).toContain("SUPPOSED");
    expect(columns.at(-1)).toBe("supposed");
    expect(new Set(rows.map((row) => row.at(-1)))).toEqual(new Set(["shim"]));
    expect(make(evaluateSetup(ownCells)).columns).not.toContain("supposed");
  });

  it("comparison has every strategy in both views, in the order of the ranking", () => {
    const { columns, rows } = exchangedTables.comparison(evaluation);
    const of = (name: string) => rows.map((row) => row[columns.indexOf(name)]);
    expect(new Set(of("strategy"))).toEqual(new Set(["left", "both"]));
    expect([...new Set(of("strategy"))]).toEqual([...evaluation.ranking.order]);
    expect(new Set(of("view"))).toEqual(new Set(["this part", "the batch"]));
  });

  // By hand: squares about the means 12.667 and 8 µm² over 2 + 1 degrees of freedom give s² = 6.889 µm²; the length has s²/3 + s²/2 and twice the
  // radius, 1 µm (JCGM 100:2008, 4.2.4 and 5.1.2); what the tip is off its axis is the same at both ends.
  it("comparison has the doubt of each deviation, the touches of each strategy and what is its bottleneck", () => {
    const { columns, rows } = exchangedTables.comparison(evaluation);
    const row = rows.find((each) => each[1] === "both" && each[columns.indexOf("view")] === "this part" && each.includes("distance"));
    const of = (name: string) => row?.[columns.indexOf(name)];
    const variance = 38 / 3 + 8;
    expect(of("standard uncertainty")).toMatchObject({
      number: expect.closeTo(Math.sqrt((variance / 3) * (1 / 3 + 1 / 2) + 4) / 1000, 9),
    });
    expect([of("standard uncertainty, Y"), of("touches"), of("bottleneck")]).toEqual(["", 2, "|long|"]);
  });
});
