import { compensatedSum } from "../base/compensatedSum.ts";
import { summariseRepeats } from "./repeats.ts";
import { fisherUpperTail } from "./special/fisherF.ts";

/** What is known of one group (a day, a clamping): repeats under the same conditions. */
export interface GroupSummary {
  /** At least 1. */
  readonly count: number;
  readonly mean: number;
  /** Experimental standard deviation of one reading of the group; nothing for a single reading. */
  readonly standardDeviation: number | undefined;
}

/** A mean and what is known of its doubt. */
export interface GroupedMean {
  readonly mean: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
}

/** What readings in groups tell of the scatter within a group and between them (JCGM 100, H.5). */
export interface OneWayAnalysis {
  readonly groups: number;
  /** Of all groups together. */
  readonly count: number;
  /** Of the groups' means about the mean of all readings, each counted as often as it has readings; J − 1 degrees of freedom. */
  readonly between: SumOfSquares;
  /** Of the readings about the mean of their group; N − J degrees of freedom. */
  readonly within: SumOfSquares;
  /** F, mean square between by mean square within; `Infinity` where nothing scatters within, NaN where nothing scatters at all. */
  readonly ratio: number;
  /** Chance of such a ratio, or a larger one, when the groups do not differ and all readings are normal. */
  readonly chanceOfRatio: number;
  /** s_B, what the groups themselves differ by (JCGM 100:2008, H.5.2); 0 where the readings within explain all of it. */
  readonly standardDeviationBetween: number;
  /** When the groups differ: the mean of their means, s(x̄ⱼ)/√J with J − 1 (JCGM 100:2008, H.5.2). */
  readonly whenGroupsDiffer: GroupedMean;
  /** When they do not: the mean of all readings, all in one, with N − 1 (JCGM 100:2008, H.5.2). */
  readonly whenGroupsAgree: GroupedMean;
}

export interface SumOfSquares {
  readonly sumOfSquares: number;
  readonly degreesOfFreedom: number;
  /** Sum of squares by degrees of freedom: s_a² between, s_b² within. */
  readonly meanSquare: number;
}

/**
 * One-way analysis of variance: do readings differ more from group to group than within (JCGM 100:2008, H.5)?
 *
 * @param groups readings by group: at least two groups, none empty, one of them with two readings or more
 * @throws RangeError otherwise, or if a reading is not finite
 */
export function oneWayAnalysis(groups: readonly (readonly number[])[]): OneWayAnalysis {
  const empty = groups.findIndex((group) => group.length === 0);
  if (empty >= 0) throw new RangeError(`groups[${empty}]: expected at least one reading, got none`);
  // Counted from one of the readings: means of readings that differ in the last decimal keep their digits.
  const origin = groups[0]?.[0] ?? 0;
  const analysis = oneWayAnalysisOfSummaries(groups.map((group) => summariseRepeats(group.map((reading) => reading - origin))));
  const moved = (grouped: GroupedMean): GroupedMean => ({ ...grouped, mean: origin + grouped.mean });
  return { ...analysis, whenGroupsDiffer: moved(analysis.whenGroupsDiffer), whenGroupsAgree: moved(analysis.whenGroupsAgree) };
}

/**
 * The same from the groups' means and standard deviations, where a record holds no more.
 *
 * @throws RangeError for fewer than two groups, a count that is not whole or below 1, no group with two readings, or a mean or standard deviation that is not finite (or missing with two readings)
 */
export function oneWayAnalysisOfSummaries(groups: readonly GroupSummary[]): OneWayAnalysis {
  if (groups.length < 2) throw new RangeError(`groups: expected at least two, got ${groups.length}`);
  groups.forEach(checkGroup);
  const count = groups.reduce((total, group) => total + group.count, 0);
  const within = sumOfSquares(
    groups.map((group) => (group.count - 1) * (group.standardDeviation ?? 0) ** 2),
    count - groups.length,
  );
  if (count === groups.length) throw new RangeError("groups: expected at least one with two readings or more, got single readings only");
  const origin = groups[0]?.mean as number;
  const meanOfAll = total(groups.map(({ count: readings, mean }) => readings * (mean - origin))) / count;
  const between = sumOfSquares(
    groups.map(({ count: readings, mean }) => readings * (mean - origin - meanOfAll) ** 2),
    groups.length - 1,
  );
  const ratio = between.meanSquare / within.meanSquare;
  const means = summariseRepeats(groups.map(({ mean }) => mean));
  // What the mean square between holds of each group's own variance: K for groups of K readings (S. R. Searle, Linear Models, 1971, on the one-way classification).
  const share = (count - groups.reduce((sum, group) => sum + group.count ** 2, 0) / count) / between.degreesOfFreedom;
  return {
    groups: groups.length,
    count,
    between,
    within,
    ratio,
    chanceOfRatio: Number.isNaN(ratio) ? Number.NaN : fisherUpperTail(ratio, between.degreesOfFreedom, within.degreesOfFreedom),
    standardDeviationBetween: Math.sqrt(Math.max(0, between.meanSquare - within.meanSquare) / share),
    whenGroupsDiffer: {
      mean: means.mean,
      standardUncertainty: means.standardUncertaintyOfMean as number,
      degreesOfFreedom: between.degreesOfFreedom,
    },
    whenGroupsAgree: {
      mean: origin + meanOfAll,
      standardUncertainty: Math.sqrt((between.sumOfSquares + within.sumOfSquares) / (count - 1) / count),
      degreesOfFreedom: count - 1,
    },
  };
}

function checkGroup({ count, mean, standardDeviation }: GroupSummary, index: number): void {
  if (!(Number.isInteger(count) && count >= 1))
    throw new RangeError(`groups[${index}].count: expected a whole number above 0, got ${count}`);
  if (!Number.isFinite(mean)) throw new RangeError(`groups[${index}].mean: expected a finite number, got ${mean}`);
  if (standardDeviation === undefined ? count > 1 : !(standardDeviation >= 0 && standardDeviation < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`groups[${index}].standardDeviation: expected finite and >= 0, got ${standardDeviation}`);
  }
}

function sumOfSquares(squares: readonly number[], degreesOfFreedom: number): SumOfSquares {
  const sum = total(squares);
  return { sumOfSquares: sum, degreesOfFreedom, meanSquare: sum / degreesOfFreedom };
}

function total(terms: readonly number[]): number {
  const { sum, error } = compensatedSum(terms);
  return sum + error;
}
