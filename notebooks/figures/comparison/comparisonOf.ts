import { failure, type Outcome } from "../../../lib/base/outcome.ts";
import type { SetupEvaluation } from "../../../lib/decision/setupEvaluation.ts";
import { touchCount } from "../../../lib/decision/touchCount.ts";
import type { SampledChance } from "../../../lib/tolerance/chanceOfAll.ts";
import type { View } from "../../../lib/tolerance/deviations.ts";
import type { Stack } from "../../../lib/tolerance/stack.ts";
import { outcomeInWords } from "../outcomeInWords.ts";

/** One strategy, ready to stand beside others. */
export interface ComparisonColumn {
  readonly id: string;
  /** 1 for the one to be preferred. */
  readonly rank: number;
  /** By characteristic, in document order. */
  readonly stacks: readonly Outcome<Stack>[];
  readonly chanceOfAll: Outcome<SampledChance>;
  readonly bottleneck: string | undefined;
  /** Undefined where the strategy could not be solved. */
  readonly touches: number | undefined;
  /** Why nothing of it is known; undefined when something is. */
  readonly reason: string | undefined;
}

export interface Comparison {
  readonly characteristics: readonly string[];
  /** In the order of the ranking. */
  readonly columns: readonly ComparisonColumn[];
}

/** Strategies in ranked order against characteristics, in one view. */
export function comparisonOf({ setup, strategies, ranking }: SetupEvaluation, view: View): Comparison {
  const characteristics = setup.part.characteristics.map(({ id }) => id);
  const known = new Map(strategies.map(({ id, evaluation }) => [id, evaluation]));
  const columns = ranking.flatMap((id, i): ComparisonColumn[] => {
    const evaluation = known.get(id);
    if (evaluation === undefined) return [];
    if (evaluation.ok) {
      const { stacks, chanceOfAll, bottleneck } = evaluation.value[view];
      const touches = touchCount(evaluation.value.solution);
      return [{ id, rank: i + 1, stacks, chanceOfAll, bottleneck, touches, reason: undefined }];
    }
    const lost = failure(...evaluation.problems);
    return [
      {
        id,
        rank: i + 1,
        stacks: characteristics.map(() => lost),
        chanceOfAll: lost,
        bottleneck: undefined,
        touches: undefined,
        reason: outcomeInWords(evaluation.problems),
      },
    ];
  });
  return { characteristics, columns };
}
