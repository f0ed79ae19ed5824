import { once } from "../base/once.ts";
import type { Outcome, Problem } from "../base/outcome.ts";
import { failure, success } from "../base/outcome.ts";
import type { Setup } from "../datum/setup.ts";
import type { Characteristic } from "../part/part.ts";
import type { Budget } from "../uncertainty/budget.ts";
import type { Draws } from "../uncertainty/draws.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { chanceOfAll, type SampledChance } from "./chanceOfAll.ts";
import type { Deviation } from "./deviations.ts";
import { type Stack, stackOf } from "./stack.ts";

/** What a strategy does to the drawing's characteristics, in one view. All of it is worked out when it is first asked for. */
export interface Judgement {
  /** By characteristic, in document order. */
  readonly stacks: readonly Outcome<Stack>[];
  /** Chance that all are met at once; a problem when one of them is not known. */
  readonly chanceOfAll: Outcome<SampledChance>;
  /** The characteristic with the smallest chance, the larger share deciding a tie. */
  readonly bottleneck: string | undefined;
  /** Rows of the drawing that demand several things at once, such as patterns, in document order. */
  readonly rows: readonly RowJudgement[];
}

/** A row that is met when all its members are. */
export interface RowJudgement {
  readonly row: string;
  /** Its members, by their place among the stacks. */
  readonly members: readonly number[];
  /** Chance that all its members are met at once; a problem when one of them is not known. */
  readonly chanceOfAll: Outcome<SampledChance>;
  /** The member with the smallest chance, the larger share deciding a tie. */
  readonly worst: string | undefined;
}

/**
 * @param found deviation of every characteristic, in document order; asked for with the first result
 * @param budgetOf budget of a component of a deviation
 */
export function judgeStrategy(
  { part, unread }: Setup,
  found: () => readonly Outcome<Deviation>[],
  budgetOf: (component: Uncertain) => Budget,
  draws: Draws,
): Judgement {
  const stacks = once(() =>
    found().map(
      (deviation, i): Outcome<Stack> =>
        deviation.ok ? success(stackOf(part.characteristics[i] as Characteristic, deviation.value.map(budgetOf))) : deviation,
    ),
  );
  const known = once(() => knownOf(stacks()));
  const allMet = once(() => together(stacks(), known(), unread, draws));
  const rows = once(() => rowsOf(part.characteristics, stacks(), draws));
  return {
    get stacks() {
      return stacks();
    },
    get rows() {
      return rows();
    },
    get chanceOfAll() {
      return allMet();
    },
    get bottleneck() {
      return tightest(known())?.characteristic;
    },
  };
}

function knownOf(stacks: readonly Outcome<Stack>[]): Stack[] {
  return stacks.flatMap((stack) => (stack.ok ? [stack.value] : []));
}

function rowsOf(characteristics: readonly Characteristic[], stacks: readonly Outcome<Stack>[], draws: Draws): RowJudgement[] {
  const members = new Map<string, number[]>();
  characteristics.forEach(({ row }, i) => {
    if (row !== undefined) members.set(row, [...(members.get(row) ?? []), i]);
  });
  return [...members].map(([row, places]): RowJudgement => {
    const own = places.map((i) => stacks[i] as Outcome<Stack>);
    const allMet = once(() => together(own, knownOf(own), new Set(), draws));
    return {
      row,
      members: places,
      get chanceOfAll() {
        return allMet();
      },
      get worst() {
        return tightest(knownOf(own))?.characteristic;
      },
    };
  });
}

function together(
  stacks: readonly Outcome<Stack>[],
  known: readonly Stack[],
  unread: ReadonlySet<string>,
  draws: Draws,
): Outcome<SampledChance> {
  // A demand that cannot be read is one that nobody knows to be met.
  const unknown = [...unread].filter((row) => row.startsWith("part.characteristics."));
  const problems: Problem[] = [
    ...unknown.map((at) => ({ at, what: "this characteristic cannot be read, so the chance that all are met is not known" })),
    ...stacks.flatMap((stack) => (stack.ok ? [] : stack.problems)),
  ];
  if (stacks.length === 0)
    return failure({ at: "part.characteristics", what: "the drawing demands nothing yet", remedy: "add a characteristic" });
  return problems.length > 0 ? failure(...problems) : success(chanceOfAll(known, draws));
}

function tightest(stacks: readonly Stack[]): Stack | undefined {
  return stacks.reduce<Stack | undefined>((worst, stack) => {
    if (worst === undefined || stack.chance < worst.chance) return stack;
    return stack.chance === worst.chance && stack.shares.rootSumSquare > worst.shares.rootSumSquare ? stack : worst;
  }, undefined);
}
