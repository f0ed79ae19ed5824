import { eventsSince } from "../../decision/eventsSince.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import { lookForSlips } from "../../slips/lookForSlips.ts";
import { expandedUncertainty } from "../expandedUncertainty.ts";
import { disagreementSentences, explanationWords, findingSentence, shareText, untoldFindings } from "../slipSentences.ts";
import { strategyInUse } from "../strategyInUse.ts";
import { eventSentence } from "./eventSentence.ts";
import type { Figures } from "./figures.ts";
import { textTable } from "./textTable.ts";
import { bullet, wrapText } from "./wrapText.ts";

const checkColumns = [
  { title: "check", align: "left" },
  { title: "face", align: "left" },
  { title: "axis", align: "left" },
  { title: "predicted", align: "right" },
  { title: "limits", align: "right" },
  { title: "shown", align: "right" },
  { title: "off by", align: "right" },
  { title: "verdict", align: "left" },
] as const;

/** Checks beside their predictions, and zeros that an event has made doubtful. */
export function summariseChecks(evaluation: SetupEvaluation, figures: Figures): string[] {
  const rows = evaluation.checks.flatMap(({ check, usedForZero, evaluation: outcome }) => {
    if (!outcome.ok) return [];
    const { axis, predicted, verdict } = outcome.value;
    return [
      [
        check.id,
        usedForZero ? check.element : `${check.element} *`,
        axis,
        figures.length(predicted.value),
        `±${figures.uncertainty(expandedUncertainty(predicted).expandedUncertainty)}`,
        verdict === undefined ? "-" : figures.length(verdict.shown),
        verdict === undefined ? "-" : figures.length(verdict.difference.value),
        verdict === undefined ? "not yet read" : verdict.agrees ? "agrees" : "disagrees",
      ],
    ];
  });
  const moves = evaluation.checkMoves.flatMap(({ move, machine, work }) => {
    const told = (["X", "Y", "Z"] as const).flatMap((axis, i) => {
      const budget = machine[i];
      if (!budget?.ok) return [];
      const inWork = work[i];
      return [`${axis} ${figures.length(budget.value.value)}${inWork === undefined ? "" : ` (work ${figures.length(inWork)})`}`];
    });
    return told.length === 0
      ? []
      : wrapText(
          `Over "${move.id}", the tip ${figures.length(move.clearance)} ${figures.unit} above it, the display must show ${told.join(", ")}.`,
          "  ",
        );
  });
  const events = eventsSince(evaluation).flatMap((event) => wrapText(eventSentence(event), bullet));
  return [
    ...(rows.length === 0
      ? []
      : [...textTable(checkColumns, rows), ...wrapText("* The zero does not rest on this face: such a check sees most.", "  ")]),
    ...moves,
    ...events,
  ];
}

/** What looks like a slip, and what explains evidence that disagrees. */
export function summariseSlips(evaluation: SetupEvaluation, unit: "mm" | "inch"): string[] {
  const shown = { ...evaluation, setup: { ...evaluation.setup, unit } };
  const { findings, disagreement } = lookForSlips(shown, strategyInUse(evaluation)?.evaluation);
  return [
    ...untoldFindings(findings).flatMap((finding) => wrapText(findingSentence(finding), bullet)),
    ...(disagreement === undefined
      ? []
      : [
          ...disagreementSentences(disagreement, unit).flatMap((sentence) => wrapText(sentence, bullet)),
          ...wrapText("What may have happened, the likeliest first; nothing is corrected:", bullet),
          ...disagreement.explanations.flatMap((each) => wrapText(`${shareText(each.share)}: ${explanationWords(each)}`, "      ")),
        ]),
  ];
}
