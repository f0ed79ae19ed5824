import { listText } from "../../base/listText.ts";
import { axes } from "../../base/vector.ts";
import type { Contact } from "../../contacts/contact.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../../decision/setupEvaluation.ts";
import { type Agreement, disagreeBelow } from "../../frame/agreement.ts";
import { formatFixed } from "../../uncertainty/roundForReport.ts";
import type { JudgementSentence } from "../judgementSentences.ts";
import { strategyInUse } from "../strategyInUse.ts";
import type { Figures } from "./figures.ts";

/** How well the zero in use is known, and whether the touches that are more than just enough bear that out. */
export function agreementSentences(evaluation: SetupEvaluation, figures: Figures): JudgementSentence[] {
  const inUse = strategyInUse(evaluation);
  const solution = inUse?.evaluation.solution;
  const own = solution?.frame.agreement;
  const { thisPart, counted } = evaluation.location;
  const all = thisPart.ok ? thisPart.value.agreement : undefined;
  const unseen = solution?.seated && !solution.strategy.fixtureFrame ? ` ${onFixture}` : "";
  const doubts = inUse === undefined ? [] : expandedUncertainties(inUse.evaluation.zero, figures);
  const sentences: JudgementSentence[] = [];
  if (inUse !== undefined && solution !== undefined && doubts.length > 0) {
    const at = `strategies.${inUse.evaluation.id}`;
    const zero = `The expanded uncertainty of the zero of "${inUse.evaluation.id}" is ${listText(doubts)} ${figures.unit}`;
    if (own === undefined) {
      const text = solution.strategy.fixtureFrame
        ? `${zero}, the locators' errors in it. No touch looks at the part, so nothing could show a mistake.`
        : `${zero}. Its touches are just enough for it: nothing in them could show a mistake.${unseen}`;
      sentences.push({ kind: "consistency", at, text });
    } else if (own.chance >= disagreeBelow) {
      const text = `${zero}. Its touches are consistent with each other within their doubts; that is no promise about what was not touched.${unseen}`;
      sentences.push({ kind: "consistency", at, text });
    } else {
      const text = `${disagreement(`The touches of "${inUse.evaluation.id}"`, own, solution.contacts, figures)} ${causes} Until it is found, ${listText(doubts)} ${figures.unit} is not the uncertainty of this zero.`;
      sentences.push({ kind: "touches disagree", at, text });
    }
  }
  if (all !== undefined && all.chance < disagreeBelow && !sameWorst(own, solution?.contacts, all, counted)) {
    const text = `${disagreement("All touches of this part together", all, counted, figures)} ${causes} The figures for this part and the check readings rest on them.`;
    sentences.push({ kind: "touches disagree", at: "touches", text });
  }
  return sentences;
}

const causes =
  "A cause may be a burr or a chip, a wrong reading or side, a part that moved, or faces that are not square or a wall that is not round.";

const onFixture =
  "How the part lies against what was touched on the fixture (seat, chips, clearances, its own sizes) is in it as the locators' entries state it; no touch looks at that.";

function expandedUncertainties(zero: StrategyEvaluation["zero"], figures: Figures): string[] {
  return zero.flatMap((axis, i) => (axis.ok ? [`${axes[i]} ${figures.result(axis.value).expandedUncertainty}`] : []));
}

function disagreement(who: string, { worst, chance }: Agreement, contacts: readonly Contact[], figures: Figures): string {
  const off = figures.length(Math.abs(worst.residual));
  const times =
    worst.standardUncertainty > 0
      ? `, ${formatFixed(Math.abs(worst.residual) / worst.standardUncertainty, 1)} times the standard uncertainty of that`
      : "";
  const seldom = chance < 1e-4 ? "less than one in ten thousand" : `${formatFixed(100 * chance, 2)} %`;
  return `${who} disagree by more than their doubts explain (chance of so much: ${seldom}): "${contacts[worst.contact]?.touch}" is left ${off} ${figures.unit} off${times}.`;
}

/** Whether the same touch was already told of. */
function sameWorst(own: Agreement | undefined, ofOwn: readonly Contact[] | undefined, all: Agreement, ofAll: readonly Contact[]): boolean {
  if (own === undefined || own.chance >= disagreeBelow) return false;
  return ofOwn?.[own.worst.contact]?.touch === ofAll[all.worst.contact]?.touch;
}
