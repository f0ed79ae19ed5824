import type { ReadingGroups } from "./source.ts";

/** What tells whether groups of readings differ, in a few words: `F = 2.3, chance by scatter alone 4 %`. */
export function groupsInWords({ ratio, chance }: Pick<ReadingGroups, "ratio" | "chance">): string {
  if (Number.isNaN(ratio)) return "all readings are alike";
  const ofRatio = ratio === Number.POSITIVE_INFINITY ? "no scatter within the groups" : `F = ${Number(ratio.toPrecision(3))}`;
  const percent = 100 * chance;
  return `${ofRatio}, chance by scatter alone ${percent < 0.01 ? "below 0.01" : Number(percent.toPrecision(2))} %`;
}
