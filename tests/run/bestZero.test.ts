import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { effectsAt, leastSquaresZero, type MeasuredDemand, sharesAfter, smallestLargestShare } from "../../lib/run/bestZero.ts";

// By scipy's SLSQP from several starts: bestZero.py makes the file.
const reference = JSON.parse(readFileSync(new URL("../reference/bestZero.json", import.meta.url), "utf8")) as {
  readonly smallestLargestShare: readonly { demands: MeasuredDemand[]; turning: boolean; largestShare: number }[];
};

const hole = (id: string, place: readonly [number, number], off: readonly [number, number], zone: number): MeasuredDemand => ({
  id,
  components: [
    { deviation: off[0], effects: effectsAt(place, "X") },
    { deviation: off[1], effects: effectsAt(place, "Y") },
  ],
  tolerance: { zone },
});

const small = fc.double({ min: -0.05, max: 0.05, noNaN: true });
const holes = fc.array(
  fc.record({
    x: fc.double({ min: -150, max: 150, noNaN: true }),
    y: fc.double({ min: -80, max: 80, noNaN: true }),
    dx: small,
    dy: small,
    zone: fc.double({ min: 0.05, max: 0.3, noNaN: true }),
  }),
  { minLength: 1, maxLength: 8 },
);
/** mm from the middle of all to the farthest, along X or Y. */
const spread = (list: readonly { x: number; y: number }[]) => {
  const farthest = (places: readonly number[]) => {
    const mean = places.reduce((sum, each) => sum + each, 0) / places.length;
    return Math.max(...places.map((each) => Math.abs(each - mean)));
  };
  return Math.max(farthest(list.map(({ x }) => x)), farthest(list.map(({ y }) => y)));
};
const demandsOf = (list: readonly { x: number; y: number; dx: number; dy: number; zone: number }[]) =>
  list.map(({ x, y, dx, dy, zone }, i) => hole(`h${i}`, [x, y], [dx, dy], zone));

describe("smallestLargestShare(demands, turning)", () => {
  it.each(reference.smallestLargestShare.map((each, i) => [i, each] as const))(
    "case %d is not worse than scipy's and agrees with it",
    (_, { demands, turning, largestShare }) => {
      const found = smallestLargestShare(demands, turning);
      // Where all can be met exactly, SLSQP stops at some 1e-6.
      expect(found.largestShare).toBeLessThanOrEqual(largestShare + 1e-8);
      expect(found.largestShare).toBeGreaterThan(largestShare - 2e-5);
    },
  );

  // The smallest circle about three equally spaced points is their own.
  it("centres three holes of equal tolerance that lie on a circle about their middle", () => {
    const at = [0, 120, 240].map((degrees) => (degrees * Math.PI) / 180);
    const demands = at.map((angle, i) => hole(`h${i}`, [0, 0], [0.3 + 0.02 * Math.cos(angle), -0.1 + 0.02 * Math.sin(angle)], 0.1));
    const { change, largestShare } = smallestLargestShare(demands, false);
    expect(largestShare).toBeCloseTo(0.4, 8);
    expect(change.shift[0]).toBeCloseTo(-0.3, 7);
    expect(change.shift[1]).toBeCloseTo(0.1, 7);
  });

  it("weighs by tolerance: two lengths share what they disagree about in proportion to what they may", () => {
    const length = (id: string, deviation: number, half: number): MeasuredDemand => ({
      id,
      components: [{ deviation, effects: [1, 0, 0, 0] }],
      tolerance: { lower: -half, upper: half },
    });
    // (0 + s)/0.01 = (0.04 - ... ) : s = 0.01 t and 0.04 + s' ... by hand: s = -0.01, shares 1 and 1 for halves 0.01 and 0.03.
    const { change, largestShare } = smallestLargestShare([length("a", 0, 0.01), length("b", 0.04, 0.03)], true);
    expect(change.shift[0]).toBeCloseTo(-0.01, 8);
    expect(largestShare).toBeCloseTo(1, 8);
  });

  it("is never worse than no change and than least squares, and no small change makes it better", () => {
    fc.assert(
      fc.property(holes, fc.boolean(), (list, turning) => {
        const demands = demandsOf(list);
        const { change, largestShare } = smallestLargestShare(demands, turning);
        expect(largestShare).toBeLessThanOrEqual(sharesAfter(demands).largestShare + 1e-8);
        expect(largestShare).toBeLessThanOrEqual(leastSquaresZero(demands, turning).largestShare + 1e-8);
        for (const [dx, dy, turn] of [
          [1e-4, 0, 0],
          [-1e-4, 0, 0],
          [0, 1e-4, 0],
          [0, -1e-4, 0],
          [0, 0, 1e-6],
          [0, 0, -1e-6],
        ] as const) {
          if (turn !== 0 && !(turning && spread(list) > 1)) continue;
          const [x, y, z] = change.shift;
          const moved = sharesAfter(demands, { shift: [x + dx, y + dy, z], turn: change.turn + turn });
          expect(moved.largestShare).toBeGreaterThanOrEqual(largestShare - 1e-8);
        }
      }),
      { numRuns: 60 },
    );
  });

  it("has a wall that may only be thick enough be no thinner than it must", () => {
    const wall: MeasuredDemand = {
      id: "wall",
      components: [{ deviation: -0.05, effects: [1, 0, 0, 0] }],
      tolerance: { lower: -0.1, upper: Number.POSITIVE_INFINITY },
    };
    const bore = hole("bore", [0, 0], [0, 0], 0.1);
    // Wall (0.05 - s)/0.1 = s/0.05: s = 1/60, share 1/3.
    const { change, largestShare } = smallestLargestShare([wall, bore], false);
    expect(change.shift[0]).toBeCloseTo(1 / 60, 8);
    expect(largestShare).toBeCloseTo(1 / 3, 8);
  });

  it("changes nothing where nothing is demanded, and nothing that nothing depends on", () => {
    expect(smallestLargestShare([], true).change).toEqual({ shift: [0, 0, 0], turn: 0 });
    const { change } = smallestLargestShare([hole("h", [0, 0], [0.01, 0.02], 0.1)], true);
    expect(change.shift[2]).toBe(0);
    expect(Math.abs(change.turn)).toBeLessThan(1e-12);
    expect(change.shift[0]).toBeCloseTo(-0.01, 8);
  });
});

describe("leastSquaresZero(demands, turning)", () => {
  // A shift does all that is needed: a turn about the part zero would do half of it, by radians where the lever is short.
  it.each([
    [0, -5e-324],
    [1e-6, 0],
    [0.001, -0.002],
    [100, 50],
  ])("turns nothing for a single hole at %d, %d", (x, y) => {
    for (const best of [leastSquaresZero, smallestLargestShare]) {
      const { change, largestShare } = best([hole("h", [x, y], [0.02, -0.01], 0.1)], true);
      expect(change.turn).toBe(0);
      expect(change.shift[0]).toBeCloseTo(-0.02, 8);
      expect(change.shift[1]).toBeCloseTo(0.01, 8);
      expect(largestShare).toBeLessThan(1e-7);
    }
  });

  // Zero mean and the turn Σ(x dy - y dx)/Σ(x² + y²) about the middle, by hand for four holes of a square of 100.
  it("takes the mean shift and the turn of a square of holes away", () => {
    const places = [
      [50, 50],
      [-50, 50],
      [-50, -50],
      [50, -50],
    ] as const;
    const demands = places.map(([x, y], i) => hole(`h${i}`, [x, y], [0.02 - 1e-4 * y, -0.01 + 1e-4 * x], 0.1));
    const { change, largestShare } = leastSquaresZero(demands, true);
    expect(change.shift[0]).toBeCloseTo(-0.02, 12);
    expect(change.shift[1]).toBeCloseTo(0.01, 12);
    expect(change.turn).toBeCloseTo(-1e-4, 12);
    expect(largestShare).toBeLessThan(1e-9);
  });
});
