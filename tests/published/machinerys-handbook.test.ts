import { expect, it } from "vitest";
import { turnAboutZ } from "../../lib/base/vector.ts";

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
