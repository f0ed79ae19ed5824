import type { SampledChance } from "../../tolerance/chanceOfAll.ts";
import { formatFixed } from "../../uncertainty/roundForReport.ts";

/** A chance in per cent with two decimals. What rounds to all or nothing is told as a bound: nothing here is certain. */
export function chanceText(chance: number): string {
  if (chance >= 1 - smallest) return "above 99.99 %";
  if (chance < smallest) return "below 0.01 %";
  return `${formatFixed(100 * chance, 2)} %`;
}

/** The same for a table, where room is short. */
export function chanceCell(chance: number): string {
  return chanceText(chance).replace("above ", ">").replace("below ", "<");
}

/** The same with the standard error of the trials where there is one that shows. */
export function sampledChanceText({ chance, standardError, trials }: SampledChance): string {
  const error = formatFixed(100 * standardError, 2);
  return Number(error) > 0 ? `${chanceText(chance)} (standard error ${error} % from ${trials} trials)` : chanceText(chance);
}

/** A share of a tolerance in whole per cent; how much more than a hundred times it is, is of no use to anybody. */
export function shareText(share: number): string {
  return share > 100 ? ">9999 %" : `${formatFixed(100 * share, 0)} %`;
}

/** Half of the last digit shown. */
const smallest = 0.00005;
