import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { budgetWorkbook } from "../../lib/exchange/budgetWorkbook.ts";
import { csvText } from "../../lib/exchange/csvText.ts";
import { exchangedResults } from "../../lib/exchange/exchangedResults.ts";
import { expandedUncertainty } from "../../lib/record/expandedUncertainty.ts";
import { scaledBudget } from "../../lib/uncertainty/budget.ts";
import { demoEvaluation, demoNames, fewRepeats, ownCells, supposing, withTable } from "./demoEvaluations.ts";
import { readWorkbook, withoutResults } from "./readWorkbook.ts";
import { calculator } from "./sheetFormulas.ts";

const few = evaluateSetup(fewRepeats);
/** A column of a length, an empty row and a temperature, what the first is off a nominal, and a ten-millionth of the first. */
const tabled = evaluateSetup(
  withTable(
    [{ id: "length" }, { id: "off", formula: "length - 25 mm" }, { id: "tiny", formula: "length * 0.0000001" }],
    [
      ["1 in ± 0.001 in", "", ""],
      ["", "", ""],
      ["3 K", "", ""],
    ],
  ),
);
const evaluations = new Map([
  ["fewRepeats", few],
  ["ownCells", evaluateSetup(ownCells)],
  ["tabled", tabled],
  ...demoNames.map((name) => [name, demoEvaluation(name)] as const),
]);
const twelveDigits = 1e-12;
/** As far as LibreOffice's quantiles go above this many degrees of freedom; the expansion of Student's t in 1/ν (Abramowitz and Stegun, 26.7.5) bears our digits out. */
const elevenDigits = 1e-11;
const manyDegrees = 1e5;

/** Every formula of the file beside what is stored with it. */
function formulasOf(bytes: Uint8Array): { sheet: string; cell: string; value: string | number | undefined }[] {
  return [...readWorkbook(bytes)].flatMap(([sheet, cells]) =>
    [...cells].flatMap(([cell, { formula, value }]) => (formula === undefined ? [] : [{ sheet, cell, value }])),
  );
}

/** The cells that hang on a quantile with so many degrees of freedom. */
function coarseIn(bytes: Uint8Array): ReadonlySet<string> {
  const cells = [...readWorkbook(bytes)].flatMap(([sheet, each]) =>
    [...each].map(([cell, { formula = "", value }]) => ({
      at: `${sheet}!${cell}`,
      value,
      isQuantile: formula.includes("INV"),
      named: [...formula.matchAll(/(?:(\w+)!)?\b([A-Z]+\d+)\b/g)].map(([, other, name]) => `${other ?? sheet}!${name}`),
    })),
  );
  const valueAt = new Map(cells.map(({ at, value }) => [at, value]));
  const coarse = new Set<string>();
  const grows = () => {
    const before = coarse.size;
    for (const { at, isQuantile, named } of cells) {
      const hasMany = isQuantile && named.some((each) => Number(valueAt.get(each)) > manyDegrees);
      if (hasMany || named.some((each) => coarse.has(each))) coarse.add(at);
    }
    return coarse.size > before;
  };
  while (grows());
  return coarse;
}

function expectNear(got: unknown, wanted: unknown, where: string, tolerance = twelveDigits): void {
  if (typeof wanted !== "number" || typeof got !== "number") expect([where, got]).toEqual([where, wanted]);
  else if (Math.abs(got - wanted) > tolerance * Math.abs(wanted)) expect([where, got]).toEqual([where, wanted]);
}

describe("the workbook of budgets", () => {
  it.each([...evaluations.keys()])(
    "of %s: its formulas, worked out by hand-written code, give what the library found to 12 digits",
    (name) => {
      const bytes = budgetWorkbook(evaluations.get(name) as typeof few);
      const value = calculator(readWorkbook(bytes));
      const formulas = formulasOf(bytes);
      expect(formulas.length).toBeGreaterThan(20);
      for (const { sheet, cell, value: wanted } of formulas) expectNear(value(sheet, cell), wanted, `${sheet}!${cell}`);
    },
  );

  // JCGM 100:2008, equations 10 and G.2b, worked out by the library for sources of another size.
  it("is live: where sources are made larger or smaller on their sheet, results become what the library gives for such sources", () => {
    const sheets = readWorkbook(budgetWorkbook(few));
    const rows = [...(sheets.get("Sources") ?? [])].filter(([cell]) => /^A(?!1$)\d+$/.test(cell));
    const sourceCount = rows.length;
    expect(sourceCount).toBeGreaterThan(3);
    const known = exchangedResults(few).flatMap(({ id, budget }) => (budget.ok ? [{ id, budget: budget.value }] : []));
    fc.assert(
      fc.property(fc.array(fc.constantFrom(0.25, 0.5, 1, 2, 4), { minLength: sourceCount, maxLength: sourceCount }), (factors) => {
        const changed = new Map(
          rows.map(([cell], i) => {
            const at = cell.replace("A", "D");
            return [`Sources!${at}`, (sheets.get("Sources")?.get(at)?.value as number) * (factors[i] as number)];
          }),
        );
        const factorOf = new Map(rows.map(([, { value }], i) => [value, factors[i] as number]));
        const value = calculator(sheets, changed);
        const results = [...(sheets.get("Results") ?? [])].filter(([cell]) => /^A\d+$/.test(cell));
        for (const { id, budget } of known) {
          const scaled = scaledBudget(budget, ({ label }) => factorOf.get(label) ?? 1);
          const at = results.find(([, cell]) => cell.value === id)?.[0].slice(1);
          expectNear(value("Results", `D${at}`), scaled.standardUncertainty, `u of ${id}`);
          expectNear(value("Results", `G${at}`), expandedUncertainty(scaled).expandedUncertainty, `U of ${id}`);
        }
      }),
      { numRuns: 10 },
    );
  });

  it("has degrees of freedom that are few and not whole, and a coverage factor that follows them", () => {
    const value = calculator(readWorkbook(budgetWorkbook(few)));
    const [freedom, factor] = [value("Results", "E2"), value("Results", "F2")] as [number, number];
    expect(freedom).toBeGreaterThan(1);
    expect(freedom % 1).toBeGreaterThan(0);
    expect(factor).toBeGreaterThan(2.01);
    const texts = [...(readWorkbook(budgetWorkbook(few)).get("Budgets") ?? [])].map(([, cell]) => cell.value);
    expect(texts).toContain("with the first of its estimate");
  });

  // By hand: u(shim²) = 2 · 12.5 · 0.004 = 0.1 mm², and twice that where the shim is known half as well (JCGM 100:2008, 5.1.2).
  it("has the cells of a person's own, which follow a changed source as all results do", () => {
    const sheets = readWorkbook(budgetWorkbook(evaluateSetup(ownCells)));
    const [row] = [...(sheets.get("Results") ?? [])].find(([, { value }]) => value === "cell area") ?? [];
    const [sourceCell] = [...(sheets.get("Sources") ?? [])].find(([, { value }]) => value === "shim") ?? [];
    const at = row?.slice(1);
    expect(sheets.get("Results")?.get(`B${at}`)?.value).toBe("mm^2");
    expect(calculator(sheets)("Results", `D${at}`)).toBeCloseTo(0.1, 12);
    expect(calculator(sheets, new Map([[`Sources!D${sourceCell?.slice(1)}`, 0.008]]))("Results", `D${at}`)).toBeCloseTo(0.2, 12);
  });

  // By hand: an inch less 25 mm, and 1e-7 of it; an inch known half as well (JCGM 100:2008, 5.1.2).
  it("has the columns of free tables row by row on a sheet of their own, live, with the reasons of those that have no value", () => {
    const bytes = budgetWorkbook(tabled);
    const sheets = readWorkbook(bytes);
    const cells = sheets.get("Tables") ?? new Map<string, never>();
    const row = (at: number) => ["A", "B", "C", "D", "F"].map((column) => cells.get(`${column}${at}`)?.value);
    expect(["A", "B", "C", "D", "E", "F"].map((column) => cells.get(`${column}1`)?.value)).toEqual([
      "name",
      "row",
      "unit",
      "value",
      "standard uncertainty",
      "note",
    ]);
    expect([2, 3, 4, 5, 6, 7].map(row)).toEqual([
      ["gauge_length", 1, "mm", 25.4, undefined],
      ["gauge_length", 3, "", undefined, expect.stringContaining("ledger.gauge.length.3")],
      ["gauge_off", 1, "mm", expect.closeTo(0.4, 12), undefined],
      ["gauge_off", 3, "", undefined, expect.stringContaining("ledger.gauge.off")],
      ["gauge_tiny", 1, "mm", expect.closeTo(25.4e-7, 18), undefined],
      ["gauge_tiny", 3, "", undefined, expect.stringContaining("ledger.gauge.tiny")],
    ]);
    const [sourceCell] = [...(sheets.get("Sources") ?? [])].find(([, { value }]) => value === "gauge_length 1") ?? [];
    const half = calculator(sheets, new Map([[`Sources!D${sourceCell?.slice(1)}`, 0.0508]]));
    const asFound = calculator(sheets);
    for (const [at, u] of [
      [2, 0.0254],
      [4, 0.0254],
      [6, 0.0254e-7],
    ] as const) {
      expectNear(asFound("Tables", `E${at}`), u, `E${at}`);
      expectNear(half("Tables", `E${at}`), 2 * u, `E${at}`);
    }
  });

  it("says of numbers that rest on what is only supposed that they do", () => {
    const cells = (of: typeof ownCells) => [...(readWorkbook(budgetWorkbook(evaluateSetup(of))).get("Results") ?? [])];
    const told = cells(supposing);
    expect(told.some(([, { value }]) => /^SUPPOSED FOR THE MOMENT.*: shim\./.test(String(value)))).toBe(true);
    const results = told.filter(([cell]) => /^G(?!1$)\d+$/.test(cell));
    expect(results.length).toBeGreaterThan(5);
    const [notes, sure] = [told, cells(ownCells)].map((all) =>
      all.filter(([cell, { value }]) => cell.startsWith("H") && value === "supposed"),
    );
    expect([notes?.length, sure?.length]).toEqual([results.length, 0]);
  });

  it("keeps a name that starts like a formula as text", () => {
    const texts = [...readWorkbook(budgetWorkbook(few))].flatMap(([, cells]) => [...cells.values()]);
    expect(texts.filter(({ formula }) => formula?.includes("1+1"))).toEqual([]);
    expect(texts.some(({ value }) => String(value).startsWith("=1+1"))).toBe(true);
  });

  it("is the same file for the same results, and tells no time", () => {
    expect(budgetWorkbook(few)).toEqual(budgetWorkbook(evaluateSetup(fewRepeats)));
  });

  // Debian's LibreOffice (libreoffice-calc-nogui) works the file out anew: what is stored beside the formulas is taken out before.
  it("recalculated by LibreOffice without its window is the same budget to 12 digits, and to 11 where it has fewer itself", {
    timeout: 300_000,
  }, ({ skip }) => {
    const office = ["/usr/bin/soffice", "/usr/bin/libreoffice"].find((path) => existsSync(path));
    if (office === undefined) {
      const why = "LibreOffice is not installed here: apt-get install libreoffice-calc-nogui";
      // Whoever reads the run's log sees it too, not only who asks for every test by name.
      console.warn(`Not recalculated: ${why}`);
      return skip(why);
    }
    const folder = mkdtempSync(join(tmpdir(), "workbook-"));
    try {
      const files = [...evaluations].map(([name, evaluation]) => {
        const bytes = budgetWorkbook(evaluation);
        const blank = withoutResults(bytes);
        expect(formulasOf(blank).filter(({ value }) => value !== undefined)).toEqual([]);
        writeFileSync(join(folder, `${name}.xlsx`), blank);
        return { name, wanted: formulasOf(bytes), coarse: coarseIn(bytes) };
      });
      // Beside it the same formula in cells, defused and not: the second shows that the first could have been worked out.
      writeFileSync(join(folder, "defused.csv"), csvText({ title: "", columns: ["name"], rows: [["=1+1"], ["+1+1"], ["@SUM(1;1)"]] }));
      writeFileSync(join(folder, "raw.csv"), "name\r\n=1+1\r\n");
      const paths = [
        ...["defused.csv", "raw.csv"].map((name) => join(folder, name)),
        ...files.map(({ name }) => join(folder, `${name}.xlsx`)),
      ];
      const profile = `-env:UserInstallation=file://${join(folder, "profile")}`;
      execFileSync(
        office,
        ["--headless", profile, "--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", join(folder, "out"), ...paths],
        {
          stdio: "ignore",
        },
      );
      const cellsOf = (name: string) => [
        ...(readWorkbook(new Uint8Array(readFileSync(join(folder, "out", `${name}.xlsx`))))
          .get(name)
          ?.values() ?? []),
      ];
      expect(cellsOf("raw").map(({ value }) => value)).toEqual(["name", 2]);
      expect(cellsOf("defused")).toEqual(["name", "'=1+1", "'+1+1", "'@SUM(1;1)"].map((value) => ({ formula: undefined, value })));
      for (const { name, wanted, coarse } of files) {
        const got = readWorkbook(new Uint8Array(readFileSync(join(folder, "out", `${name}.xlsx`))));
        expect(wanted.length).toBeGreaterThan(20);
        expect(coarse.size).toBeLessThan(wanted.length / 20);
        for (const { sheet, cell, value } of wanted) {
          const digits = coarse.has(`${sheet}!${cell}`) ? elevenDigits : twelveDigits;
          expectNear(got.get(sheet)?.get(cell)?.value, value, `${name}, ${sheet}!${cell}`, digits);
        }
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
