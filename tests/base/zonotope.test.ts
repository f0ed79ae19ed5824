import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { farthestOfZonotope } from "../../lib/base/zonotope.ts";

describe("farthestOfZonotope", () => {
  const coordinate = fc.integer({ min: -30, max: 30 }).map((value) => value / 10);
  const point = fc.tuple(coordinate, coordinate);

  it("farthestOfZonotope(centre, generators) is the largest distance over all combinations of signs", () => {
    fc.assert(
      fc.property(point, fc.array(point, { maxLength: 9 }), (centre, generators) => {
        let farthest = 0;
        for (let signs = 0; signs < 2 ** generators.length; signs++) {
          let [x, y] = centre;
          generators.forEach(([dx, dy], i) => {
            const sign = signs & (1 << i) ? 1 : -1;
            x += sign * dx;
            y += sign * dy;
          });
          farthest = Math.max(farthest, Math.hypot(x, y));
        }
        expect(farthestOfZonotope(centre, generators)).toBeCloseTo(farthest, 11);
      }),
      { numRuns: 300 },
    );
  });

  it("farthestOfZonotope(centre, []) is the centre's own distance", () => {
    expect(farthestOfZonotope([3, -4], [])).toBe(5);
  });

  it("farthestOfZonotope(...) adds along one line, and crosswise by Pythagoras", () => {
    expect(
      farthestOfZonotope(
        [1, 0],
        [
          [2, 0],
          [-3, 0],
        ],
      ),
    ).toBe(6);
    expect(
      farthestOfZonotope(
        [0, 0],
        [
          [3, 0],
          [0, 4],
        ],
      ),
    ).toBe(5);
  });
});
