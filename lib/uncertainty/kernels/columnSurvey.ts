import { blockSize } from "../trials/blockWords.ts";

/** Of the values in a column, for z = (value - centre) · perScale; sums that are no numbers tell that a value is none. */
export interface ColumnSurvey {
  readonly sum: number;
  readonly squares: number;
  readonly least: number;
  readonly most: number;
}

/** Four sums side by side, put together at the end: no addition waits for the one before it. The length is a multiple of four. */
export function surveyColumn(column: Float64Array, centre: number, perScale: number): ColumnSurvey {
  let [sumA, sumB, sumC, sumD] = [0, 0, 0, 0];
  let [squaresA, squaresB, squaresC, squaresD] = [0, 0, 0, 0];
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < column.length; i += 4) {
    const a = column[i] as number;
    const b = column[i + 1] as number;
    const c = column[i + 2] as number;
    const d = column[i + 3] as number;
    const za = (a - centre) * perScale;
    const zb = (b - centre) * perScale;
    const zc = (c - centre) * perScale;
    const zd = (d - centre) * perScale;
    sumA += za;
    sumB += zb;
    sumC += zc;
    sumD += zd;
    squaresA += za * za;
    squaresB += zb * zb;
    squaresC += zc * zc;
    squaresD += zd * zd;
    if (a < least) least = a;
    if (a > most) most = a;
    if (b < least) least = b;
    if (b > most) most = b;
    if (c < least) least = c;
    if (c > most) most = c;
    if (d < least) least = d;
    if (d > most) most = d;
  }
  return { sum: sumA + sumB + (sumC + sumD), squares: squaresA + squaresB + (squaresC + squaresD), least, most };
}

const cells = new Int32Array(blockSize);

/** The column is no longer than a block. */
export function cellsOfColumn(column: Float64Array, middle: number, centre: number, perUnit: number): Int32Array {
  for (let i = 0; i < column.length; i++) cells[i] = middle + ((column[i] as number) - centre) * perUnit;
  return cells.subarray(0, column.length);
}
