import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  addMatrix,
  entryOf,
  identity,
  type Matrix,
  matrix,
  matrixOf,
  multiply,
  pseudoInverse,
  rankOf,
  singularValues,
  transpose,
} from "../../lib/base/matrix.ts";

const runs = { numRuns: 200 };

function from(rows: readonly (readonly number[])[]): Matrix {
  return matrixOf(rows.length, rows[0]?.length ?? 0, (i, j) => rows[i]?.[j] ?? 0);
}

function largest({ entries }: Matrix): number {
  return entries.reduce((most, entry) => Math.max(most, Math.abs(entry)), 0);
}

function difference(a: Matrix, b: Matrix): number {
  return largest(addMatrix(a, -1, b));
}

/** Matrices of whole numbers, of any shape and often of less than full rank. */
const matrices = fc
  .record({ rows: fc.integer({ min: 1, max: 6 }), inner: fc.integer({ min: 1, max: 4 }), columns: fc.integer({ min: 1, max: 6 }) })
  .chain(({ rows, inner, columns }) => {
    const whole = (count: number) => fc.array(fc.integer({ min: -5, max: 5 }), { minLength: count, maxLength: count });
    return fc.tuple(whole(rows * inner), whole(inner * columns)).map(([left, right]) =>
      multiply(
        matrixOf(rows, inner, (i, j) => left[i * inner + j] as number),
        matrixOf(inner, columns, (i, j) => right[i * columns + j] as number),
      ),
    );
  });

const threshold = 1e-9;

describe("singularValues", () => {
  // tests/reference/singularValues.py, 60 digits.
  it.each([
    ["Hilbert 4", 4, [1.5002142800592428, 0.16914122022145003, 0.006738273605760748, 9.6702304022586886e-5]],
    [
      "Hilbert 6",
      6,
      [1.6188998589243391, 0.24236087057520955, 0.016321521319875822, 0.0006157483541826577, 1.2570757122625195e-5, 1.0827994845655498e-7],
    ],
    [
      "Hilbert 10",
      10,
      [
        1.7519196702651775, 0.3429295484835091, 0.035741816271639236, 0.0025308907686700381, 0.00012874961427637708, 4.7296892931823475e-6,
        1.228967738751175e-7, 2.1474388173504786e-9, 2.2667467477629255e-11, 1.0931538193796658e-13,
      ],
    ],
  ])("singularValues(%s) are right to the rounding of its entries", (_, size, expected) => {
    const { values } = singularValues(matrixOf(size, size, (i, j) => 1 / (i + j + 1)));
    expect(values.length).toBe(size);
    expected.forEach((value, i) => {
      // n ε times the largest: what the rounding of the entries alone may do.
      expect(Math.abs((values[i] as number) - value)).toBeLessThan(4e-15);
    });
  });

  it("singularValues(a Vandermonde matrix, and a wide one) are right", () => {
    const vandermonde = singularValues(matrixOf(6, 4, (i, k) => (i + 1) ** k)).values;
    [263.57048230416715, 8.4850223770288055, 1.2541790591973073, 0.17968889086730155].forEach((value, i) => {
      expect((vandermonde[i] as number) / value).toBeCloseTo(1, 12);
    });
    const wide = singularValues(
      from([
        [1, 2, 3, 4],
        [2, -1, 0, 5],
      ]),
    ).values;
    expect(wide[0]).toBeCloseTo(7.0710678118654752, 13);
    expect(wide[1]).toBeCloseTo(3.1622776601683793, 13);
    expect(Math.max(...wide.slice(2))).toBeLessThan(1e-14);
  });

  it("singularValues(orthogonal columns of very different length) keep the relative digits of the small ones", () => {
    // A rotation by 0.3, its columns stretched: the singular values are the stretches (closed form).
    const [c, s] = [Math.cos(0.3), Math.sin(0.3)];
    const { values } = singularValues(
      from([
        [c * 1e6, -s * 1e-12],
        [s * 1e6, c * 1e-12],
      ]),
    );
    expect((values[0] as number) / 1e6).toBeCloseTo(1, 14);
    expect((values[1] as number) / 1e-12).toBeCloseTo(1, 14);
  });

  it("singularValues(A) fall, are not negative, and put A together again from orthonormal vectors", () => {
    fc.assert(
      fc.property(matrices, (a) => {
        const { values, left, right } = singularValues(a);
        values.forEach((value, i) => {
          expect(value).toBeGreaterThanOrEqual(0);
          if (i > 0) expect(value).toBeLessThanOrEqual(values[i - 1] as number);
        });
        const scaled = matrixOf(left.rows, left.columns, (i, j) => entryOf(left, i, j) * (values[j] as number));
        expect(difference(multiply(scaled, transpose(right)), a)).toBeLessThan(1e-12 * (1 + largest(a)));
        expect(difference(multiply(transpose(right), right), identity(a.columns))).toBeLessThan(1e-13);
        const rank = rankOf({ values, left, right }, threshold);
        const firm = matrixOf(left.rows, rank, (i, j) => entryOf(left, i, j));
        expect(difference(multiply(transpose(firm), firm), identity(rank))).toBeLessThan(1e-12);
      }),
      runs,
    );
  });

  it("singularValues(nothing but zeros) are zeros", () => {
    expect([...singularValues(matrix(3, 2)).values]).toEqual([0, 0]);
    expect(rankOf(singularValues(matrix(3, 2)), 0)).toBe(0);
  });
});

describe("pseudoInverse", () => {
  it("pseudoInverse(A) meets the four conditions of Moore and Penrose", () => {
    fc.assert(
      fc.property(matrices, (a) => {
        const inverse = pseudoInverse(a, threshold);
        const left = multiply(a, inverse);
        const right = multiply(inverse, a);
        const scale = 1e-10 * (1 + largest(a)) * (1 + largest(inverse));
        expect(difference(multiply(left, a), a)).toBeLessThan(scale * (1 + largest(a)));
        expect(difference(multiply(right, inverse), inverse)).toBeLessThan(scale * (1 + largest(inverse)));
        expect(difference(left, transpose(left))).toBeLessThan(scale);
        expect(difference(right, transpose(right))).toBeLessThan(scale);
      }),
      runs,
    );
  });

  it("pseudoInverse(a regular matrix) is its inverse", () => {
    // Of [[4, 7], [2, 6]]: [[0.6, -0.7], [-0.2, 0.4]] (closed form).
    const inverse = pseudoInverse(
      from([
        [4, 7],
        [2, 6],
      ]),
      0,
    );
    expect([...inverse.entries]).toEqual([0.6, -0.7, -0.2, 0.4].map((value) => expect.closeTo(value, 14)));
  });

  it("pseudoInverse(A, a threshold above all singular values) is zero", () => {
    expect(largest(pseudoInverse(identity(3), 2))).toBe(0);
  });
});

describe("multiply and addMatrix", () => {
  it("multiply(a, b) and addMatrix(a, f, b) refuse shapes that do not fit", () => {
    expect(() => multiply(matrix(2, 3), matrix(2, 3))).toThrow("expected 3 rows on the right, got 2");
    expect(() => addMatrix(matrix(2, 3), 1, matrix(3, 2))).toThrow("expected 2 x 3, got 3 x 2");
  });

  it("multiply(a, b) transposed is multiply of the transposes in reverse", () => {
    fc.assert(
      fc.property(matrices, (a) => {
        const square = multiply(a, transpose(a));
        expect(difference(square, transpose(square))).toBe(0);
      }),
      runs,
    );
  });
});
