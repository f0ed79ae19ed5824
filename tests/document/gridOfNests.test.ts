import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type GridEntries, gridOfNests } from "../../lib/document/gridOfNests.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { parseLength } from "../../lib/formula/parseQuantity.ts";
import { nestGrid } from "../../lib/offsets/nests.ts";
import { type Budget, budgetOf } from "../../lib/uncertainty/budget.ts";
import { correlation } from "../../lib/uncertainty/covariance.ts";
import { valueOfSource } from "../../lib/uncertainty/sourceBook.ts";
import { certain } from "../../lib/uncertainty/uncertain.ts";
import { documentFrom, must } from "../properties/setups.ts";

const grid = (entries: Partial<GridEntries>, taken: readonly string[] = []) =>
  gridOfNests(
    { columns: "2", rows: "1", pitchX: "60", pitchY: "", turn: "", ...entries },
    { unit: "mm", isNest: (id) => taken.includes(id), isCell: (id) => taken.includes(id), isInDoubt: (name) => name === "measured" },
  );
const nestsOf = (entries: Partial<GridEntries>) => must(grid(entries)).nests;

describe("gridOfNests", () => {
  it("gridOfNests(3 by 2) has each nest so many pitches along as it has columns and rows before it", () => {
    const nests = nestsOf({ columns: "3", rows: "2", pitchX: "60.5 mm", pitchY: "pitch" });
    expect(nests.map(({ id, x, y }) => [id, x, y])).toEqual([
      ["nest 1.1", "0", "0"],
      ["nest 1.2", "60.5 mm", "0"],
      ["nest 1.3", "2 * (60.5 mm)", "0"],
      ["nest 2.1", "0", "pitch"],
      ["nest 2.2", "60.5 mm", "pitch"],
      ["nest 2.3", "2 * (60.5 mm)", "pitch"],
    ]);
    expect(nests.every(({ foundX, foundY }) => foundX === "" && foundY === "")).toBe(true);
  });

  it("gridOfNests(one row) is numbered through and asks for no pitch across it", () => {
    expect(nestsOf({ columns: "3" }).map(({ id }) => id)).toEqual(["nest 1", "nest 2", "nest 3"]);
  });

  it("gridOfNests(any grid) has places that read as whole multiples of the pitch", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 7 }),
        fc.integer({ min: 1, max: 7 }),
        fc.integer({ min: -200_000, max: 200_000 }),
        (columns, rows, thousandths) => {
          const pitch = thousandths / 1000;
          const nests = nestsOf({ columns: `${columns}`, rows: `${rows}`, pitchX: `${pitch}`, pitchY: `${-pitch}` });
          nests.forEach(({ x, y }, i) => {
            expect(must(parseLength(x, { unit: "mm" })).value).toBeCloseTo((i % columns) * pitch, 9);
            expect(must(parseLength(y, { unit: "mm" })).value).toBeCloseTo(-Math.floor(i / columns) * pitch, 9);
          });
        },
      ),
    );
  });

  it.each([
    ["no number of columns", { columns: "two" }, "columns"],
    ["half a row", { rows: "1.5" }, "rows"],
    ["no pitch", { pitchX: "" }, "pitchX"],
    ["a pitch that is none", { pitchX: "60,5,1" }, "pitchX"],
    ["a pitch with a doubt and no unit", { pitchX: "60 ± 0.003" }, "pitchX"],
    ["a turn with a doubt and no unit", { turn: "0.02 ± 0.005" }, "turn"],
    ["a turn that is a length", { turn: "3 mm" }, "turn"],
    ["too many nests", { columns: "10", rows: "7", pitchY: "5" }, "columns"],
  ])("gridOfNests(%s) is refused at its entry", (_, entries, at) => {
    const refused = grid(entries);
    expect(refused.ok ? [] : refused.problems.map((problem) => problem.at)).toEqual([at]);
  });

  it("gridOfNests(names that are taken) is refused by those names", () => {
    const refused = grid({}, ["nest 2"]);
    expect(refused.ok ? "" : refused.problems[0]?.got).toBe("nest 2");
  });
});

describe("a grid whose pitch was measured, or that lies turned", () => {
  const placesOf = (entries: Partial<GridEntries>, ledger: readonly object[] = []) => {
    const { nests, cells } = must(grid(entries));
    const evaluation = evaluateSetup(
      documentFrom({ part: { elements: [] }, tools: [], touches: [], strategies: [], nests, ledger: [...ledger, ...cells] }),
    );
    expect(evaluation.problems.filter(({ at }) => at.startsWith("nests") || at.startsWith("ledger"))).toEqual([]);
    return evaluation.setup.nests.map(({ nominal, found }) => ({ nominal, found: (found ?? []).map((each) => budgetOf(each)) }));
  };

  it("has its places where nestGrid puts them, with one doubt of the pitch and one of the turn for all", () => {
    const source = (id: string, estimate: number, standardDeviation: number) =>
      valueOfSource({
        id,
        label: id,
        family: "fixture",
        estimate,
        distribution: { shape: "normal", standardDeviation },
        evidence: { kind: "stated" },
      });
    const degree = Math.PI / 180;
    const places = placesOf({ columns: "3", rows: "2", pitchX: "120 mm ± 0.003 mm", pitchY: "80 ", turn: "0.5 deg ± 0.01 deg" });
    const expected = nestGrid({
      columns: 3,
      rows: 2,
      pitch: [source("p", 120, 0.003), certain(80)],
      turn: source("t", 0.5 * degree, 0.01 * degree),
    });
    places.forEach(({ nominal, found }, i) => {
      expect(nominal).toEqual([120 * (i % 3), 80 * Math.floor(i / 3)]);
      expected[i]?.shift.forEach((value, axis) => {
        expect(found[axis]?.value).toBeCloseTo(value.value, 9);
        expect(found[axis]?.standardUncertainty).toBeCloseTo(budgetOf(value).standardUncertainty, 9);
      });
    });
    // Both are k pitches of one source: they err together.
    expect(correlation(places[1]?.found[0] as Budget, places[2]?.found[0] as Budget)).toBeCloseTo(1, 9);
  });

  // By hand: 2 · 0.003.
  it("without a turn bears the doubt of the pitch as many times as there are pitches", () => {
    const places = placesOf({ columns: "3", pitchX: "120.02 mm ± 0.003 mm" });
    expect(places.map(({ nominal: [x] }) => x)).toEqual([0, expect.closeTo(120.02, 9), expect.closeTo(240.04, 9)]);
    expect(places[2]?.found[0]?.standardUncertainty).toBeCloseTo(0.006, 12);
    expect(places[2]?.found[1]).toMatchObject({ value: 0, standardUncertainty: 0 });
  });

  it("takes the doubt of a cell that the pitch names", () => {
    const places = placesOf({ columns: "2", pitchX: "measured" }, [{ kind: "cell", id: "measured", entry: "60.01 mm ± 0.002 mm" }]);
    expect(places[1]).toMatchObject({ nominal: [60.01, 0], found: [{ standardUncertainty: expect.closeTo(0.002, 12) }, { value: 0 }] });
  });

  it("gives its cells names that are free", () => {
    expect(must(grid({ pitchX: "60 mm ± 0.01 mm", turn: "0.02" }, ["nest_pitch_X"])).cells).toMatchObject([
      { id: "nest_pitch_X_2", entry: "60 mm ± 0.01 mm", family: "fixture" },
      { id: "nest_turn", entry: "0.02 deg" },
    ]);
  });
});
