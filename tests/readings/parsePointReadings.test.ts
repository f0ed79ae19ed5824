import { expect, it } from "vitest";
import { success } from "../../lib/base/outcome.ts";
import { lengthDimension } from "../../lib/formula/dimension.ts";
import { namesOf } from "../../lib/ledger/namesOf.ts";
import { parsePointReadings } from "../../lib/readings/parsePointReadings.ts";
import { certain } from "../../lib/uncertainty/uncertain.ts";

function points(text: string): unknown {
  const outcome = parsePointReadings(text, { unit: "mm" });
  if (!outcome.ok) return outcome.problems.map(({ what, character }) => `${what} @${character}`).join("; ");
  return outcome.value.points.map(({ x, y }) => [x, y]);
}

it.each([
  [
    "X12.345 Y-3.210; X12.346 Y-3.211",
    [
      [12.345, -3.21],
      [12.346, -3.211],
    ],
  ],
  [
    "X12.345 Y-3.210\nX12.346 Y-3.211\n",
    [
      [12.345, -3.21],
      [12.346, -3.211],
    ],
  ],
  [
    "X1Y2X3Y4",
    [
      [1, 2],
      [3, 4],
    ],
  ],
  ["Y-3.21 X12.345", [[12.345, -3.21]]],
  ["X12.345, Y-3.210", [[12.345, -3.21]]],
  [
    "12.3 4.5\n12.4 4.6",
    [
      [12.3, 4.5],
      [12.4, 4.6],
    ],
  ],
  [
    "12,3 4,5; 12,4 4,6",
    [
      [12.3, 4.5],
      [12.4, 4.6],
    ],
  ],
  ["X 1 in Y 2 in", [[25.4, 50.8]]],
  ["X1 Y2 in", [[25.4, 50.8]]],
])("parsePointReadings(%j) pairs X with Y", (text, expected) => {
  expect(points(text)).toEqual(expected);
});

it.each([
  ["", "no point is typed @undefined"],
  ["X1", "point 1 has one coordinate @0"],
  ["X1 Y2; X3", "point 2 has one coordinate @7"],
  ["X1; Y2", "point 1 has one coordinate @0"],
  ["X1 X2", "the letters of point 1 are X and X @0"],
  ["X1 2", "the letters of point 1 are X and none @0"],
  ["X1 Z2", "the letters of point 1 are X and Z @0"],
  ["12.3 4.5 12.4 4.6", "more than two numbers without letters stand together @9"],
  ["X1 Y2; X3 Yo", 'reading 4, "Yo": it is not a number @10'],
])("parsePointReadings(%j) says what is wrong with which point", (text, expected) => {
  expect(points(text)).toBe(expected);
});

it("parsePointReadings(text) notes a point that was typed twice", () => {
  expect(parsePointReadings("X1 Y2; X3 Y4; X1 Y2", { unit: "mm" })).toMatchObject({
    value: {
      notes: ["points 1 and 3 are the same to the last digit"],
      decimals: 0,
      understoodAs: ["X 1 mm, Y 2 mm", "X 3 mm, Y 4 mm", "X 1 mm, Y 2 mm"],
    },
  });
});

// A bore's points by the middle and the way from it, as a person who knows both would type them.
it("parsePointReadings(points of formulas and names) are what the formulas give, and a name that begins with a letter of an axis is a name", () => {
  const value = (millimetres: number) => success({ kind: "quantity", value: certain(millimetres), dimension: lengthDimension } as const);
  const names = namesOf(
    new Map([
      ["Xmid", value(100)],
      ["mid_y", value(-50)],
    ]),
  );
  const read = (text: string) => {
    const outcome = parsePointReadings(text, { unit: "mm", names });
    return outcome.ok ? outcome.value.points.map(({ x, y }) => [x, y]) : outcome.problems[0]?.what;
  };
  expect(read("X Xmid + 7 Y mid_y; X Xmid, Y mid_y + 0.7 cm\nY = mid_y X = Xmid - 7")).toEqual([
    [107, -50],
    [100, -43],
    [93, -50],
  ]);
  expect(read("X 200 / 2 Y -100 / 2")).toEqual([[100, -50]]);
  expect(read("Xmid mid_y")).toMatch(/no X and Y of formulas/);
});
