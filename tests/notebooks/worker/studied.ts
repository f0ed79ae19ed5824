import { readTally } from "../../../lib/uncertainty/trials/tallyText.ts";
import type { TrialTally } from "../../../lib/uncertainty/trials/trialTally.ts";
import { answerStudy } from "../../../notebooks/worker/answerStudy.ts";
import type { FirstOrderResult, StudyAnswer, StudyOf, StudyWork, WholeModelResult } from "../../../notebooks/worker/studyMessages.ts";

/** All answers to one question, with a clock that stands on from one look to the next by `step` ms. */
export function answersTo(of: StudyOf, work: StudyWork, step = 1000): StudyAnswer[] {
  const answers: StudyAnswer[] = [];
  let time = 0;
  const clock = () => {
    time += step;
    return time;
  };
  answerStudy({ id: 7, ...of, work }, (answer) => answers.push(structuredClone(answer)), clock);
  return answers;
}

export interface Studied {
  readonly firstOrder: readonly FirstOrderResult[];
  readonly corrected: readonly WholeModelResult[];
  readonly wholeModel: readonly WholeModelResult[];
  readonly tally: TrialTally | undefined;
}

/** What the page knows after the correction and, where some are wanted, trials. */
export function studied(of: StudyOf, trials: number): Studied {
  const [first, second] = answersTo(of, { kind: "correction" });
  if (first?.kind !== "firstOrder" || second?.kind !== "wholeModel") throw new Error(JSON.stringify([first, second]));
  const before = { firstOrder: first.results, corrected: second.results };
  if (trials === 0) return { ...before, wholeModel: second.results, tally: undefined };
  const last = answersTo(of, { kind: "trials", trials }).at(-1);
  if (last?.kind !== "wholeModel" || last.tally === undefined) throw new Error(JSON.stringify(last));
  const tally = readTally(last.tally);
  if (!tally.ok) throw new Error(JSON.stringify(tally.problems));
  return { ...before, wholeModel: last.results, tally: tally.value };
}
