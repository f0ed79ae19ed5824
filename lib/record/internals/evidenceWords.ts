import type { Stack } from "../../tolerance/stack.ts";
import type { Evidence } from "../../uncertainty/source.ts";
import { inGroups } from "../evidenceInWords.ts";

/** What a figure rests on, as a sentence names it. */
export const evidenceWords: Readonly<Record<Evidence["kind"], string>> = {
  measured: "repeats taken here",
  certificate: "certificates",
  published: "published figures",
  drawing: "the drawing's own limits",
  "shop default": "shop defaults",
  stated: "figures stated without evidence",
};

/** The class of what one source rests on, as a table names it. What was only stated is a guess until somebody says what it rests on. */
export function evidenceClass(evidence: Evidence): string {
  switch (evidence.kind) {
    case "measured":
      return `measured, n = ${evidence.readings}${inGroups(evidence.groups)}`;
    case "certificate":
    case "published":
      return evidence.note === "" ? evidence.kind : `${evidence.kind}: ${evidence.note}`;
    case "drawing":
      return evidence.note === undefined ? "limits of the drawing" : `limits of the drawing, ${evidence.note}`;
    case "shop default":
      return "shop default";
    case "stated":
      return "guess: stated without evidence";
  }
}

/** Shares of the variance by what they rest on, largest first; undefined where nothing is in doubt. */
export function varianceByEvidence({ rows }: Stack): { words: string; share: number }[] | undefined {
  const squares = new Map<string, number>();
  for (const { source, amounts } of rows) {
    const words = evidenceWords[source.evidence.kind];
    squares.set(
      words,
      amounts.reduce((total, amount) => total + amount * amount, squares.get(words) ?? 0),
    );
  }
  const total = [...squares.values()].reduce((sum, square) => sum + square, 0);
  if (!(total > 0)) return undefined;
  return [...squares].map(([words, square]) => ({ words, share: square / total })).sort((a, b) => b.share - a.share);
}
