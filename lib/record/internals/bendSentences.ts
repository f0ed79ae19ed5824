import { capitalise } from "../../base/capitalise.ts";
import { quotedList } from "../../base/listText.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import type { JudgementSentence } from "../judgementSentences.ts";
import { secondOrderInWords } from "../secondOrderInWords.ts";
import type { StrategyBend } from "../strategyBend.ts";
import { resultWriter } from "./resultWriter.ts";

/** Results told one by one. */
const mostResults = 3;

/**
 * Where the model of a strategy is too curved for the uncertainties and chances that are told of it, and by how much; and of which strategies that was
 * not looked at, where it matters for one. Nothing where first order holds, or where nobody has looked.
 */
export function bendSentences({ strategies }: SetupEvaluation, bends: readonly StrategyBend[], unit: "mm" | "inch"): JudgementSentence[] {
  const bent = bends.filter(({ results }) => results.length > 0);
  const told = bent.map(({ strategy, view, results }): JudgementSentence => {
    const each = results
      .slice(0, mostResults)
      .map(({ name, unit: kind, terms }) => `${name}: ${secondOrderInWords(terms, resultWriter(kind, unit))}`);
    const more = results.length > mostResults ? `; and ${results.length - mostResults} more of its results` : "";
    const words = `First order does not hold for "${strategy}" (${view === "thisPart" ? "this part" : "the batch"}), and its uncertainties and chances are told to first order. ${capitalise(each.join("; "))}${more}.`;
    return { kind: "first order", at: `strategies.${strategy}`, text: words };
  });
  const others = strategies.flatMap(({ id, evaluation }) => (evaluation.ok && !bends.some(({ strategy }) => strategy === id) ? [id] : []));
  if (told.length === 0 || others.length === 0) return told;
  const named = others.length > mostNamed ? `${others.length} other strategies` : quotedList(others);
  return [...told, { kind: "first order", at: "strategies", text: `Whether first order holds was not looked at for ${named}.` }];
}

/** Strategies that are named one by one. */
const mostNamed = 4;
