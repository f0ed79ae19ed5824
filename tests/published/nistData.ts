import { readFileSync } from "node:fs";

/** Rows of numbers of one of NIST's files in data/, from the given line (counted from 1) to the end. */
export function readRows(file: string, firstLine: number): readonly (readonly number[])[] {
  return readFileSync(new URL(`data/${file}`, import.meta.url), "utf8")
    .split(/\r?\n/)
    .slice(firstLine - 1)
    .filter((line) => line.trim() !== "")
    .map((line) => line.trim().split(/\s+/).map(Number));
}

/** Log relative error: how many leading digits agree; 16 when the two are equal. */
export function digitsAgreeing(computed: number | undefined, certified: number): number {
  if (computed === certified) return 16;
  return -Math.log10(Math.abs((computed ?? Number.NaN) - certified) / Math.abs(certified));
}

/** The digits reached, gathered while tests run and printed as one table at their end. */
export class DigitsReached {
  private readonly rows: Record<string, string>[] = [];

  /** Notes and returns the digits that agree. */
  of(dataset: string, quantity: string, computed: number | undefined, certified: number): number {
    const digits = digitsAgreeing(computed, certified);
    this.rows.push({ dataset, quantity, digits: digits.toFixed(1) });
    return digits;
  }

  print(): void {
    console.table(this.rows);
  }
}
