import { expect, it } from "vitest";
import { turnAboutZ } from "../../lib/base/vector.ts";
import { parseLength } from "../../lib/formula/parseQuantity.ts";

// Machinery's Handbook, hole coordinate dimension factors for jig boring, type A, unit diameter: origin at the upper left of the
// bounding square, Y downwards, hole 1 at the top, then anticlockwise (seen in part).
it.each([
  [
    "boltcircle-3",
    [
      [0.5, 0],
      [0.06699, 0.75],
      [0.93301, 0.75],
    ],
  ],
  [
    "boltcircle-5",
    [
      [0.5, 0],
      [0.02447, 0.34549],
      [0.20611, 0.90451],
      [0.79389, 0.90451],
      [0.97553, 0.34549],
    ],
  ],
  [
    "boltcircle-6",
    [
      [0.5, 0],
      [0.06699, 0.25],
      [0.06699, 0.75],
      [0.5, 1],
      [0.93301, 0.75],
      [0.93301, 0.25],
    ],
  ],
])("%s: turnAboutZ(the top hole, i · 360°/n) has the printed coordinates", (_, holes) => {
  holes.forEach((printed, i) => {
    const [x, y] = turnAboutZ([0, 0.5, 0], (2 * Math.PI * i) / holes.length);
    expect(Math.abs(0.5 + x - (printed[0] as number))).toBeLessThanOrEqual(5e-6);
    expect(Math.abs(0.5 - y - (printed[1] as number))).toBeLessThanOrEqual(5e-6);
  });
});

function length(text: string, unit: "mm" | "inch"): number {
  const parsed = parseLength(text, { unit });
  if (!parsed.ok) throw new Error(parsed.problems.map(({ what }) => what).join());
  return parsed.value.value;
}

// Lengths of chords for spacing off the circumference of a circle of diameter 1 (values from memory, recomputed), as formulas in an entry.
it.each([
  [3, 0.866025],
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: the digits as published
  [4, 0.707107],
  [5, 0.587785],
  [6, 0.5],
  [7, 0.433884],
  [8, 0.382683],
  [9, 0.34202],
  [10, 0.309017],
  [11, 0.281733],
  [12, 0.258819],
])("chord-factors-3-12: 1 mm * sin(180 deg / %d) is %d, and so far apart are holes that turnAboutZ spaces", (spaces, printed) => {
  expect(Math.abs(length(`1 mm * sin(180 deg / ${spaces})`, "mm") - printed)).toBeLessThanOrEqual(5.1e-7);
  const [x, y] = turnAboutZ([0.5, 0, 0], (2 * Math.PI) / spaces);
  expect(Math.abs(Math.hypot(x - 0.5, y) - printed)).toBeLessThanOrEqual(5.1e-7);
});

// Constants for setting a 5-inch sine bar (values from memory, recomputed), as formulas in an entry.
it.each([
  [1, 0.08726],
  [5, 0.43578],
  [10, 0.86824],
  [15, 1.2941],
  [20, 1.7101],
  [22.5, 1.91342],
  [30, 2.5],
  [45, 3.53553],
  [60, 4.33013],
])("sinebar-5in: 5 in * sin(%d deg) is %d in", (angle, printed) => {
  expect(Math.abs(length(`5 in * sin(${angle} deg)`, "inch") / 25.4 - printed)).toBeLessThanOrEqual(5.1e-6);
});
