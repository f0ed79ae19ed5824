import { groupsInWords } from "../uncertainty/groupsInWords.ts";
import type { Evidence, ReadingGroups } from "../uncertainty/source.ts";

/** What a source's numbers rest on, as a budget lists it. */
export function evidenceInWords(evidence: Evidence): string {
  switch (evidence.kind) {
    case "measured":
      return `${evidence.readings} readings${inGroups(evidence.groups)}`;
    case "certificate":
    case "published":
      return evidence.note === "" ? evidence.kind : `${evidence.kind}: ${evidence.note}`;
    default:
      return evidence.kind;
  }
}

/** Behind the number of readings: in how many groups they were taken, and whether these differ; empty where they were taken in one. */
export function inGroups(groups: ReadingGroups | undefined): string {
  if (groups === undefined) return "";
  const verdict = groups.differ ? "that differ" : "that do not differ more than readings scatter";
  return ` in ${groups.sizes.length} groups ${verdict} (${groupsInWords(groups)})`;
}
