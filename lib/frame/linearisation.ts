import { addMatrix, entryOf, identity, type Matrix, matrix, matrixOf, multiply, pseudoInverse, singularValues } from "../base/matrix.ts";
import type { ContactResidual } from "./contactResidual.ts";

/** Singular values up to this (columns are scaled to order 1) count as a motion that no contact limits. */
const rankTolerance = 1e-9;

/**
 * The contacts' equations, linear about one pose. The unknowns fall in two
 * kinds: firm ones (pose and free sizes), found from the contacts alone, and
 * soft ones (preferred sizes), which keep to their given values as far as the
 * contacts allow. Columns are scaled so that one unit of every unknown moves a
 * contact by about a millimetre.
 */
export interface Linearisation {
  readonly residuals: readonly ContactResidual[];
  /** Unknown numbers of the firm and of the soft unknowns. */
  readonly firm: readonly number[];
  readonly soft: readonly number[];
  /** contacts × firm, and contacts × soft. */
  readonly firmColumns: Matrix;
  readonly softColumns: Matrix;
  /** What one scaled unit of an unknown is: mm, or radians for the rotation. */
  readonly units: Float64Array;
  /** Least-squares answer of the firm unknowns to residuals: firm × contacts. */
  readonly firmResponse: Matrix;
  /** Answer of the soft unknowns to what the firm ones cannot take up: soft × contacts. */
  readonly softResponse: Matrix;
}

export function lineariseContacts(
  residuals: readonly ContactResidual[],
  firm: readonly number[],
  soft: readonly number[],
  units: Float64Array,
): Linearisation {
  const firmColumns = columnsOf(residuals, firm, units);
  const softColumns = columnsOf(residuals, soft, units);
  const firmResponse = pseudoInverse(firmColumns, rankTolerance);
  return {
    residuals,
    firm,
    soft,
    firmColumns,
    softColumns,
    units,
    firmResponse,
    softResponse: softResponseOf(firmColumns, firmResponse, softColumns),
  };
}

/** The residuals' derivatives by the unknowns, scaled: contacts × unknowns. */
export function columnsOf(residuals: readonly ContactResidual[], unknowns: readonly number[], units: Float64Array): Matrix {
  return matrixOf(residuals.length, unknowns.length, (i, k) => {
    const unknown = unknowns[k] as number;
    return ((residuals[i] as ContactResidual).gradient[unknown] as number) * (units[unknown] as number);
  });
}

/** The same without the contacts' weights: what the contacts can tell does not depend on how much they count. */
export function unweightedColumnsOf(residuals: readonly ContactResidual[], unknowns: readonly number[], units: Float64Array): Matrix {
  return matrixOf(residuals.length, unknowns.length, (i, k) => {
    const unknown = unknowns[k] as number;
    const { gradient, byReach } = residuals[i] as ContactResidual;
    return (-(gradient[unknown] as number) / byReach) * (units[unknown] as number);
  });
}

/** Directions in which the unknowns can move without any contact noticing, in scaled units, one array per free motion. */
export function freeDirections(columns: Matrix, tolerance = rankTolerance): Float64Array[] {
  const { values, right } = singularValues(columns);
  const directions: Float64Array[] = [];
  values.forEach((value, k) => {
    if (value <= tolerance) directions.push(Float64Array.from({ length: columns.columns }, (_, i) => entryOf(right, i, k)));
  });
  return directions;
}

/** What one unknown does to the contacts that no others can do: the length of what is left of its column beside theirs. */
export function ownEffect(columns: Matrix, unknown: number): number {
  const others = matrixOf(columns.rows, columns.columns - 1, (i, k) => entryOf(columns, i, k < unknown ? k : k + 1));
  const own = matrixOf(columns.rows, 1, (i) => entryOf(columns, i, unknown));
  const left = addMatrix(own, -1, multiply(others, multiply(pseudoInverse(others, rankTolerance), own)));
  return Math.hypot(...left.entries);
}

function softResponseOf(firmColumns: Matrix, firmResponse: Matrix, softColumns: Matrix): Matrix {
  if (softColumns.columns === 0) return matrix(0, firmColumns.rows);
  const leftOver = addMatrix(identity(firmColumns.rows), -1, multiply(firmColumns, firmResponse));
  const largest = softColumns.entries.reduce((most, entry) => Math.max(most, Math.abs(entry)), 0);
  return multiply(pseudoInverse(multiply(leftOver, softColumns), rankTolerance * largest), leftOver);
}
