import { describeProblem, type Outcome, type Problem } from "../../base/outcome.ts";

/** A problem as data, with the line that a person reads. */
export type PlainProblem = Problem & { readonly line: string };

/** What stands where a result would have stood. */
export interface PlainProblems {
  readonly problems: readonly PlainProblem[];
}

export function plainProblem(problem: Problem): PlainProblem {
  return { ...problem, line: describeProblem(problem) };
}

/** The result as plain data, or its problems in the same place. */
export function plainOutcome<T, P>(outcome: Outcome<T>, plain: (value: T) => P): P | PlainProblems {
  return outcome.ok ? plain(outcome.value) : { problems: outcome.problems.map(plainProblem) };
}
