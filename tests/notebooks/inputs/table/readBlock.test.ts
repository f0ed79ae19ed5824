import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { success } from "../../../../lib/base/outcome.ts";
import { parseLength } from "../../../../lib/formula/parseQuantity.ts";
import type { CellContext, EntryColumn } from "../../../../notebooks/inputs/column.ts";
import { asTabbedText, textsOf } from "../../../../notebooks/inputs/table/cellsAsText.ts";
import { type BlockChoices, leftOut, type ReadBlock, readBlock } from "../../../../notebooks/inputs/table/readBlock.ts";

// Expected cells are what a person means by each block: common practice, no source. Quotes and line ends go by RFC 4180.

interface Row {
  id: string;
  side: string;
  tool: string;
  at: string;
}
const context: CellContext = { unit: "mm", names: { tools: ["probe", "tool 7"] } };
const column = (key: keyof Row, more: Partial<EntryColumn<Row>> = {}): EntryColumn<Row> => ({
  kind: "text",
  key,
  label: key === "id" ? "name" : key,
  width: 8,
  read: (row) => row[key],
  write: (row, text) => ({ ...row, [key]: text }),
  ...more,
});
const sides = ["+X", "-X"];
const columns = [
  column("id"),
  column("side", {
    kind: "choice",
    choices: () => sides,
    write: (row, text) => (sides.includes(text) ? { ...row, side: text } : undefined),
  }),
  column("tool", { kind: "choice", choices: ({ names }) => names["tools"] ?? [] }),
  column("at", {
    figures: true,
    understand: (text, _, { unit }) => {
      const parsed = parseLength(text, { unit });
      return parsed.ok ? success(parsed.value.understoodAs) : parsed;
    },
  }),
];
const rows: Row[] = [
  { id: "left", side: "+X", tool: "probe", at: "1" },
  { id: "right", side: "-X", tool: "probe", at: "2" },
];
const [name, side, tool, at] = [0, 1, 2, 3];

function read(text: string, from: number = name, choices: BlockChoices = {}, size = { height: 1, width: 1 }): ReadBlock<Row> {
  const blank = (all: readonly Row[]) => ({ id: `touch ${all.length + 1}`, side: "+X", tool: "probe", at: "" });
  const outcome = readBlock(text, { rows, index: 0, column: from, ...size, columns, blank, context }, choices);
  if (!outcome.ok) throw new Error(outcome.problems[0]?.what);
  return outcome.value;
}
const places = (block: ReadBlock<Row>) => block.rows.map((row) => row.at);

describe("readBlock(text, target), without a doubt", () => {
  it("fills cells to the right and down from where it is put, and leaves the others", () => {
    const block = read("-X\ttool 7\t-290.388\n+X\tprobe\t-346.411", side);
    expect(block).toMatchObject({ filled: 6, added: 0, refused: [], isDoubtful: false, isDecided: true });
    expect(block.rows).toEqual([
      { id: "left", side: "-X", tool: "tool 7", at: "-290.388" },
      { id: "right", side: "+X", tool: "probe", at: "-346.411" },
    ]);
  });

  it("adds rows for what goes past the last", () => {
    const block = read("3\n4\n5", at);
    expect(block).toMatchObject({ added: 1, isDoubtful: false });
    expect(block.rows.map(({ id, at: where }) => [id, where])).toEqual([
      ["left", "3"],
      ["right", "4"],
      ["touch 3", "5"],
    ]);
  });

  it("goes by the names in the first row where every one is a column of the table", () => {
    const block = read("at\tname\n-290.388\tb1", side);
    expect(block.isDoubtful).toBe(false);
    expect(block.rows).toEqual([{ ...rows[0], id: "b1", at: "-290.388" }, rows[1]]);
  });

  it("takes semicolons between cells with decimal commas in them", () => {
    const block = read("left;+X;probe;-290,3881\nright;-X;probe;-346,5");
    expect(block).toMatchObject({ isDoubtful: false, filled: 8 });
    expect(places(block)).toEqual(["-290,3881", "-346,5"]);
  });

  it("takes a line break within quotes for a part of its cell", () => {
    expect(read('"a ""b""\nc"\t+X').rows[0]?.id).toBe('a "b"\nc');
  });

  it("fills a range that it fits into several times", () => {
    const block = read("7\n8", at, {}, { height: 4, width: 1 });
    expect(places(block)).toEqual(["7", "8", "7", "8"]);
    expect(places(read("7", at, {}, { height: 2, width: 1 }))).toEqual(["7", "7"]);
    // Three rows do not hold two of them.
    expect(places(read("7\n8", at, {}, { height: 3, width: 1 }))).toEqual(["7", "8"]);
  });

  it("is what a copied range is read back as, whatever its names hold", () => {
    const names = fc.stringMatching(/^[a-z"\t\n;, ]{1,12}$/).map((text) => `n${text}n`);
    fc.assert(
      fc.property(fc.array(names, { minLength: 1, maxLength: 5 }), (ids) => {
        const copied = ids.map((id) => ({ ...(rows[0] as Row), id }));
        const block = read(asTabbedText(textsOf(copied, columns, undefined)));
        expect(block.isDoubtful).toBe(false);
        expect(block.rows.slice(0, ids.length)).toEqual(copied);
      }),
    );
  });

  it("refuses an empty block", () => {
    expect(() => read("\n\n")).toThrow("the block is empty");
  });

  it.each([
    ["of cells", "a\t1\n"],
    ["of numbers alone", "1.5\n"],
    ["of cells between commas", "a,1\n"],
  ])("refuses a million rows %s, and says what to do", (_, row) => {
    expect(() => read(row.repeat(1_000_000))).toThrow("the block has more than 100000 rows");
  });
});

describe("readBlock(text, target, choices), in doubt", () => {
  it("asks what a comma means that can be a decimal or a thousands mark, and waits for the answer", () => {
    const block = read("left\t+X\tprobe\t12,500\nright\t+X\tprobe\t13,250");
    expect(block).toMatchObject({ isDoubtful: true, isDecided: false });
    expect(block.questions).toMatchObject([{ about: "commas", chosen: undefined }]);
    const text = "left\t+X\tprobe\t12,500\nright\t+X\tprobe\t13,250";
    expect(places(read(text, name, { commas: "decimal" }))).toEqual(["12.500", "13.250"]);
    expect(places(read(text, name, { commas: "thousands" }))).toEqual(["12500", "13250"]);
    expect(read(text, name, { commas: "decimal" }).tokens[0]?.[at]).toMatchObject({
      typed: "12,500",
      taken: "12.500",
      doubt: "taken for 12.500 mm",
    });
  });

  it("suggests the meaning that the rest of the block has, and still asks", () => {
    expect(read("12,500\t\n0,25\t", at).questions[0]).toMatchObject({ about: "commas", chosen: "decimal" });
    expect(read("12,500\t\n1,234.5\t", at).questions[0]).toMatchObject({ about: "commas", chosen: "thousands" });
  });

  it("asks about a point that stands among decimal commas", () => {
    const text = "1.234\t\n12,5\t";
    expect(read(text, at).questions).toMatchObject([{ about: "points", chosen: undefined }]);
    expect(places(read(text, at, { points: "thousands" }))).toEqual(["1234", "12,5"]);
    expect(places(read(text, at, { points: "decimal" }))).toEqual(["1.234", "12,5"]);
    // Alone it is what a machine's display shows.
    expect(read("412.607\n412.611", at).isDoubtful).toBe(false);
  });

  it("asks whether commas part cells where they may be decimal marks", () => {
    const block = read("12,5\n12,6", at);
    expect(block.questions[0]?.answers.map(({ value }) => value)).toEqual(["between cells", "decimal", "thousands"]);
    expect(places(read("12,5\n12,6", at, { commas: "decimal" }))).toEqual(["12,5", "12,6"]);
    const parted = read("12,5\n12,6", tool, { commas: "between cells" });
    expect(places(parted)).toEqual(["5", "6"]);
  });

  it("asks whether a first row of other words is entered", () => {
    const text = "hole\tway\twith\tmeasured\nb1\t+X\tprobe\t3";
    const block = read(text);
    expect(block).toMatchObject({ isDoubtful: true, questions: [{ about: "firstRow", chosen: "names" }] });
    expect(block.rows[0]).toEqual({ id: "b1", side: "+X", tool: "probe", at: "3" });
    const entered = read(text, name, { firstRow: "entries" });
    expect(entered.rows.map(({ id }) => id)).toEqual(["hole", "b1"]);
    // What fits the columns is no row of names.
    expect(read("b1\t+X\tprobe\t\nb2\t+X\tprobe\t3").isDoubtful).toBe(false);
  });

  it("shows what is no number, and enters it or leaves it out as decided", () => {
    const text = "12.5 abc\n13";
    const block = read(text, at);
    expect(block.doubts).toMatchObject([{ typed: "12.5 abc", column: "at", count: 1, chosen: "12.5 abc" }]);
    expect(places(block)).toEqual(["12.5 abc", "13"]);
    const key = block.doubts[0]?.key ?? "";
    const decided = read(text, at, { tokens: new Map([[key, leftOut]]) });
    expect(places(decided)).toEqual(["1", "13"]);
    expect(decided.refused).toHaveLength(1);
  });

  it("shows choices that do not exist, and takes one that differs in case alone for the one that does", () => {
    const block = read("+x\tTool 7\n-X\ttol 7\n-Y\tspindle", side);
    expect(block.rows.map((row) => `${row.side} ${row.tool}`)).toEqual(["+X tool 7", "-X tol 7", "+X spindle"]);
    const answers = block.doubts.map(({ typed, answers: offered }) => [typed, offered.map(({ value }) => value)]);
    expect(answers).toEqual([
      ["+x", ["+X", leftOut]],
      ["Tool 7", ["tool 7", "Tool 7", leftOut]],
      ["tol 7", ["tool 7", "tol 7", leftOut]],
      ["-Y", ["-X", leftOut]],
      ["spindle", ["spindle", leftOut]],
    ]);
    expect(block.refused).toEqual(["“-Y” is nothing that side can be"]);
  });

  it("lists what stands beyond the last column", () => {
    const block = read("9\tbeyond\n10\tbeyond\n11\tmore", at);
    expect(block).toMatchObject({ isDoubtful: true, isDecided: true });
    expect(block.refused).toEqual(["“beyond” stands beyond the last column (2 times)", "“more” stands beyond the last column"]);
  });

  it("never drops a token in silence, and takes none for a number that it is not", () => {
    const token = fc.oneof(
      fc.stringMatching(/^[-+]?\d{1,4}([.,]\d{1,4})?$/),
      fc.constantFrom("+X", "-x", "probe", "12,500", "1.234", "abc", "", "1,234.5"),
    );
    const block = fc.array(fc.array(token, { minLength: 1, maxLength: 6 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(block, fc.nat(3), (cells, from) => {
        const text = cells.map((line) => line.join("\t")).join("\n");
        fc.pre(text.includes("\t") && text.trim() !== "");
        const result = read(text, from);
        for (const each of result.tokens.flat()) {
          if (each.typed !== "" && each.taken === undefined) expect(each.doubt).toBeDefined();
          if (each.taken !== undefined && each.taken !== each.typed) expect(each.doubt).toBeDefined();
        }
        if (!result.isDoubtful) expect(result.tokens.flat().every(({ doubt }) => doubt === undefined)).toBe(true);
      }),
    );
  });
});

describe("readBlock(text, target), with columns of a person's own", () => {
  const own = [
    column("at", { label: "at, mm", figures: true, names: ["at", "at (mm)"] }),
    column("tool", { label: "off, um", figures: true, names: ["off", "off (um)"] }),
  ];
  const readOwn = (text: string) => {
    const blank = () => ({ id: "", side: "", tool: "", at: "" });
    const outcome = readBlock(text, { rows, index: 0, column: 1, height: 1, width: 1, columns: own, blank, context }, {});
    if (!outcome.ok) throw new Error(outcome.problems[0]?.what);
    return outcome.value;
  };

  it("takes a first row that names columns without their unit, or with it, into those columns", () => {
    for (const text of ["off\tat\n0.5\t1.5\n0.6\t2.5", "off (um);at (mm)\n0,5;1,5\n0,6;2,5"]) {
      const block = readOwn(text);
      expect(block).toMatchObject({ filled: 4, isDoubtful: false });
      expect(block.rows.map((row) => row.at.replace(",", "."))).toEqual(["1.5", "2.5"]);
      expect(block.rows.map((row) => row.tool.replace(",", "."))).toEqual(["0.5", "0.6"]);
    }
  });

  it("asks about a first row of words above numbers, rather than enter it", () => {
    const block = readOwn("Length\n1.5\n2.5");
    expect(block.isDoubtful).toBe(true);
    expect(block.questions.map(({ about, chosen }) => [about, chosen])).toEqual([["firstRow", "names"]]);
  });

  it("asks nothing about names of cells above numbers where no more than entries can be meant", () => {
    expect(readOwn("1.5\nring\n2.5").isDoubtful).toBe(false);
  });
});
