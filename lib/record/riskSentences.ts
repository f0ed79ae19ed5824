import { listText, quotedList } from "../base/listText.ts";
import { eventsSince } from "../decision/eventsSince.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { lookForSlips } from "../slips/lookForSlips.ts";
import type { View } from "../tolerance/deviations.ts";
import type { Evidence } from "../uncertainty/source.ts";
import { sampledChanceText, shareText } from "./internals/chanceText.ts";
import { eventSentence } from "./internals/eventSentence.ts";
import { evidenceWords, varianceByEvidence } from "./internals/evidenceWords.ts";
import { bottleneckStack } from "./internals/stackNamed.ts";
import { disagreementSentences, findingSentence, untoldFindings } from "./slipSentences.ts";

/** What stays open under a strategy: chances left, worst cases beyond a tolerance, touches that nothing checks, figures that rest on nobody's evidence, slips. */
export function riskSentences(evaluation: SetupEvaluation, strategy: StrategyEvaluation): string[] {
  const { setup } = evaluation;
  const { findings, disagreement } = lookForSlips(evaluation, strategy);
  return [
    ...(["thisPart", "batch"] as const).flatMap((view) => chanceLeft(strategy, view)),
    ...(["thisPart", "batch"] as const).flatMap((view) => beyond(strategy, view)),
    strategy.solution.frame.redundancy === 0 ? "Its touches are just enough for it: nothing in them could show a mistake." : "",
    ...unfounded(strategy),
    ...namelessCertificates(evaluation),
    ...eventsSince(evaluation).flatMap((event) => (event.verifiedSince ? [] : [eventSentence(event)])),
    setup.checks.length === 0 && evaluation.checks.length === 0 ? "No check of a face that the zero does not rest on is stated." : "",
    ...untoldFindings(findings).map(findingSentence),
    ...(disagreement === undefined ? [] : disagreementSentences(disagreement, setup.unit)),
    ...(setup.supposed.length > 0 ? [`Something is only supposed for the moment: ${setup.supposed.join("; ")}.`] : []),
  ].filter((sentence) => sentence !== "");
}

const viewWords = { thisPart: "for this part", batch: "in the batch" } as const satisfies Record<View, string>;

function chanceLeft(strategy: StrategyEvaluation, view: View): string[] {
  const { chanceOfAll, stacks } = strategy[view];
  if (stacks.length === 0) return view === "thisPart" ? ["The drawing demands nothing here, so no strategy can be judged by it."] : [];
  return chanceOfAll.ok
    ? [
        `The chance that all characteristics are met ${viewWords[view]} is ${sampledChanceText(chanceOfAll.value)}; whoever accepts the setup accepts the rest.`,
      ]
    : [`The chance that all characteristics are met ${viewWords[view]} is not known.`];
}

function beyond(strategy: StrategyEvaluation, view: View): string[] {
  const names = strategy[view].stacks.flatMap((stack) =>
    stack.ok && stack.value.shares.worstCase > 1 ? [`"${stack.value.characteristic}" (${shareText(stack.value.shares.worstCase)})`] : [],
  );
  return names.length === 0 ? [] : [`In the worst case ${viewWords[view]} more than the tolerance is used of ${listText(names)}.`];
}

/** How much of the doubt rests on figures that nobody gave evidence for. */
function unfounded(strategy: StrategyEvaluation): string[] {
  const stack = bottleneckStack(strategy.thisPart) ?? bottleneckStack(strategy.batch);
  if (stack === undefined) return [];
  const share = (varianceByEvidence(stack) ?? []).find(({ words }) => words === evidenceWords.stated)?.share ?? 0;
  if (share === 0) return [];
  const guessed = stack.rows.flatMap(({ source }) => (source.evidence.kind === "stated" ? [source.label] : [])).slice(0, mostNamed);
  return [
    `${shareText(share)} of the variance of "${stack.characteristic}", the bottleneck, rests on ${evidenceWords.stated}, first of all ${quotedList(guessed)}.`,
  ];
}

const mostNamed = 3;

/** Figures of tools and spacers in use that are said to come from a certificate, where nobody says from which. */
function namelessCertificates({ setup: { tools, spacers, touches } }: SetupEvaluation): string[] {
  const rests = ({ kind }: Evidence, figure: number | undefined) => figure !== undefined && kind === "certificate";
  const ids = [
    ...tools.filter(
      ({ id, calibration, radius, radiusEvidence, scatter, scatterEvidence }) =>
        calibration.certificate === "" &&
        (rests(radiusEvidence, radius) || rests(scatterEvidence, scatter)) &&
        touches.some(({ tool }) => tool === id),
    ),
    ...spacers.filter(
      ({ id, calibration, thickness, evidence }) =>
        calibration.certificate === "" && rests(evidence, thickness) && touches.some(({ spacer }) => spacer === id),
    ),
  ].map(({ id }) => id);
  return ids.length === 0 ? [] : [`Figures of ${quotedList(ids)} are said to rest on a certificate, and none is named.`];
}
