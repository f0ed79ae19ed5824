import { messageOf } from "../../lib/base/messageOf.ts";
import { failure, type Outcome, type Problem, success } from "../../lib/base/outcome.ts";
import { studyTargets } from "../../lib/decision/studyTargets.ts";
import { longestDocument, parseDocument } from "../../lib/document/parseDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { coverageProbability } from "../../lib/record/expandedUncertainty.ts";
import { plainStudy } from "../../lib/record/plainStudy.ts";
import { significantDigits } from "../../lib/record/significantDigits.ts";
import { studyModel, studyResults } from "../../lib/record/studyResults.ts";
import { studyText } from "../../lib/record/studyText.ts";
import { blockSize } from "../../lib/uncertainty/trials/blockWords.ts";
import { runBlocks, runUntilSteady } from "../../lib/uncertainty/trials/runTrials.ts";
import { readTally, writeTally } from "../../lib/uncertainty/trials/tallyText.ts";
import type { TrialModel } from "../../lib/uncertainty/trials/trialModel.ts";
import { TrialTally } from "../../lib/uncertainty/trials/trialTally.ts";
import { readText, type WantedText } from "./readText.ts";
import { exitCodes, inFile, refuse, runToExit } from "./running.ts";
import { runUnlessStopped } from "./stoppable.ts";
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
  const strategy = request.strategy ?? evaluation.setup.chosen;
  const targets = studyTargets(evaluation, strategy, view);
  if (!targets.ok) return targets;
  const seed = request.seed ?? evaluation.setup.sampling.seed;
  const tried = await countTrials(request, studyModel(targets.value, seed));
  if (!tried.ok) return tried;
  const { tally, isSteady } = tried.value;
  if (work.kind === "trials" && work.isShard) return success(writeTally(tally as TrialTally));
  const { title, supposed } = evaluation.setup;
  const head = { title, strategy, view, seed, trials: tally?.trials ?? 0, isSteady, supposed };
  const results = studyResults(targets.value, seed, tally);
  return success(
    request.json ? `${JSON.stringify(plainStudy(head, results), undefined, 2)}\n` : studyText(head, results, evaluation.setup.unit),
  );
}

interface Tried {
  readonly tally: TrialTally | undefined;
  readonly isSteady: boolean | null;
}

async function countTrials({ work, quiet }: StudyRequest, model: TrialModel): Promise<Outcome<Tried>> {
  const tell = quiet || !process.stderr.isTTY ? () => {} : (words: string) => process.stderr.write(`\r${words}`);
  switch (work.kind) {
    case "correction":
      return success({ tally: undefined, isSteady: null });
    case "merge": {
      const all = await merged(model, work.files);
      return all.ok ? success({ tally: all.value, isSteady: null }) : all;
    }
    case "steady": {
      const options = { probability: coverageProbability, digits: significantDigits, mostTrials: work.mostTrials };
      const { last, isStopped } = await runUnlessStopped(runUntilSteady(model, options), (step) => tell(`${step.tally.trials} trials`));
      if (last === undefined || last.tally.trials === 0) return failure(stoppedTooSoon);
      if (isStopped) tellStopped(last.tally.trials);
      return success({ tally: last.tally, isSteady: last.isEnough });
    }
    case "trials": {
      const { from, to } = work;
      const all = blockSize * (to - from);
      const { last, isStopped } = await runUnlessStopped(runBlocks(model, from, to), ({ trials }) =>
        tell(`${trials} trials, ${Math.round((100 * trials) / all)} %`),
      );
      if (last === undefined) return failure(stoppedTooSoon);
      if (isStopped) tellStopped(last.trials);
      return success({ tally: last, isSteady: null });
    }
  }
}

const stoppedTooSoon: Problem = { at: "", what: "stopped before any trial had been counted", remedy: "run it again" };

function tellStopped(trials: number): void {
  process.stderr.write(`\nstopped: what follows rests on the ${trials} trials that have been counted\n`);
}

const trialsText: WantedText = {
  largest: "any file of trials",
  mostBytes: longestDocument,
  remedies: { long: "name the files that the shards have written", noText: "name the files that the shards have written" },
};

async function merged(model: TrialModel, files: readonly string[]): Promise<Outcome<TrialTally>> {
  const all = new TrialTally(model);
  for (const file of files) {
    const text = await readText(file, trialsText);
    if (!text.ok) return text;
    const tally = readTally(text.value);
    if (!tally.ok) return failure(...tally.problems.map((problem) => inFile(file, { ...problem, at: "" })));
    try {
      all.merge(tally.value);
    } catch (error) {
      return failure({
        at: file,
        what: "this does not go with the setup, or with the files before it",
        got: messageOf(error),
        remedy: "merge what shards of the same study of the same setup have counted, each once",
      });
    }
  }
  return success(all);
}
