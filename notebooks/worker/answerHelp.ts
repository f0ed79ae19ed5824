import { describeProblem } from "../../lib/base/outcome.ts";
import { improveSetup } from "../../lib/improveSetup.ts";
import { allowanceCells, allowanceSentences, isNear, moveSentences, searchSentence } from "../../lib/record/improvementText.ts";
import type { HelpAnswer, HelpRequest } from "./studyMessages.ts";

/** Ms from one message of progress to the next. */
const telling = 100;

/**
 * Answers what would help a setup from its document alone. Runs to its end without a pause: whoever wants it to stop ends the worker.
 *
 * @param post receives progress, and at last an answer of the kind `help` or `failed`
 * @param now a clock in ms, which only says when progress is told
 */
export function answerHelp(
  { id, document, strategy, view, work: { wanted } }: HelpRequest,
  post: (answer: HelpAnswer) => void,
  now: () => number,
): void {
  const steps = improveSetup(document, { strategy, view, wanted });
  let told = now();
  let step = steps.next();
  for (; !step.done; step = steps.next()) {
    if (now() - told < telling) continue;
    told = now();
    post({ id, kind: "progress", ...step.value });
  }
  if (!step.value.ok) {
    post({ id, kind: "failed", why: step.value.problems.map((problem) => describeProblem({ ...problem, at: "" })).join(" ") });
    return;
  }
  const { moves, allowances, search } = step.value.value;
  post({
    id,
    kind: "help",
    help: {
      sentences: moveSentences(moves),
      allowances: allowances.filter(isNear).map((allowance) => [allowance.doubt.label, ...allowanceCells(allowance)] as const),
      allowanceSentences: allowanceSentences(allowances),
      strategies: search.best.map(({ strategy: { id: words, touches, hold, orient, rotation, sizes }, thisPart, batch }) => ({
        entry: { touches, hold, orient, rotation, sizes },
        words,
        thisPart: thisPart.chance,
        batch: batch.chance,
      })),
      searchSentence: searchSentence(search),
    },
  });
}
