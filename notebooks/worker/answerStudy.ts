import { describeProblem } from "../../lib/base/outcome.ts";
import { type StudyTarget, studyTargets } from "../../lib/decision/studyTargets.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { coverageProbability } from "../../lib/record/expandedUncertainty.ts";
import { significantDigits } from "../../lib/record/significantDigits.ts";
import { bendsOfAll } from "../../lib/record/strategyBend.ts";
import { studyModel, studyResults } from "../../lib/record/studyResults.ts";
import { blockSize } from "../../lib/uncertainty/trials/blockWords.ts";
import { runToEnd } from "../../lib/uncertainty/trials/runToEnd.ts";
import { type AdaptiveProgress, runBlocks, runUntilSteady } from "../../lib/uncertainty/trials/runTrials.ts";
import { readTally, writeTally } from "../../lib/uncertainty/trials/tallyText.ts";
import type { TrialModel } from "../../lib/uncertainty/trials/trialModel.ts";
import { TrialTally } from "../../lib/uncertainty/trials/trialTally.ts";
import { firstOrderResult } from "./firstOrderResult.ts";
import type { Steadiness, StudyAnswer, StudyRequest, StudyWork } from "./studyMessages.ts";
import { wholeModelResult } from "./wholeModelResult.ts";

/** Ms from one partial answer to the next. */
const telling = 100;

/** An answer without the number of its question. */
type Answer = StudyAnswer extends infer A ? (A extends StudyAnswer ? Omit<A, "id"> : never) : never;

/**
 * Answers one question about a document from the document alone. Runs to its end without a pause: whoever wants it to stop ends the worker.
 *
 * @param post receives answers as they are found, the last one of the kind `wholeModel` or `failed`
 * @param now a clock in ms, which only says when trials so far are told
 */
export function answerStudy({ id, work, ...of }: StudyRequest, post: (answer: StudyAnswer) => void, now: () => number): void {
  const tell = (answer: Answer) => post({ id, ...answer } as StudyAnswer);
  const evaluation = evaluateSetup(of.document);
  const targets = studyTargets(evaluation, of.strategy, of.view);
  if (!targets.ok) {
    tell({ kind: "failed", why: targets.problems.map((problem) => describeProblem({ ...problem, at: "" })).join(" ") });
    return;
  }
  const { seed } = evaluation.setup.sampling;
  if (work.kind === "correction") tell({ kind: "firstOrder", results: targets.value.map(firstOrderResult) });
  const tried = work.kind === "correction" ? undefined : trialsOf(work, targets.value, seed, tell, now);
  const tally = tried?.tally;
  const found = studyResults(targets.value, seed, tally);
  tell({
    kind: "wholeModel",
    results: found.map((result) => wholeModelResult(result, targets.value.find(({ name }) => name === result.name) as StudyTarget)),
    bends: work.kind === "correction" ? bendsOfAll(evaluation, of.view) : undefined,
    tally: tally && writeTally(tally),
    steadiness: tried?.steadiness,
  });
}

interface Tried {
  readonly tally: TrialTally;
  readonly steadiness: Steadiness | undefined;
}

function trialsOf(
  work: Exclude<StudyWork, { kind: "correction" }>,
  targets: readonly StudyTarget[],
  seed: number,
  tell: (answer: Answer) => void,
  now: () => number,
): Tried {
  const model = studyModel(targets, seed);
  switch (work.kind) {
    case "stopped":
      return { tally: stoppedTally(work.tally, model), steadiness: undefined };
    case "trials": {
      const tally = runToEnd(runBlocks(model, 0, Math.ceil(work.trials / blockSize)), teller(tell, now));
      return { tally, steadiness: undefined };
    }
    case "steady": {
      const tellNow = teller(tell, now);
      const progress = runToEnd(
        runUntilSteady(model, { probability: coverageProbability, digits: significantDigits, mostTrials: work.mostTrials }),
        (step) => tellNow(step.tally, steadinessOf(step, targets)),
      );
      return { tally: progress.tally, steadiness: steadinessOf(progress, targets) };
    }
  }
}

function stoppedTally(text: string, model: TrialModel): TrialTally {
  const read = readTally(text);
  if (!read.ok) throw new Error(read.problems.map((problem) => describeProblem(problem)).join(" "));
  const tally = new TrialTally(model);
  // Refuses trials of another computation.
  tally.merge(read.value);
  return tally;
}

/** Tells the first trials at once, and later ones now and then. */
function teller(tell: (answer: Answer) => void, now: () => number) {
  let told = Number.NEGATIVE_INFINITY;
  return (tally: TrialTally, steadiness?: Steadiness) => {
    if (now() - told < telling) return;
    tell({ kind: "progress", tally: writeTally(tally), steadiness });
    told = now();
  };
}

function steadinessOf({ outputs, isEnough }: AdaptiveProgress, targets: readonly StudyTarget[]): Steadiness | undefined {
  const [first, ...others] = outputs;
  if (first === undefined) return undefined;
  const worst = others.reduce((a, b) => (b.reached * a.tolerance > a.reached * b.tolerance ? b : a), first);
  return { isEnough, worst: { ...worst, unit: targets.find(({ name }) => name === worst.name)?.unit ?? "mm" } };
}
