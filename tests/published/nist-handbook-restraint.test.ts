import { describe, expect, it } from "vitest";
import { entryOf, type Matrix, matrixOf, multiply, pseudoInverse } from "../../lib/base/matrix.ts";

// NIST/SEMATECH e-Handbook of Statistical Methods, 2.3.4: comparison designs solved by least squares with a restraint (seen). The library
// has no comparison designs; its matrices must still solve them.

interface Design {
  readonly rows: readonly (readonly number[])[];
  readonly restraint: readonly number[];
  readonly divisor: number;
  /** Linear drift of the comparator, one step per measurement. */
  readonly drift?: readonly number[];
}

/** Coefficients times divisor by which items (and, last, the drift) follow the measurements, with the restraint taken as exact. */
function solve({ rows, restraint, divisor, drift }: Design): Matrix {
  const items = restraint.length;
  const free = nullSpaceOf(restraint);
  const unknowns = free.length + (drift ? 1 : 0);
  const columns = matrixOf(rows.length, unknowns, (i, j) => {
    const direction = free[j];
    if (direction === undefined) return drift?.[i] ?? 0;
    return direction.reduce((sum, value, item) => sum + value * ((rows[i] as readonly number[])[item] as number), 0);
  });
  const back = matrixOf(items + (drift ? 1 : 0), unknowns, (item, j) =>
    item < items ? (free[j]?.[item] ?? 0) : j === free.length ? 1 : 0,
  );
  const solution = multiply(back, pseudoInverse(columns, 1e-9));
  return matrixOf(solution.rows, solution.columns, (i, j) => divisor * entryOf(solution, i, j));
}

/** Differences of the restrained items, and every other item alone. */
function nullSpaceOf(restraint: readonly number[]): number[][] {
  const restrained = restraint.flatMap((weight, item) => (weight === 0 ? [] : [item]));
  const unit = (item: number) => restraint.map((_, k) => (k === item ? 1 : 0));
  const others = restraint.flatMap((weight, item) => (weight === 0 ? [unit(item)] : []));
  const [first, ...more] = restrained as [number, ...number[]];
  return [...more.map((item) => unit(first).map((value, k) => value - (unit(item)[k] as number))), ...others];
}

const column = (solution: Matrix, measurement: number, items: number) =>
  Array.from({ length: items }, (_, item) => entryOf(solution, item, measurement));
const row = (solution: Matrix, item: number) => Array.from({ length: solution.columns }, (_, i) => entryOf(solution, item, i));
const close = (values: readonly number[]) => values.map((value) => expect.closeTo(value, 9));

function factorsOf(solution: Matrix, divisor: number, items: number): number[] {
  return Array.from({ length: items }, (_, item) => Math.hypot(...row(solution, item)) / divisor);
}

function expectFactors(found: readonly number[], printed: readonly number[]): void {
  printed.forEach((value, i) => {
    expect(Math.abs((found[i] as number) - value)).toBeLessThanOrEqual(6e-5);
  });
}

describe("NIST e-Handbook 2.3.4, designs with a restraint", () => {
  it("hb-mpc3411-111: 1, 1, 1 with the first as reference (2.3.4.1.1)", () => {
    const solution = solve({
      rows: [
        [1, -1, 0],
        [1, 0, -1],
        [0, 1, -1],
      ],
      restraint: [1, 0, 0],
      divisor: 3,
    });
    expect(row(solution, 1)).toEqual(close([-2, -1, 1]));
    expect(row(solution, 2)).toEqual(close([-1, -2, -1]));
    expectFactors(factorsOf(solution, 3, 3), [0, 0.8165, 0.8165]);
    const sum = row(solution, 1).map((value, i) => value + (row(solution, 2)[i] as number));
    expect((Math.hypot(...sum) / 3).toFixed(4)).toBe("1.4142");
  });

  it("hb-mpc3412-1111: 1, 1, 1, 1 with the sum of two references (2.3.4.1.2)", () => {
    const solution = solve({
      rows: [
        [1, -1, 0, 0],
        [1, 0, -1, 0],
        [1, 0, 0, -1],
        [0, 1, -1, 0],
        [0, 1, 0, -1],
        [0, 0, 1, -1],
      ],
      restraint: [1, 1, 0, 0],
      divisor: 8,
    });
    expect(column(solution, 5, 4)).toEqual(close([0, 0, 2, -2]));
    expectFactors(factorsOf(solution, 8, 4), [0.3536, 0.3536, 0.6124, 0.6124]);
    const check = row(solution, 0).map((value, i) => value - (row(solution, 1)[i] as number));
    expect((Math.hypot(...check) / 8).toFixed(4)).toBe("0.7071");
  });

  it("hb-mpc342c-4blocks: four gauge blocks with drift (2.3.4.2)", () => {
    const solution = solve({
      rows: [
        [1, -1, 0, 0],
        [-1, 0, 0, 1],
        [0, 0, 1, -1],
        [0, 1, -1, 0],
        [0, 1, 0, -1],
        [-1, 0, 0, 1],
        [1, 0, -1, 0],
        [0, -1, 1, 0],
      ],
      drift: [-7, -5, -3, -1, 1, 3, 5, 7],
      restraint: [1, 1, 0, 0],
      divisor: 168,
    });
    expect(row(solution, 0)).toEqual(close([35, -14, -7, -14, -21, -14, 21, 14]));
    expect(row(solution, 2)).toEqual(close([-7, 14, 35, -42, -7, 14, -49, 42]));
    expect(row(solution, 4)).toEqual(close([-7, -5, -3, -1, 1, 3, 5, 7]));
    expectFactors(factorsOf(solution, 168, 4), [0.3227, 0.3227, 0.5204, 0.5204]);
    const check = row(solution, 0).map((value, i) => value - (row(solution, 1)[i] as number));
    expectFactors([Math.hypot(...check) / 168], [0.6455]);
  });

  it("hb-mpc342d-design: five gauge blocks with drift (2.3.4.2)", () => {
    const drift = [-9, -7, -5, -3, -1, 1, 3, 5, 7, 9];
    const solution = solve({
      rows: [
        [1, -1, 0, 0, 0],
        [0, 1, -1, 0, 0],
        [0, 0, 1, -1, 0],
        [0, 0, 0, 1, -1],
        [-1, 0, 0, 0, 1],
        [-1, 0, 0, 1, 0],
        [0, 1, 0, -1, 0],
        [0, -1, 0, 0, 1],
        [0, 0, 1, 0, -1],
        [1, 0, -1, 0, 0],
      ],
      drift,
      restraint: [1, 1, 0, 0, 0],
      divisor: 330,
    });
    expect(column(solution, 0, 5)).toEqual(close([66, -66, 0, 0, 0]));
    expect(row(solution, 5)).toEqual(close(drift));
    expectFactors(factorsOf(solution, 330, 5), [0.3162, 0.3162, 0.5477, 0.5477, 0.5477]);
    const combined = (weights: readonly number[]) =>
      Math.hypot(...row(solution, 0).map((_, i) => weights.reduce((sum, weight, item) => sum + weight * entryOf(solution, item, i), 0))) /
      330;
    expectFactors([combined([0, 0, 1, 1, 0]), combined([0, 0, 1, 1, 1]), combined([1, -1, 0, 0, 0])], [0.8944, 1.2247, 0.6325]);
  });

  it("hb-mpc341f-5532111: 5, 5, 3, 2, 1, 1, 1 with the sum of the two fives (2.3.4.1)", () => {
    const solution = solve({
      rows: [
        [1, 0, -1, -1, 0, 0, 0],
        [0, 1, -1, -1, 0, 0, 0],
        [1, 0, 0, -1, -1, -1, -1],
        [0, 1, 0, -1, -1, -1, -1],
        [1, 0, -1, 0, -1, -1, 0],
        [1, 0, -1, 0, -1, 0, -1],
        [1, 0, -1, 0, 0, -1, -1],
        [0, 1, -1, 0, -1, -1, 0],
        [0, 1, -1, 0, -1, 0, -1],
        [0, 1, -1, 0, 0, -1, -1],
      ],
      restraint: [1, 1, 0, 0, 0, 0, 0],
      divisor: 10,
    });
    expect(column(solution, 0, 7)).toEqual(close([1, -1, -2, -3, 1, 1, 1]));
    expect(column(solution, 4, 7)).toEqual(close([1, -1, -1, 1, -2, -2, 3]));
    expectFactors(factorsOf(solution, 10, 7), [0.3162, 0.3162, 0.469, 0.5657, 0.6164, 0.6164, 0.6164]);
  });
});
