import { capitalise } from "./capitalise.ts";
import { oneLine } from "./oneLine.ts";

/**
 * Expected trouble travels as a value: an exception would lose its class at the
 * first cell boundary of the reactive runtime. Exceptions are kept for mistakes
 * of this library's own.
 */
export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problems: readonly Problem[] };

/** One thing that is wrong, where it is wrong, and what to do about it. */
export interface Problem {
  /** Where: the path of the entry in the document, for example `touches.left.readings`; empty for the whole. */
  readonly at: string;
  /** What is wrong, as a sentence without a full stop. */
  readonly what: string;
  /** What would have been accepted. */
  readonly expected?: string;
  /** What was found, as typed. */
  readonly got?: string;
  /** What a person can do. */
  readonly remedy?: string;
  /** Index of the character in the entry's text where the trouble starts. */
  readonly character?: number;
}

export function success<T>(value: T): Outcome<T> {
  return { ok: true, value };
}

export function failure<T = never>(...problems: readonly Problem[]): Outcome<T> {
  return { ok: false, problems };
}

/** The problem as one line, whatever the entries hold: `place: what; expected …, got …. Remedy.` */
export function describeProblem({ at, what, expected, got, remedy }: Problem): string {
  const place = at === "" ? "" : `${at}: `;
  const details = [expected && `expected ${expected}`, got !== undefined && `got ${got === "" ? "nothing" : quote(got)}`].filter(Boolean);
  const tail = details.length > 0 ? `; ${details.join(", ")}` : "";
  return oneLine(`${place}${what}${tail}.${remedy ? ` ${capitalise(remedy)}.` : ""}`);
}

/** The same problem, told from one level further out: `at` gains the prefix. */
export function within(prefix: string, problem: Problem): Problem {
  return { ...problem, at: problem.at === "" ? prefix : `${prefix}.${problem.at}` };
}

const longestQuote = 80;

function quote(text: string): string {
  return `"${text.length > longestQuote ? `${text.slice(0, longestQuote)}…` : text}"`;
}
