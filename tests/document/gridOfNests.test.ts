import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type GridEntries, gridOfNests } from "../../lib/document/gridOfNests.ts";
import { parseLength } from "../../lib/formula/parseQuantity.ts";
import { must } from "../properties/setups.ts";

const grid = (entries: Partial<GridEntries>, taken: readonly string[] = []) =>
  gridOfNests({ columns: "2", rows: "1", pitchX: "60", pitchY: "", ...entries }, (id) => taken.includes(id), "mm");

describe("gridOfNests", () => {
  it("gridOfNests(3 by 2) has each nest so many pitches along as it has columns and rows before it", () => {
    const nests = must(grid({ columns: "3", rows: "2", pitchX: "60.5 mm", pitchY: "pitch" }));
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
    expect(must(grid({ columns: "3" })).map(({ id }) => id)).toEqual(["nest 1", "nest 2", "nest 3"]);
  });

  it("gridOfNests(any grid) has places that read as whole multiples of the pitch", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 7 }),
        fc.integer({ min: 1, max: 7 }),
        fc.integer({ min: -200_000, max: 200_000 }),
        (columns, rows, thousandths) => {
          const pitch = thousandths / 1000;
          const nests = must(grid({ columns: `${columns}`, rows: `${rows}`, pitchX: `${pitch}`, pitchY: `${-pitch}` }));
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
