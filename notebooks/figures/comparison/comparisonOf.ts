import { failure, type Outcome, success } from "../../../lib/base/outcome.ts";
import type { SetupEvaluation } from "../../../lib/decision/setupEvaluation.ts";
import { type Characteristic, rowOf } from "../../../lib/part/part.ts";
import type { SampledChance } from "../../../lib/tolerance/chanceOfAll.ts";
import type { View } from "../../../lib/tolerance/deviations.ts";
import type { Judgement } from "../../../lib/tolerance/judgeStrategy.ts";
import type { Stack } from "../../../lib/tolerance/stack.ts";
import { outcomeInWords } from "../outcomeInWords.ts";

/** How a strategy meets a row: of a pattern the stack of its worst member, and the chance of all its members. */
export interface ComparisonCell {
  readonly stack: Stack;
  readonly chance: number;
  /** The member, where the row has several. */
  readonly worst: string | undefined;
}

/** One strategy, ready to stand beside others. */
export interface ComparisonColumn {
  readonly id: string;
  /** 1 for the one to be preferred. */
  readonly rank: number;
  /** By row of the drawing, in document order. */
  readonly cells: readonly Outcome<ComparisonCell>[];
  readonly chanceOfAll: Outcome<SampledChance>;
  readonly bottleneck: string | undefined;
  /** Undefined where the strategy could not be solved. */
  readonly touches: number | undefined;
  /** Why nothing of it is known; undefined when something is. */
  readonly reason: string | undefined;
}

export interface Comparison {
  /** Rows of the drawing. */
  readonly rows: readonly string[];
  /** In the order of the ranking. */
  readonly columns: readonly ComparisonColumn[];
}

/** Strategies in ranked order against characteristics, in one view. */
export function comparisonOf({ setup, strategies, ranking }: SetupEvaluation, view: View): Comparison {
  const rows = [...new Set(setup.part.characteristics.map(rowOf))];
  const known = new Map(strategies.map(({ id, evaluation }) => [id, evaluation]));
  const columns = ranking.order.flatMap((id, i): ComparisonColumn[] => {
    const evaluation = known.get(id);
    if (evaluation === undefined) return [];
    if (evaluation.ok) {
      const { effort } = evaluation.value;
      const judgement = evaluation.value[view];
      const { chanceOfAll, bottleneck } = judgement;
      const cells = cellsOf(setup.part.characteristics, judgement);
      const tightest = setup.part.characteristics.find(({ id: name }) => name === bottleneck);
      return [{ id, rank: i + 1, cells, chanceOfAll, bottleneck: tightest && rowOf(tightest), touches: effort.touches, reason: undefined }];
    }
    const lost = failure(...evaluation.problems);
    return [
      {
        id,
        rank: i + 1,
        cells: rows.map(() => lost),
        chanceOfAll: lost,
        bottleneck: undefined,
        touches: undefined,
        reason: outcomeInWords(evaluation.problems),
      },
    ];
  });
  return { rows, columns };
}

function cellsOf(characteristics: readonly Characteristic[], { stacks, rows }: Judgement): Outcome<ComparisonCell>[] {
  return characteristics.flatMap((characteristic, i): Outcome<ComparisonCell>[] => {
    const stack = stacks[i] as Outcome<Stack>;
    if (characteristic.row === undefined)
      return [stack.ok ? success({ stack: stack.value, chance: stack.value.chance, worst: undefined }) : stack];
    const pattern = rows.find(({ row }) => row === characteristic.row);
    // The whole row stands where its first member does.
    if (pattern === undefined || pattern.members[0] !== i) return [];
    const { chanceOfAll, worst } = pattern;
    if (!chanceOfAll.ok) return [chanceOfAll];
    const told = stacks.flatMap((each) => (each.ok && each.value.characteristic === worst ? [each.value] : []))[0] as Stack;
    return [success({ stack: told, chance: chanceOfAll.value.chance, worst })];
  });
}
