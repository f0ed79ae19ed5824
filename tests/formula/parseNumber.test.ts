import { expect, it } from "vitest";
import { parseNumber } from "../../lib/formula/parseNumber.ts";

/** The outcome in one line: value, decimals, reading; or the complaint and its character. */
function read(text: string, decimalMark?: "." | ","): unknown[] {
  const outcome = parseNumber(text, decimalMark ? { decimalMark } : {});
  if (outcome.ok) return [outcome.value.value, outcome.value.decimals, outcome.value.understoodAs];
  return outcome.problems.map(({ what, character }) => [what, character]);
}

// Expected values below follow from the decimal notation itself.
it.each([
  ["412.607", [412.607, 3, "412.607"]],
  ["-412.607", [-412.607, 3, "-412.607"]],
  ["+412.607", [412.607, 3, "412.607"]],
  ["412.607-", [-412.607, 3, "-412.607"]],
  ["412.607 -", [-412.607, 3, "-412.607"]],
  ["- 412.607", [-412.607, 3, "-412.607"]],
  ["  12 ", [12, 0, "12"]],
  ["12.", [12, 0, "12"]],
  [".5", [0.5, 1, "0.5"]],
  ["-.444", [-0.444, 3, "-0.444"]],
  ["12.500", [12.5, 3, "12.500"]],
  ["007.50", [7.5, 2, "7.50"]],
  ["1.5e-3", [0.0015, 4, "1.5e-3"]],
  ["1.5E3", [1500, 0, "1.5e3"]],
])("parseNumber(%j) reads a number as typed", (text, expected) => {
  expect(read(text)).toEqual(expected);
});

it.each([
  ["−412.607", -412.607, "the minus sign U+2212"],
  ["–412.607", -412.607, "the dash that word processors put"],
  ["－４１２．６０７", -412.607, "full-width signs"],
  ["\u00a0412.607\u2009", 412.607, "no-break and thin blanks around"],
  ["\u200b412.607", 412.607, "a blank of no width"],
])("parseNumber(%j) reads %d: %3$s", (text, value) => {
  expect(read(text)[0]).toBe(value);
});

it.each([
  ["12,5", 12.5, 1],
  ["-412,60", -412.6, 2],
  ["0,125", 0.125, 3],
  [",5", 0.5, 1],
  ["1234,567", 1234.567, 3],
  ["12,5000", 12.5, 4],
])("parseNumber(%j) takes a comma that can be nothing else for the decimal mark", (text, value, decimals) => {
  expect(read(text).slice(0, 2)).toEqual([value, decimals]);
});

it.each([
  ["1,234", "1.234", "1234"],
  ["12,500", "12.500", "12500"],
  ["-412,607", "412.607", "412607"],
])("parseNumber(%j) asks whether the comma is a decimal or a thousands mark", (text, asDecimal, asThousands) => {
  const outcome = parseNumber(text);
  expect(outcome).toMatchObject({ ok: false, problems: [{ got: text, character: text.indexOf(",") }] });
  expect(outcome.ok ? "" : outcome.problems[0]?.what).toContain(asDecimal);
  expect(outcome.ok ? "" : outcome.problems[0]?.what).toContain(asThousands);
  expect(outcome.ok ? "" : outcome.problems[0]?.remedy).toContain(`write ${asDecimal} or ${asThousands}`);
});

it("parseNumber(text, {decimalMark}) takes the decision instead of asking", () => {
  expect(read("12,500", ",")).toEqual([12.5, 3, "12.500"]);
  expect(read("12,500", ".")).toEqual([12_500, 0, "12500"]);
});

it("parseNumber(text, {decimalMark}) refuses the other mark rather than read thousands into a display's point", () => {
  expect(read("412.607", ",")).toEqual([["the point is not the decimal mark chosen here", 0]]);
  expect(read("12,5", ".")).toEqual([["the comma is not the decimal mark chosen here", 2]]);
  expect(read("1.234,5", ".")).toEqual([["the comma is not the decimal mark chosen here", 0]]);
});

it.each([
  ["1.234,5", [1234.5, 1, "1234.5"]],
  ["1,234.5", [1234.5, 1, "1234.5"]],
  ["1,234,567", [1_234_567, 0, "1234567"]],
  ["1.234.567", [1_234_567, 0, "1234567"]],
  ["1'234.5", [1234.5, 1, "1234.5"]],
  ["1’234", [1234, 0, "1234"]],
  ["1\u202f234,5", [1234.5, 1, "1234.5"]],
  ["-1\u00a0234", [-1234, 0, "-1234"]],
])("parseNumber(%j) reads thousands where nothing else can be meant, and says how", (text, expected) => {
  expect(read(text)).toEqual(expected);
});

it.each(["1 234.5", "10 100", "12 .5", "1,23,456", "1.23.456", "1'23", "12'34.5", "0'123", "1'234,567.8", "1.2,3.4", "1234,567,890"])(
  "parseNumber(%j) refuses groups that are no thousands, and ordinary blanks",
  (text) => {
    expect(parseNumber(text).ok).toBe(false);
  },
);

it.each([
  ["", "nothing is typed", undefined],
  ["   ", "nothing is typed", undefined],
  ["-", "digits are missing", 1],
  [".", "digits are missing", 0],
  ["abc", '"a" does not belong to a number', 0],
  ["12x", '"x" does not belong to a number', 2],
  ["NaN", '"NaN" is no measured value', 0],
  ["-Infinity", '"-Infinity" is no measured value', 0],
  ["0x1F", "hexadecimal, octal and binary numbers are not read", 0],
  ["1e999", "the number is too large", 0],
  ["-1e-999", "the number is too small to be told from zero", 1],
  ["-412.607-", "a sign stands before and behind the number", 8],
  ["1 234", "a blank stands inside the number", 1],
  ["5¼", 'the sign "¼" is a fraction set as one sign', 1],
  ["3²", 'the sign "²" is a raised or lowered sign', 1],
  ["12·5", '"·" between two digits can mean times or the decimal mark', 2],
])("parseNumber(%j) refuses: %s", (text, what, character) => {
  expect(read(text)).toEqual([[what, character]]);
});

it("parseNumber('-0.000') is the number 0, not minus 0", () => {
  expect(read("-0.000")).toEqual([0, 3, "0.000"]);
});

it("parseNumber(text) counts characters in the text as typed, wide signs included", () => {
  expect(read("\u200b １２x")).toEqual([['"x" does not belong to a number', 4]]);
});

it("parseNumber(a very long text) is refused at once", () => {
  expect(read(" ".repeat(100_000))).toEqual([["a number of more than 400 characters", undefined]]);
});
