import type { OwnEvaluation, SetupEvaluation } from "./decision/setupEvaluation.ts";
import { studyTargets } from "./decision/studyTargets.ts";
import { whatHelps } from "./decision/whatHelps.ts";
import type { SetupDocument } from "./document/setupDocument.ts";
import { drawsFor } from "./evaluateSetup.ts";
import { type SetupRationale, setupRationale } from "./record/setupRationale.ts";
import { strategyInUse } from "./record/strategyInUse.ts";
import { studyResults } from "./record/studyResults.ts";
import { recordHead } from "./recordOf.ts";

export type { SetupRationale };

/** The chance that every characteristic is to keep where nothing else is asked for: three standard deviations to either side of a normal one. */
const usuallyWanted = 0.9973;

/**
 * The rationale of a setup: of the operation that is looked at, where the part has several.
 *
 * @param evaluation of this document, as `evaluateSetup` gives it
 * @param unit of the lengths that are printed; the document's own unless given
 */
export function rationaleOf(
  document: SetupDocument,
  evaluation: SetupEvaluation & Partial<OwnEvaluation>,
  unit: "mm" | "inch" = evaluation.setup.unit,
): SetupRationale {
  const strategy = strategyInUse(evaluation)?.evaluation;
  const { choice, assumptions, changes, risks } = document.record;
  const view = "thisPart";
  const help = strategy && whatHelps(strategy, evaluation.location, { view, wanted: usuallyWanted }, drawsFor(evaluation.setup));
  const targets = strategy && studyTargets(evaluation, strategy.id, view);
  return setupRationale(
    recordHead(document),
    { choice, assumptions, changes, risks },
    evaluation,
    {
      help: help?.ok ? help.value : undefined,
      wanted: usuallyWanted,
      study: targets?.ok ? studyResults(targets.value, evaluation.setup.sampling.seed) : [],
    },
    unit,
  );
}
