import { entryOf, type Matrix, matrix, matrixOf, multiply, pseudoInverse, transpose } from "../../base/matrix.ts";
import type { Problem } from "../../base/outcome.ts";
import { correlationEigen } from "./correlationEigen.ts";

/**
 * What is wrong with stated correlation coefficients, and with which of the named quantities; nothing when they form a correlation matrix.
 *
 * @param labels of the quantities, in the order of the rows
 */
export function checkCoefficients(labels: readonly string[], coefficients: readonly (readonly number[])[]): Problem[] {
  const size = labels.length;
  if (coefficients.length !== size || coefficients.some((row) => row.length !== size))
    return [
      problem(
        `${size} sources need as many rows and columns of coefficients`,
        `${size} x ${size}`,
        `rows of ${coefficients.map((row) => row.length).join(", ")}`,
        "state one coefficient for every two sources, and 1 for each with itself",
      ),
    ];
  const entries = entryProblems(labels, coefficients);
  return size === 0 || entries.length > 0
    ? entries
    : signProblems(
        labels,
        matrixOf(size, size, (i, j) => coefficients[i]?.[j] as number),
      );
}

function entryProblems(labels: readonly string[], coefficients: readonly (readonly number[])[]): Problem[] {
  return labels.flatMap((label, i) =>
    labels.slice(0, i + 1).flatMap((other, j): Problem[] => {
      const entry = coefficients[i]?.[j] as number;
      const mirrored = coefficients[j]?.[i] as number;
      if (i === j)
        return entry === 1
          ? []
          : [problem(`the coefficient of ${quoted(label)} with itself is 1`, "1", `${entry}`, "put 1 on the diagonal")];
      const pair = `the coefficient of ${quoted(other)} and ${quoted(label)}`;
      for (const value of [mirrored, entry])
        if (!(Math.abs(value) <= 1)) return [problem(`${pair} is no correlation coefficient`, "from -1 to 1", `${value}`, "correct it")];
      return entry === mirrored
        ? []
        : [
            problem(
              `${pair} is stated twice, differently`,
              "the same number in both places",
              `${mirrored} and ${entry}`,
              "state it once more",
            ),
          ];
    }),
  );
}

function signProblems(labels: readonly string[], coefficients: Matrix): Problem[] {
  const { values, vectors, rounding } = correlationEigen(coefficients);
  const last = values.length - 1;
  const least = values[last] as number;
  if (least >= -rounding) return [];
  const direction = labels.map((_, i) => entryOf(vectors, i, last));
  const largest = Math.max(...direction.map(Math.abs));
  const involved = labels.flatMap((_, i) => (Math.abs(direction[i] as number) >= noticed * largest ? [i] : []));
  const names = involved.map((i) => quoted(labels[i] as string)).join(", ");
  const ranges = possibleRanges(labels, coefficients, involved);
  const mended =
    ranges.length === 0
      ? "no single coefficient can mend it"
      : `given the others, ${ranges.slice(0, mostTold).join(", or ")} would be possible`;
  return [
    problem(
      `no quantities can be correlated like this: some sum of ${names} would have a variance below zero; ${mended}`,
      "no eigenvalue below 0",
      rounded(least),
      "correct the coefficients of these sources; ones given to few digits may need another digit",
    ),
  ];
}

/** Coefficients that can mend the matrix alone, and how. */
function possibleRanges(labels: readonly string[], coefficients: Matrix, involved: readonly number[]): string[] {
  return involved.flatMap((i, place) =>
    involved.slice(place + 1).flatMap((j) => {
      const range = possibleRange(coefficients, i, j);
      if (range === undefined) return [];
      return [
        `${rounded(range[0])} to ${rounded(range[1])} in place of ${rounded(entryOf(coefficients, i, j))} for ${quoted(labels[i] as string)} and ${quoted(labels[j] as string)}`,
      ];
    }),
  );
}

/**
 * The range of one coefficient that leaves the matrix positive semidefinite, given all others; undefined where there is none. With B the rows
 * of i and j against the rest R: B R⁺ Bᵀ is what the rest explains, and the determinant of what it leaves must not be negative (Schur
 * complement; the range of a partial correlation from -1 to 1).
 */
function possibleRange(coefficients: Matrix, i: number, j: number): readonly [number, number] | undefined {
  const size = coefficients.rows;
  const rest = Array.from({ length: size }, (_, k) => k).filter((k) => k !== i && k !== j);
  const restMatrix = matrixOf(rest.length, rest.length, (a, b) => entryOf(coefficients, rest[a] as number, rest[b] as number));
  const rows = matrixOf(2, rest.length, (a, b) => entryOf(coefficients, a === 0 ? i : j, rest[b] as number));
  let explained = matrix(2, 2);
  if (rest.length > 0) {
    const { values, rounding } = correlationEigen(restMatrix);
    if ((values[rest.length - 1] as number) < -rounding) return undefined;
    const weights = multiply(rows, pseudoInverse(restMatrix, dependent));
    const recovered = multiply(weights, restMatrix);
    if (recovered.entries.some((entry, k) => Math.abs(entry - (rows.entries[k] as number)) > dependent)) return undefined;
    explained = multiply(weights, transpose(rows));
  }
  const [ii, ij, , jj] = explained.entries as unknown as readonly [number, number, number, number];
  if (ii > 1 + dependent || jj > 1 + dependent) return undefined;
  const room = Math.sqrt(Math.max(0, 1 - ii) * Math.max(0, 1 - jj));
  return [ij - room, ij + room];
}

/** Sources with a smaller part than this of the largest in the direction of a negative variance have no part in the contradiction. */
const noticed = 0.1;

/** Of the coefficients that could be wrong: a person needs a hint, not all of them. */
const mostTold = 3;

/** Singular values of coefficients up to this are zero. */
const dependent = 1e-9;

function problem(what: string, expected: string, got: string, remedy: string): Problem {
  return { at: "coefficients", what, expected, got, remedy };
}

function quoted(label: string): string {
  return `"${label}"`;
}

/** Digits enough to correct a coefficient by. */
function rounded(value: number): string {
  return String(Number(value.toPrecision(4)));
}
