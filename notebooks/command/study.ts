import { failure, type Outcome, success } from "../../lib/base/outcome.ts";
import { type StudyTarget, studyTargets } from "../../lib/decision/studyTargets.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { coverageProbability } from "../../lib/record/expandedUncertainty.ts";
import { plainStudy } from "../../lib/record/plainStudy.ts";
import { studyModel, studyResults } from "../../lib/record/studyResults.ts";
import { studyText } from "../../lib/record/studyText.ts";
import { runBlocks, runUntilSteady } from "../../lib/uncertainty/trials/runTrials.ts";
import { readTally, writeTally } from "../../lib/uncertainty/trials/tallyText.ts";
import type { TrialModel } from "../../lib/uncertainty/trials/trialModel.ts";
import { TrialTally } from "../../lib/uncertainty/trials/trialTally.ts";
import { readText } from "./readText.ts";
import { exitCodes, inFile, refuse, runToExit } from "./running.ts";
import { readStudyRequest, type StudyRequest, studyUsage } from "./studyRequest.ts";

await runToExit(async (args) => {
  const request = readStudyRequest(args);
  if (!request.ok) return refuse(request.problems);
  if (request.value.help) {
    process.stdout.write(studyUsage);
    return exitCodes.done;
  }
  const told = await study(request.value);
  if (!told.ok) return refuse(told.problems);
  process.stdout.write(told.value);
  return exitCodes.done;
});

/** What is printed. */
async function study(request: StudyRequest): Promise<Outcome<string>> {
  const { file, work, view } = request;
  const text = await readText(file);
  if (!text.ok) return text;
  const document = parseDocument(text.value);
  if (!document.ok) return failure(...document.problems.map((problem) => inFile(file, problem)));
  const evaluation = evaluateSetup(document.value);
  const strategy = request.strategy ?? document.value.chosen;
  const targets = studyTargets(evaluation, strategy, view);
  if (!targets.ok) return targets;
  const seed = request.seed ?? evaluation.setup.sampling.seed;
  const tally = await countTrials(request, studyModel(targets.value, seed), targets.value);
  if (!tally.ok) return tally;
  if (work.kind === "trials" && work.isShard) return success(writeTally(tally.value as TrialTally));
  const head = { title: evaluation.setup.title, strategy, view, seed, trials: tally.value?.trials ?? 0 };
  const results = studyResults(targets.value, seed, tally.value);
  return success(
    request.json ? `${JSON.stringify(plainStudy(head, results), undefined, 2)}\n` : studyText(head, results, evaluation.setup.unit),
  );
}

async function countTrials(
  { work, quiet }: StudyRequest,
  model: TrialModel,
  targets: readonly StudyTarget[],
): Promise<Outcome<TrialTally | undefined>> {
  if (targets.length === 0) return success(undefined);
  const tell = quiet || !process.stderr.isTTY ? () => {} : (words: string) => process.stderr.write(`\r${words}`);
  switch (work.kind) {
    case "correction":
      return success(undefined);
    case "merge":
      return merged(model, work.files);
    case "steady": {
      const options = { probability: coverageProbability, digits: 2, mostTrials: work.mostTrials };
      const progress = last(runUntilSteady(model, options), ({ tally }) => tell(`${tally.trials} trials`));
      if (!progress.isEnough) tell(`not steady after ${progress.tally.trials} trials; the most that were asked for\n`);
      return success(progress.tally);
    }
    case "trials": {
      const { from, to } = work;
      return success(
        last(runBlocks(model, from, to), ({ trials }) => tell(`${trials} trials, ${Math.round((100 * trials) / (1024 * (to - from)))} %`)),
      );
    }
  }
}

/** Runs to the end, telling of every step. */
function last<T>(steps: Generator<T, T>, tell: (step: T) => void): T {
  for (;;) {
    const { value, done } = steps.next();
    if (done) return value;
    tell(value);
  }
}

async function merged(model: TrialModel, files: readonly string[]): Promise<Outcome<TrialTally>> {
  const all = new TrialTally(model);
  for (const file of files) {
    const text = await readText(file);
    if (!text.ok) return text;
    const tally = readTally(text.value);
    if (!tally.ok) return failure(...tally.problems.map((problem) => inFile(file, { ...problem, at: "" })));
    try {
      all.merge(tally.value);
    } catch (error) {
      return failure({
        at: file,
        what: "this does not go with the setup, or with the files before it",
        got: error instanceof Error ? error.message : String(error),
        remedy: "merge what shards of the same study of the same setup have counted, each once",
      });
    }
  }
  return success(all);
}
