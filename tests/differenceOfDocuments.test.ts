import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { differenceOfDocuments } from "../lib/differenceOfDocuments.ts";
import type { LedgerBlock } from "../lib/document/ledgerBlocks.ts";
import { newDocument } from "../lib/document/newDocument.ts";
import { parseDocument } from "../lib/document/parseDocument.ts";
import { renameBlock } from "../lib/document/renameBlock.ts";
import type { SetupDocument, ToolEntry, TouchEntry } from "../lib/document/setupDocument.ts";
import { demoDocument } from "../notebooks/pages/firstJob.ts";
import { mutatedText } from "./document/mutants.ts";
import { cell, column, table } from "./ledger/blocks.ts";

vi.setConfig({ testTimeout: 60_000 });

const demo = demoDocument();
const sentences = (list: readonly { sentence: string }[]) => list.map(({ sentence }) => sentence);
const difference = (after: SetupDocument, before = demo) => {
  const { entries, results } = differenceOfDocuments(before, after);
  return { entries: sentences(entries), results: sentences(results) };
};
const touch = (document: SetupDocument, id: string, change: Partial<TouchEntry>): SetupDocument => ({
  ...document,
  touches: document.touches.map((row) => (row.id === id ? { ...row, ...change } : row)),
});
const tool = (document: SetupDocument, id: string, change: Partial<ToolEntry>): SetupDocument => ({
  ...document,
  tools: document.tools.map((row) => (row.id === id ? { ...row, ...change } : row)),
});

it("a document differs in nothing from itself", () => {
  expect(difference(structuredClone(demo))).toEqual({ entries: [], results: [] });
});

describe("the zero moves as the hand formulas of touching say", () => {
  // F = R + a · r: a face found by a probe travelling +X lies one radius beyond the reading.
  it("by the whole change of the radius on a face", () => {
    const corner: SetupDocument = { ...demo, chosen: "corner", strategies: demo.strategies.filter(({ id }) => id === "corner") };
    const { entries, results } = difference(tool(corner, "probe", { radius: "2.9995 mm" }), corner);
    expect(entries).toEqual(['radius of tool "probe" from "5.993 mm / 2" to "2.9995 mm" (+0.003 mm)']);
    expect(results.filter((each) => each.startsWith("zero X moved"))[0]).toContain("moved +0.0030 mm");
  });

  // (F1 + F2) / 2: what is the same on both sides cancels, and one side counts half.
  it("by nothing where the radius cancels, and by half of one of two opposite readings", () => {
    expect(difference(tool(demo, "probe", { radius: "2.9995 mm" })).results.filter((each) => each.startsWith("zero X moved"))).toEqual([]);
    const { entries, results } = difference(touch(demo, "b1", { readings: "-290.378" }));
    expect(entries).toEqual(['readings of touch "b1" from "-290.388" to "-290.378" (mean +0.010 mm)']);
    expect(results[0]).toContain("zero X moved +0.0050 mm");
  });

  it("and each of several changes is told by what it does alone", () => {
    const after = tool(touch(touch(demo, "b1", { readings: "-290.378" }), "b2", { readings: "-346.391" }), "probe", {
      radius: "2.9995 mm",
    });
    const [move = ""] = difference(after).results.filter((each) => each.startsWith("zero X moved"));
    const moved = Number(/moved (\S+) mm/.exec(move)?.[1]);
    const alone = [...move.matchAll(/([+-][\d.]+) mm from touch "(b\d)"/g)].map(([, by, which]) => [which, Number(by)] as const);
    expect(new Map(alone).get("b1")).toBeCloseTo(0.005, 4);
    expect(alone.reduce((sum, [, by]) => sum + by, 0)).toBeCloseTo(moved, 3);
  });
});

it("chances, the bottleneck and what is typed follow the choice of the strategy (the table of the README)", () => {
  const { entries, results } = difference({ ...demo, chosen: "corner" });
  expect(entries).toEqual(['strategy in use from "bore, turned to front" to "corner"']);
  expect(results[0]).toBe('the zero is now taken from "corner"; it was "bore, turned to front"');
  const fell = results.find((each) => each.startsWith("the chance that all are met, this part,")) ?? "";
  expect(fell).toMatch(/fell from above 99\.99 % to 35\.\d\d %$/);
  expect(results.some((each) => /became the bottleneck of this part/.test(each))).toBe(true);
});

it("a renamed tool is one sentence, and changes no result", () => {
  const renamed = {
    ...tool(demo, "probe", { id: "stylus" }),
    touches: demo.touches.map((row) => ({ ...row, tool: row.tool === "probe" ? "stylus" : row.tool })),
  };
  expect(difference(renamed)).toEqual({ entries: ['tool "probe" is now called "stylus"'], results: [] });
});

it("rows that are added, removed and moved are told as such", () => {
  const [first, second, ...others] = demo.touches as [TouchEntry, TouchEntry, ...TouchEntry[]];
  expect(difference({ ...demo, touches: [second, first, ...others] }).entries).toEqual(["the order of touches is another one"]);
  expect(difference({ ...demo, touches: [...demo.touches, { ...first, id: "b5" }] }).entries).toEqual([
    'touch "b5" was added: element "bore", readings "-290.388"',
  ]);
  const { entries, results } = difference({ ...demo, touches: demo.touches.filter(({ id }) => id !== "top") });
  expect(entries).toEqual(['touch "top" was removed']);
  expect(results.some((each) => each.startsWith("a new problem: strategies."))).toBe(true);
});

it("what is typed otherwise and means the same says so, and changes no result", () => {
  const { entries, results } = difference(tool(demo, "probe", { radius: "2.9965 mm" }));
  expect(entries).toEqual(['radius of tool "probe" from "5.993 mm / 2" to "2.9965 mm" (the same length, written otherwise)']);
  expect(results).toEqual([]);
});

it("another unit of bare numbers is told with what it means", () => {
  const { entries, results } = difference({ ...demo, unit: "inch" });
  expect(entries).toEqual(["bare numbers are inches now and were millimetres: every length without a unit of its own is another one"]);
  expect(results.some((each) => each.startsWith("a new problem: "))).toBe(true);
});

it("a result that is lost and one that is found again are told with the reason", () => {
  const broken = touch(demo, "top", { readings: "about 12" });
  expect(difference(broken).results.some((each) => each.startsWith("a new problem: touches.top.readings: "))).toBe(true);
  expect(difference(demo, broken).results.some((each) => each.startsWith("no problem any more: touches.top.readings: "))).toBe(true);
});

describe("cells and tables of a person's own", () => {
  const written = (...ledger: LedgerBlock[]): SetupDocument => ({ ...newDocument(), ledger });
  const between = (before: LedgerBlock[], after: LedgerBlock[]) => difference(written(...after), written(...before));
  const width = [cell("right", "50.02 mm ± 0.006 mm"), cell("left", "10 mm ± 0.008 mm"), cell("width", "right - left")];

  // 50.02 - 10 and 49.98 - 10; u of both is the root of 0.006² + 0.008² (JCGM 100:2008, 5.1.2).
  it("a result that moved is told with the source that moved it", () => {
    const { entries, results } = between(width, [cell("right", "49.98 mm ± 0.006 mm"), ...width.slice(1)]);
    expect(entries).toEqual(['entry of cell "right" from "50.02 mm ± 0.006 mm" to "49.98 mm ± 0.006 mm"']);
    expect(results).toEqual([
      '"right" is 49.9800 mm, was 50.0200 mm: because its own entry changed',
      '"width" is 39.980 mm, was 40.020 mm: because "right" moved',
    ]);
  });

  // 49.98 - 9.99 = 39.99: -0.04 by one, +0.01 by the other.
  it("where several moved it, each is told with what it does, and what each change does alone", () => {
    const after = [cell("right", "49.98 mm ± 0.006 mm"), cell("left", "9.99 mm ± 0.008 mm"), cell("width", "right - left")];
    expect(between(width, after).results[2]).toBe(
      '"width" is 39.990 mm, was 40.020 mm: -0.0400 mm because "right" moved, +0.0100 mm because "left" moved; alone: -0.0400 mm from cell "right", +0.0100 mm from cell "left"',
    );
  });

  // u grows from 0.010 to the root of 0.006² + 0.0144², 0.0156.
  it("a doubt that grew is told with the source that did it", () => {
    const { results } = between(width, [width[0] as LedgerBlock, cell("left", "10 mm ± 0.0144 mm"), cell("width", "right - left")]);
    expect(results[1]).toBe('the standard uncertainty of "width" grew from 0.010 mm to 0.016 mm, most of all by "left"');
  });

  it("another formula, another unit and a value for the moment are told as such", () => {
    const { entries, results } = between(width, [
      ...width.slice(0, 2),
      cell("width", "right - left + 1 mm", { unit: "um", instead: "3 mm" }),
    ]);
    expect(entries).toEqual([
      'formula of cell "width" from "right - left" to "right - left + 1 mm"',
      'cell "width" counts as "3 mm" for the moment',
      'unit of cell "width" from nothing to "um"',
    ]);
    expect(results.some((each) => each.startsWith('"width" is 3000 um, was 40020 um'))).toBe(true);
  });

  it("a cell that is renamed is one sentence, though formulas name it; so is a table, and a column", () => {
    const heights = table("heights", ["z"], [["1 mm"], ["2 mm"]]);
    const before = [...width, cell("twice", "2 * width + sum(heights_z)"), heights];
    const after = [
      ...width.slice(0, 2),
      cell("span", "right - left"),
      cell("double", "2 * span + sum(levels_height)"),
      { ...heights, id: "levels", columns: [column("height")] },
    ];
    const told = between(before, [
      ...width.slice(0, 2),
      cell("span", "right - left"),
      cell("double", "2 * span + sum(heights_z)"),
      heights,
    ]);
    expect(told).toEqual({
      entries: ['cell "width" is now called "span"', 'cell "twice" is now called "double"'],
      results: [],
    });
    expect(between([heights], [{ ...heights, id: "levels" }]).entries).toEqual(['table "heights" is now called "levels"']);
    const named = [{ ...heights, columns: [column("height")] }];
    expect(between([heights], named)).toEqual({
      entries: ['column "z" of table "heights" is now called "height"'],
      results: [],
    });
    // Two names of one table at once are no renaming that can be known for sure.
    expect(between(before, after).entries.length).toBeGreaterThan(3);
  });

  it("a cell that is renamed and changed at once is known by the formulas that name it", () => {
    const { entries, results } = between(width, [
      cell("right_side", "49.98 mm ± 0.006 mm"),
      width[1] as LedgerBlock,
      cell("width", "right_side - left"),
    ]);
    expect(entries).toEqual([
      'cell "right" is now called "right_side"',
      'entry of cell "right_side" from "50.02 mm ± 0.006 mm" to "49.98 mm ± 0.006 mm"',
    ]);
    expect(results[1]).toBe('"width" is 39.980 mm, was 40.020 mm: because "right_side" moved');
  });

  it("whatever chain of cells is renamed, in whatever order, every new name is one sentence, and nothing moves", () => {
    // Each cell rests on some of those before it; by hand nothing but names can differ.
    const chains = fc.array(fc.tuple(fc.nat(), fc.boolean()), { minLength: 1, maxLength: 7 });
    fc.assert(
      fc.property(chains, fc.nat(), (cells, turn) => {
        const ledger = cells.map(([from], i) =>
          cell(`c${i}`, i === 0 ? "5 mm ± 0.01 mm" : `c${from % i} + ${i} mm`, i % 2 === 0 ? {} : { note: "kept" }),
        );
        const before = written(...ledger);
        const renamed = cells.flatMap(([, isRenamed], i) => (isRenamed ? [i] : []));
        const order = renamed.map((_, i) => renamed[(i + turn) % renamed.length] as number);
        const after = order.reduce((document, i) => {
          const outcome = renameBlock(document, `c${i}`, `d${i}`, new Map());
          if (!outcome.ok) throw new Error(`c${i} cannot be renamed`);
          return outcome.value;
        }, before);
        const { entries, results } = difference(after, before);
        expect(new Set(entries)).toEqual(new Set(renamed.map((i) => `cell "c${i}" is now called "d${i}"`)));
        expect(results).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it("a renamed tool is followed into the formulas that name its radius", () => {
    const own = [cell("reach", "2 * probe_radius")];
    const renamed = {
      ...tool(demo, "probe", { id: "stylus" }),
      touches: demo.touches.map((row) => ({ ...row, tool: row.tool === "probe" ? "stylus" : row.tool })),
      ledger: [cell("reach", "2 * stylus_radius")],
    };
    expect(difference(renamed, { ...demo, ledger: own })).toEqual({ entries: ['tool "probe" is now called "stylus"'], results: [] });
  });

  it("cells that are added, removed and moved are told as such", () => {
    expect(between(width, [...width, cell("half", "width / 2")])).toEqual({
      entries: ['cell "half" was added: "width / 2"'],
      results: ['"half" is new: 20.0100 mm, standard uncertainty 0.0050 mm'],
    });
    const [right, left, last] = width as [LedgerBlock, LedgerBlock, LedgerBlock];
    expect(between(width, [right, left])).toEqual({ entries: ['cell "width" was removed'], results: [] });
    expect(between(width, [left, right, last]).entries).toEqual([
      "the cells, tables and words of the notebook's own stand in another order",
    ]);
  });

  it("rows, columns and formulas of free tables are told, and which rows come out differently", () => {
    const columns = [column("z"), column("twice", { formula: "2 * z" })];
    const rows = [["1 mm"], ["2 mm"], ["3 mm"]];
    const before = { ...table("heights", [], rows), columns };
    const after = { ...before, rows: [["1 mm"], ["2.5 mm"], ["3 mm"]] };
    expect(between([before], [after])).toEqual({
      entries: ['"z" in row 2 of table "heights" from "2 mm" to "2.5 mm"'],
      results: ['row 2 of "heights_z" is 2.5 mm, was 2 mm', 'row 2 of "heights_twice" is 5 mm, was 4 mm'],
    });
    const longer = {
      ...before,
      rows: [...rows, ["4 mm"]],
      columns: [columns[0] as (typeof columns)[0], column("twice", { formula: "3 * z" })],
    };
    expect(between([before], [longer])).toEqual({
      entries: [
        'formula of column "twice" of table "heights" from "2 * z" to "3 * z"',
        '1 row was added to table "heights", from row 4 on',
      ],
      results: ['"heights_z" has 4 values, it had 3', '"heights_twice" has 4 values, it had 3'],
    });
  });

  it("words and suppositions are told", () => {
    const heading = (text: string): LedgerBlock => ({ kind: "heading", text, folded: false });
    expect(between([heading("Slot")], [heading("Slot, upper")]).entries).toEqual(['heading from "Slot" to "Slot, upper"']);
    const supposed = { ...written(...width), whatIf: [{ source: "cell left", shift: "2", doubt: "" }] };
    const { entries, results } = difference(supposed, written(...width));
    expect(entries).toEqual(['"cell left" is supposed to be shifted by 2 standard uncertainties']);
    // Two standard uncertainties of 0.008 mm.
    expect(results[1]).toBe('"width" is 40.004 mm, was 40.020 mm: because "left" moved');
  });

  it("long formulas are told where they part", () => {
    const long = "right - left + right - left + right - left + right - left + right - left";
    const { entries } = between([cell("a", `${long} + 1 mm`)], [cell("a", `${long} + 2 mm`)]);
    expect(entries[0]).toMatch(/^formula of cell "a" from "….*\+ 1 mm" to "….*\+ 2 mm"$/);
  });
});

it("whatever is mutated, the difference of two documents that can be read is told, with an entry for each difference", () => {
  // Without positions, whose exact distributions take most of the time.
  const characteristics = demo.part.characteristics.filter(({ kind }) => kind !== "position");
  const small: SetupDocument = { ...demo, part: { ...demo.part, characteristics }, sampling: { trials: 16, seed: 1 } };
  let compared = 0;
  for (let seed = 0; compared < 40; seed++) {
    const mutant = parseDocument(mutatedText(small, seed));
    if (!mutant.ok || JSON.stringify(mutant.value) === JSON.stringify(small)) continue;
    compared += 1;
    const { entries } = differenceOfDocuments(small, mutant.value);
    const withoutRevisions = ({ revisions: _, ...others }: SetupDocument) => JSON.stringify(others);
    expect(entries.length > 0 || withoutRevisions(mutant.value) === withoutRevisions(small)).toBe(true);
  }
});
