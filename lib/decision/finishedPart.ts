import { once } from "../base/once.ts";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { rowOf } from "../part/part.ts";
import { chanceOfAll, type SampledChance } from "../tolerance/chanceOfAll.ts";
import type { View } from "../tolerance/deviations.ts";
import type { Stack } from "../tolerance/stack.ts";
import type { Draws } from "../uncertainty/draws.ts";
import type { SetupEvaluation } from "./setupEvaluation.ts";
import { strategyNamed } from "./strategyNamed.ts";

/** The drawing, judged on a part that has gone through all its operations by the strategies in use. */
export type FinishedPart = Readonly<Record<View, FinishedJudgement>>;

export interface FinishedJudgement {
  /** By characteristic, in document order; of a row that demands several things at once, each of them. */
  readonly characteristics: readonly FinishedCharacteristic[];
  /** Chance that all are met at once: operations share tools, machine and sizes of the part, so it is no product. Worked out when first asked for. */
  readonly chanceOfAll: Outcome<SampledChance>;
}

export interface FinishedCharacteristic {
  readonly id: string;
  /** The one that cuts the last of its elements; undefined where it cannot be read. */
  readonly operation: string | undefined;
  readonly stack: Outcome<Stack>;
}

/**
 * @param evaluations of all operations, in their order
 * @param demanded what the document demands, whether it can be read or not
 */
export function finishedPart(
  evaluations: readonly SetupEvaluation[],
  demanded: readonly { readonly id: string }[],
  draws: Draws,
): FinishedPart {
  return { thisPart: judged("thisPart", evaluations, demanded, draws), batch: judged("batch", evaluations, demanded, draws) };
}

function judged(
  view: View,
  evaluations: readonly SetupEvaluation[],
  demanded: readonly { readonly id: string }[],
  draws: Draws,
): FinishedJudgement {
  const found = evaluations.flatMap((evaluation) => stacksOf(evaluation, view));
  const characteristics = demanded.flatMap(({ id }): readonly FinishedCharacteristic[] => {
    // A row may demand several things at once.
    const members = found.filter(({ row }) => row === id);
    return members.length > 0 ? members : [{ id, operation: undefined, stack: failure(unread(id)) }];
  });
  const allMet = once(() => together(characteristics, draws));
  return {
    characteristics,
    get chanceOfAll() {
      return allMet();
    },
  };
}

function stacksOf({ setup, strategies }: SetupEvaluation, view: View): (FinishedCharacteristic & { readonly row: string })[] {
  const { part, chosen, operation } = setup;
  const found = strategyNamed(strategies, chosen);
  const at = `operations.${operation?.id ?? ""}.chosen`;
  const inUse = found.ok ? found : failure(...found.problems.map((problem) => (problem.at === "chosen" ? { ...problem, at } : problem)));
  return part.characteristics.map((characteristic, i) => ({
    id: characteristic.id,
    row: rowOf(characteristic),
    operation: operation?.id,
    stack: inUse.ok ? (inUse.value[view].stacks[i] as Outcome<Stack>) : failure(...inUse.problems),
  }));
}

function unread(id: string): Problem {
  return { at: `part.characteristics.${id}`, what: "this characteristic cannot be read", remedy: "see what is said there" };
}

function together(characteristics: readonly FinishedCharacteristic[], draws: Draws): Outcome<SampledChance> {
  if (characteristics.length === 0)
    return failure({ at: "part.characteristics", what: "the drawing demands nothing yet", remedy: "add a characteristic" });
  const problems = characteristics.flatMap(({ stack }) => (stack.ok ? [] : stack.problems));
  if (problems.length > 0) return failure(...problems);
  return success(
    chanceOfAll(
      characteristics.flatMap(({ stack }) => (stack.ok ? [stack.value] : [])),
      draws,
    ),
  );
}
