import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { combination, distanceStack, link, positionStack } from "../properties/stacks.ts";

// Many evaluations a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

const coefficient = fc.integer({ min: -20, max: 20 }).map((tenths) => tenths / 10);
const halfWidth = fc.integer({ min: 1, max: 80 }).map((value) => value / 1000);
const terms = fc.array(fc.tuple(coefficient, halfWidth), { minLength: 1, maxLength: 6 });

describe("stackOf, a distance", () => {
  it("worst case adds |c| a, root sum square adds squares, and both stand about the deviation", () => {
    fc.assert(
      fc.property(terms, coefficient, (links, mean) => {
        const sources = links.map(([, a], i) => link(`s${i}`, { shape: "rectangular", halfWidth: a }));
        const stack = distanceStack(
          combination(
            mean,
            links.map(([c], i) => [c, sources[i] as (typeof sources)[number]]),
          ),
          -0.5,
          0.5,
        );
        const worst = links.reduce((sum, [c, a]) => sum + Math.abs(c) * a, 0);
        const root = Math.sqrt(links.reduce((sum, [c, a]) => sum + (c * a) ** 2, 0));
        expect(stack.worstCase).toEqual({ lower: expect.closeTo(mean - worst, 11), upper: expect.closeTo(mean + worst, 11) });
        expect(stack.rootSumSquare).toEqual({ lower: expect.closeTo(mean - root, 11), upper: expect.closeTo(mean + root, 11) });
        expect(stack.shares.worstCase).toBeCloseTo((Math.abs(mean) + worst) / 0.5, 10);
        expect(stack.shares.deviation).toBeCloseTo(Math.abs(mean) / 0.5, 10);
        if (Math.abs(mean) + worst <= 0.5) expect(stack.chance).toBeCloseTo(1, 9);
      }),
      { numRuns: 100 },
    );
  });

  // By hand: an exponential of mean 0.01 goes 0.01 below its expectation at most, and without an end above, where 3 u = 0.03 are taken.
  it("a skewed source reaches as far as it can to either side, whichever way it acts", () => {
    const skewed = link("e", { shape: "exponential", mean: 0.01 });
    const limited = link("r", { shape: "rectangular", halfWidth: 0.02 });
    const stack = distanceStack(
      combination(0.1, [
        [2, skewed],
        [1, limited],
      ]),
      -1,
      1,
    );
    expect(stack.worstCase).toEqual({ lower: expect.closeTo(0.1 - 0.02 - 0.02, 12), upper: expect.closeTo(0.1 + 0.06 + 0.02, 12) });
    const reversed = distanceStack(combination(0.1, [[-2, skewed]]), -1, 1);
    expect(reversed.worstCase).toEqual({ lower: expect.closeTo(0.1 - 0.06, 12), upper: expect.closeTo(0.1 + 0.02, 12) });
    expect(reversed.rows.map(({ reaches, opposites, unlimited }) => [reaches[0], opposites[0], unlimited])).toEqual([
      [expect.closeTo(-0.06, 12), expect.closeTo(0.02, 12), true],
    ]);
    // Never above 0.12: P(0.1 - 2 (x - 0.01) <= 0.1) = P(x >= mean) = 1/e.
    const atLimit = distanceStack(combination(0.1, [[-2, skewed]]), -1, 0.1);
    expect(atLimit.chance).toBeCloseTo(Math.exp(-1), 9);
  });

  it("shares are taken from the middle of limits that are not symmetric", () => {
    const stack = distanceStack(combination(0.05, [[1, link("a", { shape: "rectangular", halfWidth: 0.03 })]]), -0.1, 0.3);
    // Middle 0.1, half-width 0.2: the deviation 0.05 uses a quarter, 0.02 to 0.08 at most 0.08 / 0.2.
    expect(stack.shares.deviation).toBeCloseTo(0.25, 12);
    expect(stack.shares.worstCase).toBeCloseTo(0.4, 12);
    // Rectangular from 0.02 to 0.08: all inside.
    expect(stack.chance).toBe(1);
  });

  it("a source without an end enters at its stated limit, or at three standard uncertainties, and says which", () => {
    const normal = { shape: "normal", standardDeviation: 0.01 } as const;
    const rows = distanceStack(
      combination(0, [
        [1, link("a", normal, { limit: 0.05 })],
        [-2, link("b", normal)],
      ]),
      -1,
      1,
    ).rows;
    expect(rows.map(({ source, reaches, unlimited }) => [source.id, reaches[0], unlimited])).toEqual([
      ["b", expect.closeTo(-0.06, 12), true],
      ["a", expect.closeTo(0.05, 12), false],
    ]);
  });

  // A single rectangular source within ± a: the chance of ± t is t / a.
  it("the chance of one rectangular source is the share of it inside", () => {
    fc.assert(
      fc.property(halfWidth, fc.integer({ min: 1, max: 99 }), (a, percent) => {
        const t = (a * percent) / 100;
        expect(distanceStack(combination(0, [[-1, link("a", { shape: "rectangular", halfWidth: a })]]), -t, t).chance).toBeCloseTo(
          percent / 100,
          10,
        );
      }),
      { numRuns: 60 },
    );
  });
});

describe("stackOf, a position", () => {
  it("a source that acts on both axes acts on both at once: its worst case lies on its own line", () => {
    const shared = link("shared", { shape: "rectangular", halfWidth: 0.03 });
    const stack = positionStack(combination(0, [[1, shared]]), combination(0, [[1, shared]]), 0.06);
    expect(stack.worstCase.upper).toBeCloseTo(2 * 0.03 * Math.SQRT2, 12);
    // Rectangular along the diagonal: 2 √2 |t| <= 0.06 for a share of 1/√2 of |t| <= 0.03.
    expect(stack.chance).toBeCloseTo(Math.SQRT1_2, 7);
  });

  it("the worst case is the farthest combination of all sources, from plain enumeration", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(coefficient, coefficient, halfWidth), { minLength: 1, maxLength: 5 }), coefficient, (links, x) => {
        const sources = links.map(([, , a], i) => link(`s${i}`, { shape: "rectangular", halfWidth: a }));
        const along = (axis: 0 | 1, mean: number) =>
          combination(
            mean,
            links.map((each, i): [number, (typeof sources)[number]] => [each[axis], sources[i] as (typeof sources)[number]]),
          );
        let farthest = 0;
        for (let signs = 0; signs < 2 ** links.length; signs++) {
          const total = [x, 0] as [number, number];
          links.forEach(([cx, cy, a], i) => {
            const sign = signs & (1 << i) ? 1 : -1;
            total[0] += sign * cx * a;
            total[1] += sign * cy * a;
          });
          farthest = Math.max(farthest, Math.hypot(...total));
        }
        expect(positionStack(along(0, x), along(1, 0), 100).worstCase.upper).toBeCloseTo(2 * farthest, 10);
      }),
      { numRuns: 15 },
    );
  });

  it("without any doubt the chance is 1 inside the zone and 0 outside", () => {
    expect(positionStack(combination(0.03, []), combination(0.04, []), 0.11).chance).toBe(1);
    expect(positionStack(combination(0.03, []), combination(0.04, []), 0.09).chance).toBe(0);
  });
});
