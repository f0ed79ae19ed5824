import { describe, expect, it } from "vitest";
import type { EntryColumn } from "../../../notebooks/inputs/column.ts";
import { fillBlock } from "../../../notebooks/inputs/fillBlock.ts";
import { tableAsText } from "../../../notebooks/inputs/tableAsText.ts";

interface Row {
  id: string;
  side: string;
  readings: string;
}
const column = (key: keyof Row, only?: readonly string[]): EntryColumn<Row> => ({
  kind: "text",
  key,
  label: key === "id" ? "name" : key,
  width: 8,
  read: (row) => row[key],
  write: (row, text) => (only && !only.includes(text) ? undefined : { ...row, [key]: text }),
});
const columns = [column("id"), column("side", ["+X", "-X"]), column("readings")];
const rows: Row[] = [
  { id: "left", side: "+X", readings: "1" },
  { id: "right", side: "-X", readings: "2" },
];
const fill = (text: string, index = 0, columnIndex = 0) =>
  fillBlock(text, {
    rows,
    index,
    column: columnIndex,
    columns,
    blank: (all) => ({ id: `touch ${all.length + 1}`, side: "+X", readings: "" }),
  });

describe("fillBlock(text, target)", () => {
  it("fills cells to the right and down from where it is put, and leaves the others", () => {
    expect(fill("-X\t-290.388\n+X\t-346.411 -346.412", 0, 1)).toMatchObject({
      ok: true,
      value: {
        rows: [
          { id: "left", side: "-X", readings: "-290.388" },
          { id: "right", side: "+X", readings: "-346.411 -346.412" },
        ],
        filled: 4,
        added: 0,
        refused: [],
      },
    });
  });

  it("adds rows for what goes past the last", () => {
    const filled = fill("3\n4\n5", 1, 2);
    expect(filled).toMatchObject({ ok: true, value: { added: 2 } });
    expect(filled.ok && filled.value.rows.map(({ id, readings }) => [id, readings])).toEqual([
      ["left", "1"],
      ["right", "3"],
      ["touch 3", "4"],
      ["touch 4", "5"],
    ]);
  });

  it("goes by the names in the first row where they are columns of the table", () => {
    const filled = fill("readings\tname\n-290.388\tb1", 0, 0);
    expect(filled).toMatchObject({ ok: true, value: { rows: [{ id: "b1", side: "+X", readings: "-290.388" }, rows[1]] } });
  });

  it("enters a first row of other words like any other", () => {
    const filled = fill("front\t+X\nback\t-X\nspare\t-X\t7", 0, 0);
    expect(filled.ok && filled.value.rows.map(({ id }) => id)).toEqual(["front", "back", "spare"]);
  });

  it("tells what it could not enter and leaves that cell as it was", () => {
    expect(fill("toward +X\t9\tbeyond", 0, 1)).toMatchObject({
      ok: true,
      value: {
        rows: [{ side: "+X", readings: "9" }, rows[1]],
        refused: ['"toward +X" is nothing that side can be', '"beyond" stands beyond the last column'],
      },
    });
  });

  it("takes lines without tabs as one cell each where commas may be decimal marks", () => {
    const filled = fill("12,5\n12,6", 0, 2);
    expect(filled.ok && filled.value.rows.map(({ readings }) => readings)).toEqual(["12,5", "12,6"]);
  });

  it("refuses an empty block", () => {
    expect(fill("\n\n")).toMatchObject({ ok: false, problems: [{ what: "the block is empty" }] });
  });
});

it("tableAsText(rows, columns, results) is what fillBlock(text, target) takes", () => {
  const text = tableAsText([{ id: "a\tb", side: "-X", readings: '3" pin' }, rows[1] as Row], columns, undefined);
  expect(text.split("\n")[0]).toBe("name\tside\treadings");
  const filled = fill(text);
  expect(filled.ok && filled.value.rows).toEqual([{ id: "a\tb", side: "-X", readings: '3" pin' }, rows[1]]);
});
