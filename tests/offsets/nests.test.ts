import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { entryOf } from "../../lib/base/matrix.ts";
import { fitNests, type Nest, nestGrid } from "../../lib/offsets/nests.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { correlation, covarianceMatrix } from "../../lib/uncertainty/covariance.ts";
import { valueOfSource } from "../../lib/uncertainty/sourceBook.ts";
import { certain, type Uncertain } from "../../lib/uncertainty/uncertain.ts";
import { must } from "../properties/setups.ts";
import reference from "../reference/rigidRegistration.json" with { type: "json" };

function doubtful(id: string, estimate: number, standardDeviation: number): Uncertain {
  return valueOfSource({
    id,
    label: id,
    family: "fixture",
    estimate,
    distribution: { shape: "normal", standardDeviation },
    evidence: { kind: "stated" },
  });
}

const nestsOf = (nominal: readonly (readonly number[])[], found: readonly (readonly number[])[], scatter: number): Nest[] =>
  nominal.map(([x = 0, y = 0], i) => ({
    id: `${i + 1}`,
    nominal: [x, y],
    found: [doubtful(`x${i}`, found[i]?.[0] ?? 0, scatter), doubtful(`y${i}`, found[i]?.[1] ?? 0, scatter)],
  }));

describe("fitNests", () => {
  // tests/reference/rigidRegistration.py: scipy's align_vectors and least_squares.
  it.each(reference.map((each, i) => [i + 1, each] as const))(
    "fitNests(reference case %d) has scipy's shift, turn, residuals, covariance and chi-square",
    (_, { rotation, scatter, nominal, found, angle, shift, residuals, covariance, chiSquare, degreesOfFreedom, upperTail }) => {
      const fit = must(fitNests(nestsOf(nominal, found, scatter), { rotation }));
      expect(fit.rotation.value).toBeCloseTo(angle, 9);
      expect(fit.shift.map(({ value }) => value)).toEqual(shift.map((value) => expect.closeTo(value, 7)));
      expect(fit.residuals.flatMap(({ x, y }) => [x.value, y.value])).toEqual(residuals.flat().map((value) => expect.closeTo(value, 7)));
      const own = covarianceMatrix(rotation ? [...fit.shift, fit.rotation] : fit.shift);
      covariance.forEach((row, i) => {
        row.forEach((value, j) => {
          const scale = Math.sqrt((covariance[i]?.[i] ?? 0) * (covariance[j]?.[j] ?? 0));
          // Both curve a little with the residuals, which are millionths of the places.
          expect(Math.abs(entryOf(own, i, j) - value)).toBeLessThan(2e-4 * scale);
        });
      });
      expect(fit.chiSquare?.degreesOfFreedom).toBe(degreesOfFreedom);
      expect(fit.chiSquare?.value).toBeCloseTo(chiSquare, 3);
      expect(fit.chiSquare?.upperTail).toBeCloseTo(upperTail, 4);
    },
  );

  it("fitNests(nests) finds any shift and turn that nests were moved by, and leaves no residual", () => {
    const place = fc.tuple(fc.double({ min: -500, max: 500, noNaN: true }), fc.double({ min: -500, max: 500, noNaN: true }));
    fc.assert(
      fc.property(
        fc.array(place, { minLength: 3, maxLength: 8 }),
        place,
        fc.double({ min: -3, max: 3, noNaN: true }),
        (nominal, [dx, dy], turn) => {
          const spread = Math.max(...nominal.map(([x, y]) => Math.hypot(x - (nominal[0]?.[0] ?? 0), y - (nominal[0]?.[1] ?? 0))));
          fc.pre(spread > 1);
          const found = nominal.map(([x, y]) => [
            dx + Math.cos(turn) * x - Math.sin(turn) * y,
            dy + Math.sin(turn) * x + Math.cos(turn) * y,
          ]);
          const fit = must(fitNests(nestsOf(nominal, found, 0.01), { rotation: true }));
          expect(fit.rotation.value).toBeCloseTo(turn, 8);
          expect(fit.shift.map(({ value }) => value)).toEqual([expect.closeTo(dx, 6), expect.closeTo(dy, 6)]);
          for (const { x, y } of fit.residuals) expect(Math.hypot(x.value, y.value)).toBeLessThan(1e-9 * 1000);
        },
      ),
      { numRuns: 200 },
    );
  });

  // JCGM 100:2008, 5.2.2: what all places share moves the shift as it is, and tells nothing of the nests among each other.
  it("fitNests(nests): a doubt that all nests share goes into the shift whole, and into no residual", () => {
    const common = doubtful("radius", 0, 0.02);
    const nests = nestsOf(
      [
        [0, 0],
        [100, 0],
        [0, 100],
      ],
      [
        [0, 0],
        [100, 0],
        [0, 100],
      ],
      0.003,
    ).map((nest): Nest => ({ ...nest, found: [nest.found[0].plus(common), nest.found[1]] }));
    const fit = must(fitNests(nests, { rotation: false }));
    expect(fit.shift[0].standardUncertainty).toBeCloseTo(Math.sqrt(0.003 ** 2 / 3 + 0.02 ** 2), 12);
    expect(fit.residuals[0]?.x.standardUncertainty).toBeCloseTo(0.003 * Math.sqrt(2 / 3), 12);
    expect(fit.chiSquare?.degreesOfFreedom).toBe(4);
  });

  it("fitNests(nests) refuses a turn of one nest, and of nests at one place", () => {
    expect(fitNests(nestsOf([[0, 0]], [[0, 0]], 0.01), { rotation: true })).toMatchObject({
      ok: false,
      problems: [{ what: "one nest tells no turn" }],
    });
    expect(
      fitNests(
        nestsOf(
          [
            [5, 5],
            [5, 5],
          ],
          [
            [0, 0],
            [1, 1],
          ],
          0.01,
        ),
        { rotation: true },
      ).ok,
    ).toBe(false);
    expect(must(fitNests(nestsOf([[0, 0]], [[1, 2]], 0.01), { rotation: false })).chiSquare).toBeUndefined();
  });
});

describe("nestGrid", () => {
  // "Second part in the same row: the pitch is 4.5000 and the pin readings say 4.4991" (inches): 4.4991 · 25.4 = 114.27714 mm; by hand.
  it("nestGrid(...) puts each nest its number of pitches along, with as many times the doubt of the pitch", () => {
    const grid = nestGrid({ columns: 4, rows: 2, pitch: [doubtful("pitch", 4.4991 * 25.4, 0.002), certain(80)], turn: certain(0) });
    expect(grid.map(({ column, row }) => `${column},${row}`)).toEqual(["1,1", "2,1", "3,1", "4,1", "1,2", "2,2", "3,2", "4,2"]);
    const [first, second, , fourth] = grid;
    expect(budgetOf(first?.shift[0] as Uncertain)).toMatchObject({ value: 0, standardUncertainty: 0 });
    expect(second?.shift[0].value).toBeCloseTo(114.277_14, 9);
    expect(budgetOf(fourth?.shift[0] as Uncertain).standardUncertainty).toBeCloseTo(0.006, 12);
    expect(grid[7]?.shift.map(({ value }) => value)).toEqual([expect.closeTo(342.831_42, 9), 80]);
    expect(correlation(budgetOf(second?.shift[0] as Uncertain), budgetOf(fourth?.shift[0] as Uncertain))).toBeCloseTo(1, 12);
  });

  // x' = x cos θ - y sin θ, y' = x sin θ + y cos θ; a quarter turn takes (100, 0) to (0, 100).
  it("nestGrid(...) turns the whole grid, anticlockwise", () => {
    const grid = nestGrid({ columns: 2, rows: 2, pitch: [certain(100), certain(50)], turn: certain(Math.PI / 2) });
    expect(grid.map(({ shift: [x, y] }) => [x.value, y.value])).toEqual(
      [
        [0, 0],
        [0, 100],
        [-50, 0],
        [-50, 100],
      ].map((pair) => pair.map((value) => expect.closeTo(value, 9))),
    );
  });

  it("nestGrid(...) refuses a grid of no columns", () => {
    expect(() => nestGrid({ columns: 0, rows: 1, pitch: [certain(1), certain(1)], turn: certain(0) })).toThrow(
      "columns: expected a whole number from 1, got 0",
    );
  });
});
