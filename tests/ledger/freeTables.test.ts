import { describe, expect, it } from "vitest";
import type { LedgerBlock, TableBlock } from "../../lib/document/ledgerBlocks.ts";
import { newDocument } from "../../lib/document/newDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { Tape } from "../../lib/uncertainty/tape.ts";
import { cell, column, table } from "./blocks.ts";

const read = (...ledger: LedgerBlock[]) => evaluateSetup({ ...newDocument(), ledger }).own;

function numberIn(own: ReturnType<typeof read>, name: string) {
  const outcome = own.get(name);
  return outcome?.ok && outcome.value.kind === "quantity" ? outcome.value.value.value : outcome;
}

function rowsOf(own: ReturnType<typeof read>, name: string) {
  const outcome = own.get(name);
  if (!outcome?.ok || outcome.value.kind !== "column") return outcome;
  return outcome.value.rows.map((row) => (row?.ok ? row.value.value : row?.problems[0]?.what));
}

/** The sources of the rows of a column, one after the other. */
function sourcesOf(own: ReturnType<typeof read>, name: string) {
  const outcome = own.get(name);
  if (!outcome?.ok || outcome.value.kind !== "column") throw new Error(`${name} is no column`);
  return new Tape(outcome.value.rows.flatMap((row) => (row?.ok ? [row.value] : []))).sources;
}

const pins: TableBlock = {
  ...table(
    "pins",
    ["size", "ring"],
    [
      ["6.001", "6.020"],
      ["6.003", "6.020 ± 0.001"],
      ["", ""],
    ],
  ),
  columns: [column("size"), column("ring"), column("play", { unit: "um", formula: "ring - size + extra" })],
};

describe("free tables", () => {
  it("give their columns to functions of many values", () => {
    const own = read(pins, cell("extra", "0 mm"), cell("mid", "mean(pins_size)"), cell("n", "count(pins_size)"));
    expect(numberIn(own, "mid")).toBeCloseTo(6.002, 12);
    expect(numberIn(own, "n")).toBe(2);
  });

  it("work a formula out in every row that has what it names", () => {
    const own = read(pins, cell("extra", "1 um"));
    expect(rowsOf(own, "pins_play")).toEqual([expect.closeTo(0.02, 12), expect.closeTo(0.018, 12), undefined]);
  });

  it("keep what has not changed, and work out what has", () => {
    const before = read(pins, cell("extra", "1 um")).get("pins_play");
    const [first, second, third] = pins.rows as [string[], string[], string[]];
    const changed = { ...pins, rows: [first, ["6.010", second[1] as string], third] };
    const after = read(changed, cell("extra", "1 um"));
    expect(rowsOf(after, "pins_play")).toEqual([expect.closeTo(0.02, 12), expect.closeTo(0.011, 12), undefined]);
    expect(before?.ok).toBe(true);
    // Another value behind a name of elsewhere reaches every row.
    expect(rowsOf(read(changed, cell("extra", "2 um")), "pins_play")).toEqual([
      expect.closeTo(0.021, 12),
      expect.closeTo(0.012, 12),
      undefined,
    ]);
  });

  it("refuse a sum of a column in which a row cannot be read, and say which", () => {
    const broken = { ...table("t", ["a"], [["1"], ["two"], ["3"]]) };
    const own = read(broken, cell("total", "sum(t_a)"));
    expect(own.get("total")).toMatchObject({ ok: false, problems: [{ what: '"t_a" has no value, so this has none' }] });
    expect(rowsOf(own, "t_a")).toEqual([1, expect.stringContaining("two"), 3]);
  });

  it("carry what the doubts of a column rest on, in every row; readings rest on having been taken", () => {
    const rows = [["6.001 ± 0.001"], ["6.002; 6.004; 6.003"], ["6.003 ± 0.002"]];
    const rested = (columns: TableBlock["columns"]) =>
      sourcesOf(read({ ...table("pins", [], rows), columns }), "pins_size").map(({ evidence, family }) => [evidence, family]);
    const readings = { kind: "measured", readings: 3 };
    const certified = [{ kind: "certificate", note: "" }, "contact tool"];
    expect(rested([column("size")])).toEqual([
      [{ kind: "stated" }, "process"],
      [readings, "process"],
      [{ kind: "stated" }, "process"],
    ]);
    // The same rows, which were read before: another evidence is another source.
    expect(rested([column("size", { evidence: "certificate", family: "contact tool" })])).toEqual([
      certified,
      [readings, "contact tool"],
      certified,
    ]);
    const formulas = [column("size"), column("half", { formula: "size / 2 ± 0.001 mm", evidence: "shop default", family: "part" })];
    const own = read({ ...table("pins", [], [["6.001"]]), columns: formulas });
    expect(sourcesOf(own, "pins_half")).toMatchObject([{ evidence: { kind: "shop default" }, family: "part" }]);
  });

  it("refuse a row of another dimension than the rows before", () => {
    const own = read(table("t", ["a"], [["1 mm"], ["2 deg"]]));
    expect(rowsOf(own, "t_a")).toEqual([1, "this is an angle, the rows before are a length"]);
  });
});

it("a formula of rows says of a column of its table that it has no value, not that nothing is called so", () => {
  const bolt = { ...table("bolt", [], [["1 mm"], ["mean(bolt_at)"]]), columns: [column("at"), column("twice", { formula: "2 * at" })] };
  const { own, problems } = evaluateSetup({ ...newDocument(), ledger: [bolt] });
  expect(problems.filter(({ at }) => at === "ledger.bolt.at").map(({ what }) => what)).toEqual([
    "this needs itself: bolt_at needs bolt_at",
  ]);
  for (const what of rowsOf(own, "bolt_twice") as string[]) expect(what).toContain('"at" has no value');
});

describe("a table that was read before", () => {
  const at = (rows: readonly (readonly string[])[], ...columns: TableBlock["columns"]) => ({ ...table("bolt", [], rows), columns });

  it("is read by its columns, also where they change places and their entries look alike", () => {
    read(at([["1", "2"]], column("at"), column("off")));
    const swapped = read(at([["1", "2"]], column("off"), column("at")));
    expect([rowsOf(swapped, "bolt_at"), rowsOf(swapped, "bolt_off")]).toEqual([[2], [1]]);
  });

  it("is read in its own unit, and its formulas from what stands in their own row", () => {
    const formula = column("sum", { formula: "at + off" });
    const rows = [
      ["1", "2", ""],
      ["10", "20", ""],
    ];
    expect(rowsOf(read(at(rows, column("at"), column("off"), formula)), "bolt_sum")).toEqual([3, 30]);
    const inches = read(at(rows, column("at", { unit: "in" }), column("off"), formula));
    expect(rowsOf(inches, "bolt_sum")).toEqual([expect.closeTo(27.4, 12), expect.closeTo(274, 12)]);
    const turned = read(at([rows[1] as string[], rows[0] as string[]], column("at"), column("off"), formula));
    expect(rowsOf(turned, "bolt_sum")).toEqual([30, 3]);
    expect(rowsOf(read(at([...rows, ["100", "", ""]], column("at"), column("off"), formula)), "bolt_sum")).toEqual([3, 30, undefined]);
  });

  it("takes what a supposition of a cell does to a row, and takes it back", () => {
    const bolts = at([["1 + more"], ["2"]], column("at"));
    expect(rowsOf(read(bolts, cell("more", "5 mm")), "bolt_at")).toEqual([6, 2]);
    expect(rowsOf(read(bolts, cell("more", "5 mm", { instead: "7 mm" })), "bolt_at")).toEqual([8, 2]);
    expect(rowsOf(read(bolts, cell("more", "5 mm")), "bolt_at")).toEqual([6, 2]);
  });
});
