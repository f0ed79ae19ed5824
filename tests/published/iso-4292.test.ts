import { expect, it } from "vitest";
import { lobingFactor } from "../../lib/fixture/vBlock.ts";

// ISO 4292:1985 (BS 3730-3:1982), factors F of the three-point summit method by the angle of the V-block and the number of lobes
// (values from memory, recomputed). 0.16 at 120 degrees and six lobes: exact 0.1547, as 120 degrees and two lobes 1.5774 are printed 1.58.
const table: readonly (readonly [angle: number, factors: readonly (readonly [lobes: number, factor: number])[]])[] = [
  [
    60,
    [
      [2, 0],
      [3, 3],
      [4, 0],
      [5, 0],
      [6, 3],
      [7, 0],
      [9, 3],
    ],
  ],
  [
    90,
    [
      [2, 1],
      [3, 2],
      [4, 0.41],
      [5, 2],
      [6, 1],
      [7, 0],
      [8, 2.41],
      [9, 0],
    ],
  ],
  [
    120,
    [
      [2, 1.58],
      [3, 1],
      [4, 0.42],
      [5, 2],
      [6, 0.16],
      [7, 2],
      [9, 1],
    ],
  ],
];

it.each(table)("vblock-lobing-factors: lobingFactor(n, %d degrees) is the published one", (angle, factors) => {
  for (const [lobes, factor] of factors) expect(Math.abs(lobingFactor(lobes, (angle * Math.PI) / 180) - factor)).toBeLessThanOrEqual(0.011);
});
