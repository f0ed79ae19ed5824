import type { Evidence } from "../../uncertainty/source.ts";
import { plainNumber } from "./plainNumber.ts";

/** What a source rests on as plain data: JSON has no word for a ratio without end, or of nothing to nothing. */
export function plainEvidence(evidence: Evidence) {
  if (evidence.kind !== "measured" || evidence.groups === undefined) return evidence;
  const { ratio, chance, ...groups } = evidence.groups;
  const number = (value: number) => (Number.isNaN(value) ? null : plainNumber(value));
  return { ...evidence, groups: { ...groups, ratio: number(ratio), chance: number(chance) } };
}
