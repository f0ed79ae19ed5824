import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { pooledStandardDeviation, summariseRepeats } from "../../lib/uncertainty/repeats.ts";

// NIST StRD, Statistical Reference Datasets, univariate summary statistics and analysis of variance; the files in data/ are NIST's own,
// certified values in their headers.

function read(file: string, firstLine: number, column: number): readonly number[] {
  const lines = readFileSync(new URL(`data/${file}`, import.meta.url), "utf8")
    .split(/\r?\n/)
    .slice(firstLine - 1);
  return lines.filter((line) => line.trim() !== "").map((line) => Number(line.trim().split(/\s+/)[column]));
}

/** Log relative error: how many leading digits agree; 16 when the two are equal. */
function digitsAgreeing(computed: number | undefined, certified: number): number {
  if (computed === certified) return 16;
  return -Math.log10(Math.abs((computed ?? Number.NaN) - certified) / Math.abs(certified));
}

/** Exact decimals as typed, for which the certified values hold; a double cannot hold 1000000.1, which costs digits of the deviation alone. */
it.each([
  ["Michelso.dat", 31, 100, 299.8524, 0.0790105478190518, 13],
  ["Mavro.dat", 42, 50, 2.001856, 0.000429123454003053, 12.5],
  ["NumAcc1.dat", 46, 3, 10_000_002, 1, 15],
  ["NumAcc2.dat", 45, 1001, 1.2, 0.1, 14],
  ["NumAcc3.dat", 44, 1001, 1_000_000.2, 0.1, 9],
])("summariseRepeats(%s) has NIST's certified mean and standard deviation", (file, firstLine, count, mean, deviation, digits) => {
  const summary = summariseRepeats(read(file, firstLine, 0));
  expect(summary.count).toBe(count);
  expect(digitsAgreeing(summary.mean, mean)).toBeGreaterThanOrEqual(15);
  expect(digitsAgreeing(summary.standardDeviation, deviation)).toBeGreaterThanOrEqual(digits);
});

// NumAcc4 has no file here: 10000000.2, then 500 times 10000000.1 and 10000000.3; certified mean 10000000.2 and standard deviation 0.1
// (value from memory, recomputed).
it("summariseRepeats(NumAcc4) has NIST's certified mean and standard deviation, to the digits that the data hold as doubles", () => {
  const values = [10_000_000.2, ...Array.from({ length: 500 }, () => [10_000_000.1, 10_000_000.3]).flat()];
  const { mean, standardDeviation } = summariseRepeats(values);
  expect(digitsAgreeing(mean, 10_000_000.2)).toBeGreaterThanOrEqual(15);
  expect(digitsAgreeing(standardDeviation, 0.1)).toBeGreaterThanOrEqual(8);
});

/** In tenths the values of NumAcc3 and NumAcc4 are integers, which doubles hold exactly: only the computation is left to err. */
it.each([
  ["NumAcc3", 10_000_002, 1_000_000.2],
  ["NumAcc4", 100_000_002, 10_000_000.2],
])("summariseRepeats(%s in tenths) loses no digit of its own", (_, middle, mean) => {
  const values = [middle, ...Array.from({ length: 500 }, () => [middle - 1, middle + 1]).flat()];
  const summary = summariseRepeats(values);
  expect(digitsAgreeing(summary.mean / 10, mean)).toBeGreaterThanOrEqual(15);
  expect(digitsAgreeing((summary.standardDeviation ?? 0) / 10, 0.1)).toBeGreaterThanOrEqual(15);
});

// SiRstv: certified residual standard deviation 1.04076068334656E-01 with 20 degrees of freedom, within 5 instruments of 5 readings.
it("pooledStandardDeviation(SiRstv by instrument) is NIST's certified residual standard deviation", () => {
  const instruments = read("SiRstv.dat", 61, 0);
  const resistances = read("SiRstv.dat", 61, 1);
  const groups = [1, 2, 3, 4, 5].map((instrument) => resistances.filter((_, index) => instruments[index] === instrument));
  const pooled = pooledStandardDeviation(groups);
  expect(pooled?.degreesOfFreedom).toBe(20);
  expect(digitsAgreeing(pooled?.standardDeviation, 1.04076068334656e-1)).toBeGreaterThanOrEqual(12.5);
});
