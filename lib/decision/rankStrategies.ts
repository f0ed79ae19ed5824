import type { Outcome } from "../base/outcome.ts";
import type { Judgement } from "../tolerance/judgeStrategy.ts";

/** What a ranking looks at. */
export interface Ranked {
  readonly id: string;
  readonly batch: Outcome<Judgement>;
  readonly thisPart: Outcome<Judgement>;
}

/**
 * Strategies in the order in which they should be preferred: by the chance that
 * this part meets all characteristics, then by that of the batch. Chances closer
 * than their own standard errors are told apart by the tighter share of the
 * tolerances instead; strategies whose chance is not known come last, in
 * document order.
 */
export function rankStrategies(strategies: readonly Ranked[]): string[] {
  return strategies
    .map((strategy, order) => ({ id: strategy.id, order, keys: [keyOf(strategy.thisPart), keyOf(strategy.batch)] }))
    .sort((a, b) => {
      for (const [i, key] of a.keys.entries()) {
        const other = b.keys[i] as Key;
        const apart = other.chance - key.chance;
        if (apart !== 0 && Math.abs(apart) > key.standardError + other.standardError) return apart;
      }
      for (const [i, key] of a.keys.entries()) {
        const apart = key.share - (b.keys[i] as Key).share;
        if (apart !== 0) return apart;
      }
      return a.order - b.order;
    })
    .map(({ id }) => id);
}

interface Key {
  readonly chance: number;
  readonly standardError: number;
  /** Largest share of a tolerance at its root sum square. */
  readonly share: number;
}

function keyOf(judgement: Outcome<Judgement>): Key {
  if (!judgement.ok || !judgement.value.chanceOfAll.ok) return { chance: -1, standardError: 0, share: Number.MAX_VALUE };
  const { chance, standardError } = judgement.value.chanceOfAll.value;
  const share = judgement.value.stacks.reduce((most, stack) => (stack.ok ? Math.max(most, stack.value.shares.rootSumSquare) : most), 0);
  return { chance, standardError, share };
}
