import { readFileSync } from "node:fs";
import { describeProblem, type Outcome } from "../../lib/base/outcome.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup, type StrategyEvaluation } from "../../lib/evaluateSetup.ts";
import type { Budget } from "../../lib/uncertainty/budget.ts";

/** The document beside these tests, read as a user's file would be. */
export function openDocument(name: string): SetupDocument {
  return must(parseDocument(readFileSync(new URL(`./${name}.json`, import.meta.url), "utf8")));
}

export function evaluateDocument(document: SetupDocument) {
  const evaluation = evaluateSetup(document);
  const strategies = new Map(evaluation.strategies.map(({ id, evaluation: outcome }) => [id, outcome]));
  return {
    ...evaluation,
    strategy: (id: string): StrategyEvaluation => must(strategies.get(id) as Outcome<StrategyEvaluation>),
    stack: (id: string, characteristic: string, view: "thisPart" | "batch") => {
      const stacks = must(strategies.get(id) as Outcome<StrategyEvaluation>)[view].stacks.map(must);
      return stacks.find((stack) => stack.characteristic === characteristic) as (typeof stacks)[number];
    },
    face: (touch: string): Budget => evaluation.faces.find(({ id }) => id === touch)?.budget as Budget,
    size: (id: string) => evaluation.sizes.find((size) => size.id === id) as (typeof evaluation.sizes)[number],
  };
}

export function must<T>(outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw new Error(outcome.problems.map(describeProblem).join("\n"));
}

/** The amount of the source whose id contains the text; 0 when it has none. */
export function amountOf({ contributions }: Budget, text: string): number {
  const found = contributions.filter(({ source }) => source.id.includes(text));
  return Math.sqrt(found.reduce((total, { amount }) => total + amount ** 2, 0));
}

/** Standard uncertainty without the sources whose ids contain one of the texts. */
export function uncertaintyWithout({ contributions }: Budget, texts: readonly string[]): number {
  const kept = contributions.filter(({ source }) => !texts.some((text) => source.id.includes(text)));
  return Math.sqrt(kept.reduce((total, { amount }) => total + amount ** 2, 0));
}
