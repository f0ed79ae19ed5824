import { capitalise } from "../base/capitalise.ts";
import { listText } from "../base/listText.ts";
import type { Disagreement, Explanation } from "../slips/explain/explainDisagreement.ts";
import { staleShift } from "../slips/rules/staleShift.ts";
import type { SlipFinding } from "../slips/slipRule.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { figuresIn } from "./internals/figures.ts";

/** A finding as two sentences: what was seen and what it suggests, and the reading that would decide. */
export function findingSentence({ evidence, suggests, deciding }: SlipFinding): string {
  return `${capitalise(evidence)}: ${suggests}. To decide: ${deciding}.`;
}

/** What is not told among the open problems already: events that no check has answered and shifts that are on are. */
export function untoldFindings<F extends SlipFinding & { readonly rule: string }>(findings: readonly F[]): F[] {
  return findings.filter(({ at, rule }) => !at.startsWith("events.") && rule !== staleShift.name);
}

/** The explanation as a clause: what would have happened, one slip after the other. */
export function explanationWords({ slips }: Pick<Explanation, "slips">): string {
  return slips.length === 0 ? "nothing slipped, and doubt alone is to blame" : listText(slips.map(({ words }) => words));
}

/** Of all explanations that were tried, in per cent. */
export function shareText(share: number): string {
  if (share > 0.999) return "> 99.9 %";
  return share < 0.001 ? "< 0.1 %" : `${formatFixed(100 * share, 1)} %`;
}

/** That evidence disagrees, what of it, and the touch that would decide. */
export function disagreementSentences({ chance, discrepancies, explanations, deciding }: Disagreement, unit: "mm" | "inch"): string[] {
  const figures = figuresIn(unit);
  const worst = discrepancies.filter(({ estimate }) => Math.abs(estimate.value) > 2 * estimate.standardUncertainty);
  const told = (worst.length > 0 ? worst : discrepancies).map(
    ({ name, estimate }) =>
      `${name} ${figures.length(estimate.value)} ${figures.unit} (u ${figures.uncertainty(estimate.standardUncertainty)})`,
  );
  const first = `The evidence disagrees by more than doubt explains (${chance < 1e-6 ? "less than one setup in a million" : `chance ${shareText(chance)}`}): ${listText(told)}.`;
  if (deciding === undefined)
    return [first, `No single touch with the tools in use would tell the likeliest explanations apart.${again(explanations[0])}`];
  const [one, other] = deciding.between.map((i) => explanations[i]);
  const readings = [one, other].map((each) => (each?.reading === undefined ? "" : `${figures.length(each.reading)} ${figures.unit}`));
  return [
    first,
    `To decide, touch "${deciding.element}" with "${deciding.tool}", travelling ${deciding.travelling}: the display shows ${readings[0]} if ${one && explanationWords(one)}, and ${readings[1]} if ${other && explanationWords(other)} (u ${figures.uncertainty(deciding.standardUncertainty)} ${figures.unit}).`,
  ];
}

/** Where the likeliest slip was made at one reading, that reading taken anew says whether there was one. */
function again(explanation: Explanation | undefined): string {
  const [, kind, name] = /^(touches|checks)\.(.+)$/u.exec(explanation?.slips[0]?.at ?? "") ?? [];
  return name === undefined
    ? ""
    : ` Whichever it was, ${kind === "checks" ? "check" : "touch"} "${name}" taken once more shows whether it goes away.`;
}
