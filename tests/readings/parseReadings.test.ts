import { expect, it } from "vitest";
import { parseReadings } from "../../lib/readings/parseReadings.ts";

const mmX = { unit: "mm", axis: "X" } as const;

function values(text: string, options: Partial<Parameters<typeof parseReadings>[1]> = {}): unknown {
  const outcome = parseReadings(text, { ...mmX, ...options });
  return outcome.ok ? outcome.value.values : outcome.problems.map(({ what, character }) => `${what} @${character}`).join("; ");
}

it.each([
  ["-412.607", [-412.607]],
  ["-412.607 -412.609 -412.608", [-412.607, -412.609, -412.608]],
  ["-412.607; -412.609\n-412.608\t-412.610", [-412.607, -412.609, -412.608, -412.61]],
  ["-412.607\r\n-412.609\r\n", [-412.607, -412.609]],
  ["12.501, 12.502, 12.503", [12.501, 12.502, 12.503]],
  ["12.501,12.502,12.503", [12.501, 12.502, 12.503]],
  ["12.5 ,12.6", [12.5, 12.6]],
  ["-412,-413", [-412, -413]],
  ["12,5 12,6", [12.5, 12.6]],
  ["12,5; 12,6;", [12.5, 12.6]],
  ["412.607- 412.609-", [-412.607, -412.609]],
  ["- 412.607", [-412.607]],
  ["412.607 -", [-412.607]],
  ["+412.607 −412.609", [412.607, -412.609]],
  ["12.501\u00a012.502", [12.501, 12.502]],
  ["-1\u202f234.5 -1\u202f234.6", [-1234.5, -1234.6]],
  ["１２．５　１２．６", [12.5, 12.6]],
])("parseReadings(%j) takes the repeats apart", (text, expected) => {
  expect(values(text)).toEqual(expected);
});

it.each([
  ["X-412.607", [-412.607]],
  ["X-412.607 X-412.609", [-412.607, -412.609]],
  ["x -412.607 -412.609", [-412.607, -412.609]],
  ["X = -412.607", [-412.607]],
  ["X: -412.607", [-412.607]],
  ["X - 412.607", [-412.607]],
  ["X1.5X2.5", [1.5, 2.5]],
])("parseReadings(%j, X) reads the letters that screens show", (text, expected) => {
  expect(values(text)).toEqual(expected);
});

it.each([
  ["Y-412.607", "reading 1 is of axis Y, in a cell for X @0"],
  ["X-412.607 Y-3.2", "reading 2 is of axis Y, in a cell for X @10"],
  ["X-412.607Y-3.2", "reading 2 is of axis Y, in a cell for X @9"],
  ["A12", 'reading 1, "A12": "A" is not the letter of an axis @0'],
  ["X Y5", 'reading 1, "XY5": unknown name "Y5" @1'],
])("parseReadings(%j, X) refuses another axis", (text, expected) => {
  expect(values(text)).toBe(expected);
});

// 1 in = 25.4 mm exactly (NIST SP 811, B.8).
it.each([
  ["0.501 in 0.502 in", [12.7254, 12.7508]],
  ["0.501 0.502 in", [12.7254, 12.7508]],
  ["0.501,0.502 in", [12.7254, 12.7508]],
  ["0.501in,0.502in", [12.7254, 12.7508]],
  ["0.5 in 12.71 mm", [12.7, 12.71]],
  ["20 um", [0.02]],
])("parseReadings(%j) takes a unit on each reading, or on the last for all", (text, expected) => {
  expect(values(text)).toEqual(expected);
});

it("parseReadings(text, {unit: inch}) gives bare numbers the unit of the cell", () => {
  expect(values("0.501 0.502", { unit: "inch" })).toEqual([12.7254, 12.7508]);
});

it.each(["0.501 in 0.502", "0.501 0.502 in 0.503"])("parseReadings(%j) asks where some readings have a unit and some none", (text) => {
  expect(values(text)).toContain("some readings have a unit and some have none");
});

it.each([
  ["12,501 12,502", "the comma can be a decimal mark (12.501) or a thousands mark (12501)"],
  ["12,13,14", "a comma can part readings or be a decimal mark"],
  ["12,5,13,5", "a comma can part readings or be a decimal mark"],
  ["1,234,567", "a comma can part readings or be a decimal mark"],
  ["1,234.5", "a comma can part readings or be a thousands mark"],
])("parseReadings(%j) asks what the comma means", (text, expected) => {
  expect(values(text)).toContain(expected);
});

it("parseReadings(text, {decimalMark}) takes the decision instead of asking", () => {
  expect(values("12,501 12,502", { decimalMark: "," })).toEqual([12.501, 12.502]);
  expect(values("12,501, 12,502", { decimalMark: "," })).toEqual([12.501, 12.502]);
  expect(values("12.501 12.502", { decimalMark: "," })).toContain("the point is not the decimal mark chosen here");
  expect(values("12,13,14", { decimalMark: "." })).toEqual([12, 13, 14]);
});

it("parseReadings('-412.444 .441') never completes a number from the one before, and notes the distance", () => {
  const outcome = parseReadings("-412.444 .441", mmX);
  expect(outcome).toMatchObject({
    ok: true,
    value: {
      values: [-412.444, 0.441],
      notes: [
        "readings 1 and 2 are 412.885 mm apart, too far for repeats of one touch; each number is taken as typed and not completed from the one before",
      ],
    },
  });
});

it("parseReadings(text) has no note for repeats within a millimetre", () => {
  expect(parseReadings("12 12.5 13", mmX)).toMatchObject({ value: { notes: [] } });
  expect(parseReadings("12 13.001", mmX)).toMatchObject({
    value: { notes: [expect.stringContaining("readings 1 and 2 are 1.001 mm apart")] },
  });
});

it.each([
  ["6 mm / 2", [3], "6 mm / 2 = 3 mm"],
  ["-412.5 + 0.25", [-412.25], "-412.5 + 0.25 = -412.25 mm"],
  ["(1 + 2) * 3", [9], "(1 + 2) * 3 = 9 mm"],
])("parseReadings(%j) takes a cell that is one formula as one reading", (text, expected, understoodAs) => {
  expect(parseReadings(text, mmX)).toMatchObject({
    value: { values: expected, decimals: undefined, resolution: undefined, understoodAs: [understoodAs] },
  });
});

it("parseReadings('12.5 -0.1') are two readings, far apart", () => {
  expect(parseReadings("12.5 -0.1", mmX)).toMatchObject({ value: { values: [12.5, -0.1], notes: [expect.any(String)] } });
});

it.each([
  ["", "no reading is typed @undefined"],
  [" ;; ", "no reading is typed @undefined"],
  ["12.5 NaN", 'reading 2, "NaN": it is not a number @5'],
  ["12.5 Infinity 12.6", 'reading 2, "Infinity": it is not a number @5'],
  ["12.5 1e999", 'reading 2, "1e999": the number is too large @5'],
  ["12.5 12.5o3", 'reading 2, "12.5o3": "o3" behind a number is not a unit: it is misspelled, or an operator is missing @9'],
  ["12.5 0x10", 'reading 2, "0x10": "x10" behind a number is not a unit: it is misspelled, or an operator is missing @6'],
  ["12.5 5 deg", 'reading 2, "5deg": "deg" is a unit of angle @7'],
  ["X", 'reading 1, "X": it is not a number @0'],
  ["--5", 'reading 1, "--5": it is not a plain number @0'],
  ["412.607 412.609 -", 'reading 3, "-": it is not a number @16'],
  ["12.5 boss", 'reading 2, "boss": it is not a number @5'],
  ["1 / 0", "division by zero @2"],
])("parseReadings(%j) names the reading, its place in the order and its character", (text, expected) => {
  expect(values(text)).toBe(expected);
});

it("parseReadings(text) tells decimals and resolution of the finest reading", () => {
  expect(parseReadings("-412.61 -412.607", mmX)).toMatchObject({
    value: { decimals: 3, resolution: 0.001, understoodAs: ["-412.61 mm", "-412.607 mm"] },
  });
  expect(parseReadings("0.5012", { unit: "inch", axis: "Z" })).toMatchObject({ value: { decimals: 4, resolution: 0.00254 } });
});

it("parseReadings(text) bounds the length of a cell and the number of readings", () => {
  expect(values("1 ".repeat(1001))).toBe("1001 readings in one cell @undefined");
  expect(values(" ".repeat(20_001))).toBe("no reading is typed @undefined");
  expect(values("1".repeat(20_001))).toBe("a cell of 20001 characters @undefined");
});
