import { afterAll, describe, expect, it } from "vitest";
import { pooledStandardDeviation, summariseRepeats } from "../../lib/uncertainty/repeats.ts";
import { DigitsReached, digitsAgreeing, readRows } from "./nistData.ts";

// NIST StRD, Statistical Reference Datasets, univariate summary statistics and analysis of variance; the files in data/ are NIST's own,
// certified values in their headers.
const column = (file: string, firstLine: number, index = 0) => readRows(file, firstLine).map((row) => row[index] as number);

const reached = new DigitsReached();
afterAll(() => reached.print());

describe("NIST StRD, univariate", () => {
  // Certified values hold for the decimals as typed. A double holds 1000000.1 only to 6e-11, that is 6e-10 of the standard deviation 0.1, and
  // 2.0018 only to 2e-16, 5e-13 of the standard deviation 0.0004: the digits of the deviation that are missing here are not in the doubles.
  it.each([
    ["nist-michelso", "Michelso.dat", 31, 100, 299.8524, 0.0790105478190518, 13],
    ["nist-mavro", "Mavro.dat", 42, 50, 2.001856, 0.000429123454003053, 12.5],
    ["nist-numacc1", "NumAcc1.dat", 46, 3, 10_000_002, 1, 15],
    ["nist-numacc2", "NumAcc2.dat", 45, 1001, 1.2, 0.1, 14],
    ["nist-numacc3", "NumAcc3.dat", 44, 1001, 1_000_000.2, 0.1, 9],
  ])("%s: summariseRepeats(%s) has the certified mean and standard deviation", (_, file, firstLine, count, mean, deviation, digits) => {
    const summary = summariseRepeats(column(file, firstLine));
    expect(summary.count).toBe(count);
    expect(reached.of(file, "mean", summary.mean, mean)).toBeGreaterThanOrEqual(15);
    expect(reached.of(file, "standard deviation", summary.standardDeviation, deviation)).toBeGreaterThanOrEqual(digits);
  });

  // NumAcc4 has no file here: 10000000.2, then 500 times 10000000.1 and 10000000.3; certified mean 10000000.2 and standard deviation 0.1
  // (value from memory, recomputed).
  it("nist-numacc4: summariseRepeats(NumAcc4) has the certified mean and standard deviation, to the digits that the data hold as doubles", () => {
    const values = [10_000_000.2, ...Array.from({ length: 500 }, () => [10_000_000.1, 10_000_000.3]).flat()];
    const { mean, standardDeviation } = summariseRepeats(values);
    expect(reached.of("NumAcc4", "mean", mean, 10_000_000.2)).toBeGreaterThanOrEqual(15);
    expect(reached.of("NumAcc4", "standard deviation", standardDeviation, 0.1)).toBeGreaterThanOrEqual(8);
  });

  // As whole numbers of their last decimal the data are exact in doubles: only the computation is left to err.
  it.each([
    ["nist-michelso", column("Michelso.dat", 31), 100, 299.8524, 0.0790105478190518],
    ["nist-mavro", column("Mavro.dat", 42), 1e5, 2.001856, 0.000429123454003053],
    ["nist-numacc2", column("NumAcc2.dat", 45), 10, 1.2, 0.1],
    ["nist-numacc3", column("NumAcc3.dat", 44), 10, 1_000_000.2, 0.1],
    [
      "nist-numacc4",
      [1_000_000.2, ...Array.from({ length: 500 }, () => [1_000_000.1, 1_000_000.3]).flat()].map((x) => x + 9e6),
      10,
      10_000_000.2,
      0.1,
    ],
  ])("%s: summariseRepeats(whole numbers of the last decimal) loses no digit of its own", (id, values, unit, mean, deviation) => {
    const summary = summariseRepeats(values.map((value) => Math.round(value * unit)));
    expect(reached.of(`${id}, whole numbers`, "mean", summary.mean / unit, mean)).toBeGreaterThanOrEqual(15);
    expect(
      reached.of(`${id}, whole numbers`, "standard deviation", (summary.standardDeviation ?? 0) / unit, deviation),
    ).toBeGreaterThanOrEqual(14.5);
  });
});

// SiRstv: certified residual standard deviation 1.04076068334656E-01 with 20 degrees of freedom, within 5 instruments of 5 readings.
it("pooledStandardDeviation(SiRstv by instrument) is NIST's certified residual standard deviation", () => {
  const rows = readRows("SiRstv.dat", 61);
  const groups = [1, 2, 3, 4, 5].map((instrument) => rows.filter((row) => row[0] === instrument).map((row) => row[1] as number));
  const pooled = pooledStandardDeviation(groups);
  expect(pooled?.degreesOfFreedom).toBe(20);
  expect(digitsAgreeing(pooled?.standardDeviation, 1.04076068334656e-1)).toBeGreaterThanOrEqual(12.5);
});
