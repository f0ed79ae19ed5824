import { describe, expect, it } from "vitest";
import { alignDecimals } from "../../../notebooks/inputs/alignDecimals.ts";
import { joinNames, splitNames } from "../../../notebooks/inputs/nameList.ts";
import { changeRow, changeRows, freeName, insertRows, keyOf, moveRows, removeRows } from "../../../notebooks/inputs/rows.ts";

describe("changeRow(row, changes)", () => {
  const row: { id: string; axis?: string } = { id: "left", axis: "X" };

  it("gives a new row under the same key, and leaves the old one as it was", () => {
    const changed = changeRow(row, { id: "right" });
    expect(changed).toEqual({ id: "right", axis: "X" });
    expect(keyOf(changed)).toBe(keyOf(row));
    expect(row.id).toBe("left");
  });

  it("gives the row itself where nothing differs", () => {
    expect(changeRow(row, { id: "left" })).toBe(row);
  });

  it("leaves an entry out that is set to nothing", () => {
    expect(Object.keys(changeRow(row, { axis: undefined } as never))).toEqual(["id"]);
  });

  it("keeps rows with the same entries apart by their keys", () => {
    expect(keyOf({ id: "left" })).not.toBe(keyOf({ id: "left" }));
  });
});

it("changeRows(rows, change) gives the list itself where no row changed", () => {
  const rows = [{ id: "a" }, { id: "b" }];
  expect(changeRows(rows, (row) => changeRow(row, { id: row.id }))).toBe(rows);
  expect(changeRows(rows, (row) => changeRow(row, { id: `${row.id}!` }))).toEqual([{ id: "a!" }, { id: "b!" }]);
});

it("insertRows, removeRows and moveRows leave the old list as it was", () => {
  const rows = ["a", "b", "c", "d"];
  expect(insertRows(rows, 1, ["new", "newer"])).toEqual(["a", "new", "newer", "b", "c", "d"]);
  expect(removeRows(rows, 1, 2)).toEqual(["a", "d"]);
  expect(moveRows(rows, 0, 1, 2)).toEqual(["b", "c", "a", "d"]);
  expect(moveRows(rows, 1, 2, 1)).toEqual(["a", "d", "b", "c"]);
  expect(rows).toEqual(["a", "b", "c", "d"]);
});

it("moveRows(rows, index, count, by) gives the list itself where there is no such place", () => {
  const rows = ["a", "b", "c"];
  expect(moveRows(rows, 0, 2, -1)).toBe(rows);
  expect(moveRows(rows, 1, 2, 1)).toBe(rows);
  expect(moveRows(rows, 5, 1, -1)).toBe(rows);
  expect(moveRows(rows, -1, 1, 1)).toBe(rows);
});

it("freeName(stem, taken) counts on past names that are taken", () => {
  expect(freeName("touch", [])).toBe("touch 1");
  expect(freeName("touch", ["left"])).toBe("touch 2");
  expect(freeName("touch", ["touch 2"])).toBe("touch 3");
});

describe("joinNames(names) and splitNames(text)", () => {
  it("part names by commas, semicolons and new lines, whatever blanks there are", () => {
    expect(splitNames(" left,right ; front 1\n top,")).toEqual(["left", "right", "front 1", "top"]);
  });

  it.each([[["left", "right"]], [["oil hole, X", "wall"]], [['3/8" pin', "a;b"]], [[]]])("give back %j", (names) => {
    expect(splitNames(joinNames(names))).toEqual(names);
  });

  it("takes a quote that is still open to the end", () => {
    expect(splitNames('left, "oil hole, ')).toEqual(["left", "oil hole, "]);
  });
});

it("alignDecimals(texts) pads to the same number of places behind the point", () => {
  const padded = ["-1.25", "12", "3.5", "–"].map((text, i, all) => text + alignDecimals(all)[i]);
  // A figure space stands for a digit, a punctuation space for the point.
  expect(padded).toEqual(["-1.25", "12\u2008\u2007\u2007", "3.5\u2007", "–"]);
});
