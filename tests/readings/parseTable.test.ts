import { expect, it } from "vitest";
import { parseTable } from "../../lib/readings/parseTable.ts";

it.each([
  ["a\tb\r\n1\t2\r\n", { header: ["a", "b"], rows: [["1", "2"]], separator: "\t" }],
  [
    "1;2,5\n3;4",
    {
      header: undefined,
      rows: [
        ["1", "2,5"],
        ["3", "4"],
      ],
      separator: ";",
    },
  ],
  [
    "H1\t12,5\rH2\t13,25",
    {
      header: undefined,
      rows: [
        ["H1", "12,5"],
        ["H2", "13,25"],
      ],
      separator: "\t",
    },
  ],
  ["hole,x,y\nH1,1.5,2\n", { header: ["hole", "x", "y"], rows: [["H1", "1.5", "2"]], separator: "," }],
  [
    "x,y\n1,2\n3,4",
    {
      header: ["x", "y"],
      rows: [
        ["1", "2"],
        ["3", "4"],
      ],
      separator: ",",
    },
  ],
  [
    "1.5,2.5\n3,4",
    {
      header: undefined,
      rows: [
        ["1.5", "2.5"],
        ["3", "4"],
      ],
      separator: ",",
    },
  ],
  ["a , b\n 1 ,2", { header: ["a", "b"], rows: [["1", "2"]], separator: "," }],
  ["\ufeffx\n1", { header: ["x"], rows: [["1"]], separator: "," }],
  ["1\n\n2\n\n\n", { header: undefined, rows: [["1"], [""], ["2"]], separator: "," }],
  ["1\t2\n3", { header: undefined, rows: [["1", "2"], ["3"]], separator: "\t" }],
  [
    "names\tonly\nno\tnumbers",
    {
      header: undefined,
      rows: [
        ["names", "only"],
        ["no", "numbers"],
      ],
      separator: "\t",
    },
  ],
])("parseTable(%j) gives rows of cells", (text, expected) => {
  expect(parseTable(text)).toEqual({ ok: true, value: expected });
});

// RFC 4180, section 2, items 5 to 7.
it.each([
  ['"a ""b"" c",2.5', [['a "b" c', "2.5"]]],
  [
    '"two\nlines",1.5\r\nx,2.5',
    [
      ["two\nlines", "1.5"],
      ["x", "2.5"],
    ],
  ],
  [
    '"12,5","13,5"\n"1,5","2,5"',
    [
      ["12,5", "13,5"],
      ["1,5", "2,5"],
    ],
  ],
  ['"";x', [["", "x"]]],
  ['2.5"\t3"', [['2.5"', '3"']]],
  ['"2.5"mm\t3', [["2.5mm", "3"]]],
])("parseTable(%j) reads quotes round cells and leaves others alone", (text, rows) => {
  expect(parseTable(text)).toMatchObject({ ok: true, value: { rows } });
});

it.each([
  ["X-412.607\tY3", false],
  ["3 mm\ta", false],
  [".5\ta", false],
  ["−3\ta", false],
  ["H1\ta", true],
  ["1st hole\ta", true],
])("parseTable takes the first row %j for a header: %s", (first, isHeader) => {
  expect(parseTable(`${first}\n1\t2`)).toMatchObject({ value: { header: isHeader ? first.split("\t") : undefined } });
});

it.each(["12,5\n12,6", "1,2\n3,4", "x\n12,5", "12,5,13,5"])(
  "parseTable(%j) asks whether commas part cells or are decimal marks",
  (text) => {
    expect(parseTable(text)).toMatchObject({ ok: false, problems: [{ what: "the commas can part cells or be decimal marks" }] });
  },
);

it("parseTable(text, {separator}) settles it", () => {
  expect(parseTable("1,2\n3,4", { separator: "," })).toMatchObject({
    value: {
      rows: [
        ["1", "2"],
        ["3", "4"],
      ],
    },
  });
  expect(parseTable("12,5\n12,6", { separator: ";" })).toMatchObject({ value: { rows: [["12,5"], ["12,6"]] } });
});

it.each([
  ["", "the block is empty"],
  ["\n \n", "the block is empty"],
  ['1\t"2', "a quote in row 1 is never closed"],
])("parseTable(%j) is refused: %s", (text, what) => {
  expect(parseTable(text)).toMatchObject({ ok: false, problems: [{ what }] });
});

it.each([
  ["a million rows", "1\t2\n".repeat(1_000_000), "the block has more than 100000 rows"],
  ["52 million characters", "1.5\t".repeat(13_000_000), "the block has 52000000 characters"],
  ["a row of tabs", "\t".repeat(19_000_000), "row 1 has more than 1000 cells"],
  ["quotes", '"'.repeat(19_999_999), "a cell in row 1 has more than 100000 characters"],
  ["one long cell", "1".repeat(19_999_999), "a cell in row 1 has more than 100000 characters"],
])("parseTable(%s) is refused with a reason", (_, text, what) => {
  expect(parseTable(text)).toMatchObject({ ok: false, problems: [{ what }] });
});

it("parseTable(text, {maximumRows, maximumCharacters}) takes exactly as much as it says", () => {
  expect(parseTable("1\n2\n3", { maximumRows: 3 }).ok).toBe(true);
  expect(parseTable("1\n2\n3\n4", { maximumRows: 3 }).ok).toBe(false);
  expect(parseTable("12", { maximumCharacters: 2 }).ok).toBe(true);
  expect(parseTable("123", { maximumCharacters: 2 }).ok).toBe(false);
});

it("parseTable(99 000 rows) keeps every cell", () => {
  const outcome = parseTable("H1\t12.345\t-3.2\n".repeat(99_000));
  expect(outcome.ok && [outcome.value.rows.length, outcome.value.rows[98_999]]).toEqual([99_000, ["H1", "12.345", "-3.2"]]);
});
