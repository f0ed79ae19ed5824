import { describeProblem, type Problem } from "../base/outcome.ts";
import { isWithheld } from "../datum/locatePart.ts";
import type { SetupEvaluation } from "../decision/setupEvaluation.ts";

/**
 * Why a document does not answer all that it asks: entries that could not be read or used, strategies that could not be
 * solved or do not fix the turn that they are to measure, characteristics that no strategy can judge. Each problem once.
 *
 * A strategy that is not in use and still waits for touches is compared by the batch alone, which is all that was asked of it.
 * A strategy that leaves an axis to another way of setting it is no obstacle as long as nothing on the drawing needs that axis.
 */
export function obstacles(evaluation: SetupEvaluation): Problem[] {
  const { problems, location, strategies } = evaluation;
  const all = [
    ...problems,
    ...partProblems(evaluation),
    ...(location.setup.strategies.length === 0 && !problems.some(({ at }) => at.startsWith("strategies.")) ? [noStrategy] : []),
    ...strategies.flatMap(({ evaluation: strategy }) =>
      strategy.ok
        ? waitsAside(strategy.value, evaluation)
          ? []
          : [...unfixedTurn(strategy.value), ...nothingFixed(strategy.value)]
        : strategy.problems,
    ),
    ...neverJudged(evaluation),
  ];
  const lines = new Set<string>();
  return all.filter((problem) => {
    const line = describeProblem(problem);
    return !isConsequence(problem, all) && !lines.has(line) && lines.add(line);
  });
}

/** Whether something only misses a row because that row could not be read or used, which is told at the row itself. */
function isConsequence(problem: Problem, all: readonly Problem[]): boolean {
  const { at, got } = problem;
  if (isWithheld(problem)) return true;
  if (/^strategies\..*\.touches$/s.test(at) && all.some((other) => other.at === "touches")) return true;
  const table = missedTables.find(([entry]) => entry.test(at))?.[1];
  if (table === undefined || got === undefined) return false;
  return all.some(
    (other) =>
      other.at !== at && (other.at === `${table}.${got}` || (other.at.startsWith(`${table}.${got}.`) && other.at !== `${table}.${got}.id`)),
  );
}

/** Entries that name a row, and the table in which it should be. */
const missedTables: readonly (readonly [RegExp, string])[] = [
  [/^touches\..*\.tool$/s, "tools"],
  [/^touches\..*\.spacer$/s, "spacers"],
  [/^touches\..*\.frame$/s, "workFrames"],
  [/^touches\..*\.element$/s, "part.elements"],
  [/^part\.datumSystems\..*\.(primary|secondary|tertiary)$/s, "part.elements"],
  [/^part\.characteristics\..*\.datums$/s, "part.datumSystems"],
  [/^part\..*\.(from|to|of|also)$/s, "part.elements"],
  [/^fixture\.locators\..*\.element$/s, "part.elements"],
  [/^strategies\..*\.touches$/s, "touches"],
  [/^strategies\..*\.hold$/s, "part.elements"],
  [/^strategies\..*\.zero\.[xyz]$/s, "part.elements"],
  [/^chosen$/, "strategies"],
];

/** A part without a usable touch is only then worth a line where nothing says why no touch can be used. */
function partProblems({ problems, location: { thisPart, contacts, onFixture } }: SetupEvaluation): readonly Problem[] {
  if (thisPart.ok || (contacts.length + onFixture.length === 0 && problems.some(({ at }) => at.startsWith("touches.")))) return [];
  return thisPart.problems.map((problem) => ({ ...problem, at: problem.at || "touches" }));
}

const noStrategy: Problem = { at: "strategies", what: "there is no strategy, so no zero follows from the touches", remedy: "add one" };

type Solved = Extract<SetupEvaluation["strategies"][number]["evaluation"], { ok: true }>["value"];

function waitsAside({ id, solution }: Solved, { setup }: SetupEvaluation): boolean {
  return solution.waiting.length > 0 && setup.chosen !== "" && setup.chosen !== id;
}

function unfixedTurn({ rotation, solution }: Solved): readonly Problem[] {
  return solution.strategy.rotation !== "ignored" && !rotation.ok ? rotation.problems : [];
}

function nothingFixed({ zero, offset }: Solved): readonly Problem[] {
  return offset.ok ? [] : zero.flatMap((axis) => (axis.ok ? [] : axis.problems));
}

/** Problems of characteristics that are not known under any strategy, in either view. */
function neverJudged({ setup, strategies }: SetupEvaluation): Problem[] {
  const solved = strategies.flatMap(({ evaluation }) => (evaluation.ok ? [evaluation.value] : []));
  if (solved.length === 0) return [];
  return setup.part.characteristics.flatMap((_, i) => {
    const stacks = solved.flatMap(({ thisPart, batch }) => [thisPart.stacks[i], batch.stacks[i]]);
    const failed = stacks.flatMap((stack) => (stack?.ok === false ? [stack] : []));
    return failed.length === stacks.length ? failed.slice(0, 1).flatMap(({ problems }) => problems) : [];
  });
}
