import type { Outcome } from "../base/outcome.ts";
import type { Judgement } from "../tolerance/judgeStrategy.ts";

/** What a ranking looks at. */
export interface Ranked {
  readonly id: string;
  readonly batch: Outcome<Judgement>;
  readonly thisPart: Outcome<Judgement>;
}

/** Chances from computed distributions carry an error near 1e-11: what is nearer does not decide. */
const computedError = 1e-10;

/**
 * Strategies in the order in which they should be preferred: by the chance that
 * this part meets all characteristics, then by that of the batch. Chances closer
 * than their own standard errors are one group, told apart by the next question
 * and at last by the tighter share of the tolerances; groups are joined
 * neighbour by neighbour, so that the result does not depend on the order of the
 * document. Strategies whose chance is not known come last.
 */
export function rankStrategies(strategies: readonly Ranked[]): string[] {
  const entries = strategies.map(({ id, thisPart, batch }): Entry => ({ id, keys: [keyOf(thisPart), keyOf(batch)] }));
  return byChance(entries, 0).map(({ id }) => id);
}

interface Entry {
  readonly id: string;
  /** This part, the batch. */
  readonly keys: readonly [Key, Key];
}

interface Key {
  readonly chance: number;
  readonly standardError: number;
  /** Largest share of a tolerance at its root sum square. */
  readonly share: number;
}

function byChance(entries: readonly Entry[], question: 0 | 1): Entry[] {
  const key = (entry: Entry) => entry.keys[question];
  const sorted = [...entries].sort((a, b) => key(b).chance - key(a).chance);
  const groups: Entry[][] = [];
  for (const entry of sorted) {
    const group = groups[groups.length - 1];
    const neighbour = group?.[group.length - 1];
    if (group !== undefined && neighbour !== undefined && areTied(key(neighbour), key(entry))) group.push(entry);
    else groups.push([entry]);
  }
  return groups.flatMap((group) => (question === 0 ? byChance(inOrderOf(group, entries), 1) : byShare(inOrderOf(group, entries))));
}

function areTied(a: Key, b: Key): boolean {
  return Math.abs(a.chance - b.chance) <= a.standardError + b.standardError + computedError;
}

/** The document's order decides between equals. */
function inOrderOf(group: readonly Entry[], entries: readonly Entry[]): Entry[] {
  return entries.filter((entry) => group.includes(entry));
}

function byShare(entries: readonly Entry[]): Entry[] {
  return [...entries].sort((a, b) => a.keys[0].share - b.keys[0].share || a.keys[1].share - b.keys[1].share);
}

function keyOf(judgement: Outcome<Judgement>): Key {
  if (!judgement.ok || !judgement.value.chanceOfAll.ok) return { chance: -1, standardError: 0, share: Number.MAX_VALUE };
  const { chance, standardError } = judgement.value.chanceOfAll.value;
  const share = judgement.value.stacks.reduce((most, stack) => (stack.ok ? Math.max(most, stack.value.shares.rootSumSquare) : most), 0);
  return { chance, standardError, share };
}
