import { expect, it } from "vitest";
import { parsePointReadings } from "../../lib/readings/parsePointReadings.ts";

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
