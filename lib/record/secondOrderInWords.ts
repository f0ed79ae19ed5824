import { describeProblem, type Outcome } from "../base/outcome.ts";
import { type SecondOrder, secondOrderMatters } from "../uncertainty/secondOrder.ts";
import type { ResultWriter } from "./firstOrderInWords.ts";
import { significantDigits } from "./significantDigits.ts";

/**
 * What the terms of second order do to u of a result, in a few words, or why that is not known; undefined where they change nothing that is shown.
 *
 * @param result of two components for a point in X and Y
 */
export function secondOrderInWords(result: readonly Outcome<SecondOrder>[], writer: ResultWriter): string | undefined {
  const parts = result.flatMap((component, i) => {
    const words = componentInWords(component, writer);
    return words === undefined ? [] : [result.length > 1 ? `along ${i === 0 ? "X" : "Y"} ${words}` : words];
  });
  return parts.length > 0 ? parts.join("; ") : undefined;
}

function componentInWords(component: Outcome<SecondOrder>, { factor, suffix, withUncertainty }: ResultWriter): string | undefined {
  if (!component.ok) return component.problems.map((problem) => describeProblem({ ...problem, at: "" }).replace(/\.$/, "")).join(" ");
  const { firstOrder, standardUncertainty, doubt, terms } = component.value;
  const length = (value: number) => `${value * factor === 0 ? "0" : withUncertainty(0, value).uncertainty}${suffix}`;
  const change = Math.abs(standardUncertainty - firstOrder);
  // What is known far better than it matters is simply known.
  const knownTo = doubt > seenDoubt * change ? `, known to ${length(doubt)}` : "";
  const known = `${length(standardUncertainty)} in place of ${length(firstOrder)}${knownTo}`;
  switch (secondOrderMatters(component.value, significantDigits)) {
    case "does not matter":
      return undefined;
    case "not known":
      return `whether the terms of second order matter is not known: u with them would be ${known}`;
    case "matters": {
      const [largest] = terms;
      const [a, b] = largest?.sources ?? [];
      const pair = a && b ? `, most by ${a.label}${a === b ? " alone" : ` together with ${b.label}`}` : "";
      return `the terms of second order matter: u with them is ${known}${pair}`;
    }
  }
}

/** Share of a change of u whose doubt is told. */
const seenDoubt = 0.01;

/** That the terms of second order change nothing that is shown of any result; undefined where one of them has something to tell. */
export function secondOrderOfAll(results: readonly (readonly Outcome<SecondOrder>[])[]): string | undefined {
  const isQuiet = (component: Outcome<SecondOrder>) =>
    component.ok && secondOrderMatters(component.value, significantDigits) === "does not matter";
  return results.every((result) => result.every(isQuiet))
    ? "The terms of second order (JCGM 100, 5.1.2, note) change no standard uncertainty in its two digits."
    : undefined;
}
