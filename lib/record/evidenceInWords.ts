import type { Evidence } from "../uncertainty/source.ts";

/** What a source's numbers rest on, as a budget lists it. */
export function evidenceInWords(evidence: Evidence): string {
  switch (evidence.kind) {
    case "measured":
      return `${evidence.readings} readings`;
    case "certificate":
    case "published":
      return evidence.note === "" ? evidence.kind : `${evidence.kind}: ${evidence.note}`;
    default:
      return evidence.kind;
  }
}
