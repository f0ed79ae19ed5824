import { capitalise } from "../base/capitalise.ts";
import { listText, quotedList } from "../base/listText.ts";
import type { StrategyDeterminacy, TouchRole } from "../datum/strategyDeterminacy.ts";
import type { SetupEvaluation } from "../decision/setupEvaluation.ts";
import { disagreeBelow } from "../frame/agreement.ts";
import { figuresIn } from "./internals/figures.ts";

/** What a strategy is, what it finds and leaves free, and what its touches have to spare, as sentences. */
export function determinacySentences(
  determinacy: StrategyDeterminacy,
  { setup, sizes }: Pick<SetupEvaluation, "setup" | "sizes">,
): string[] {
  const { words, motions, free, touches } = determinacy;
  const inState = (wanted: (typeof motions)[number]["state"]) => motions.flatMap(({ of, state }) => (state === wanted ? [nameOf(of)] : []));
  const [found, open] = [inState("found"), inState("free")];
  return [
    `${capitalise(words)}.`,
    `${found.length === 0 ? "Nothing is found" : `Found: ${listText(found)}`}${open.length === 0 ? "" : `; not found: ${listText(open)}`}${inState("not looked at").length > 0 ? "; the turn is not looked at" : ""}.`,
    ...(free.length === 0 ? [] : [`Free: ${listText(free.map(({ words: motion }) => motion))}.`]),
    ...(touches.length === 0 ? [] : [spareInWords(determinacy)]),
    ...sizesInWords(determinacy, { setup, sizes }),
  ];
}

function nameOf(motion: StrategyDeterminacy["motions"][number]["of"]): string {
  return motion === "turn" ? "the turn about Z" : motion;
}

function spareInWords({ touches, spare, agreement }: StrategyDeterminacy): string {
  if (spare === 0)
    return touches.every(({ frees }) => frees.length > 0)
      ? `${touches.length === 1 ? "Its one touch is" : "All of its touches are"} needed: nothing would show a mistake in one.`
      : "Nothing would show a mistake in one of its touches.";
  const checking = touches.filter(({ checkedBy }) => checkedBy.length > 0).map(({ touch }) => touch);
  const verdict =
    agreement === undefined
      ? ""
      : agreement.chance < disagreeBelow
        ? " They disagree by more than their doubts explain."
        : " They agree within their doubts.";
  return `Redundant: ${spare === 1 ? "one reading is" : `${spare} readings are`} more than needed; ${quotedList(checking)} check each other.${verdict}`;
}

function sizesInWords({ sizes: told }: StrategyDeterminacy, { setup, sizes }: Pick<SetupEvaluation, "setup" | "sizes">): string[] {
  if (told.length === 0) return [];
  const figures = figuresIn(setup.unit);
  const words = told.map(({ id }) => {
    const known = sizes.find((size) => size.id === id)?.budget;
    if (known === undefined) return `"${id}"`;
    const { value, standardUncertainty } = figures.result(known);
    return `"${id}", ${value} ${figures.unit} (standard uncertainty ${standardUncertainty})`;
  });
  return [`Its touches tell the ${told.length === 1 ? "size" : "sizes"} ${listText(words)}.`];
}

/** What one touch is there for, in a few words. */
export function touchRoleInWords({ frees, measures, checkedBy }: TouchRole): string {
  const parts = [
    ...(frees.length > 0 ? [`needed: without it ${listText(frees.map(({ words }) => words))} is free`] : []),
    ...(frees.length === 0 && measures.length > 0 ? [`tells ${listText(measures)}`] : []),
    ...(checkedBy.length > 0 ? [`checked by ${listText(checkedBy)}`] : []),
  ];
  return parts.length === 0 ? "not needed, and nothing checks it" : parts.join("; ");
}
