import type { Outcome } from "../base/outcome.ts";
import type { SampledChance } from "../tolerance/chanceOfAll.ts";
import type { Judgement } from "../tolerance/judgeStrategy.ts";

/** What a ranking looks at. */
export interface Ranked {
  readonly id: string;
  readonly batch: Outcome<Judgement>;
  readonly thisPart: Outcome<Judgement>;
}

/** Chances of single positions are good to a few parts in a million (see radialChance): what is nearer does not decide. */
const numerical = 1e-5;

/**
 * Strategies in the order in which they should be preferred: by the chance that
 * this part meets all characteristics, then by that of the batch. In turn, the
 * best of what is left and those that its own scatter does not tell from it are
 * taken together; among them the next question decides, and at last the tighter
 * share of the tolerances. So the result depends on the document's order only
 * between equals. Strategies whose chance is not known come last.
 *
 * All strategies meet the same draws, so coincidences that no trial has seen are
 * unseen for all, and only the scatter of what was seen counts here.
 */
export function rankStrategies(strategies: readonly Ranked[]): string[] {
  const left = strategies.map(({ id, thisPart, batch }): Entry => ({ id, judgements: [thisPart, batch] }));
  const ranked: string[] = [];
  while (left.length > 0) {
    const next = tightest(leaders(leaders(left, 0), 1));
    ranked.push(next.id);
    left.splice(left.indexOf(next), 1);
  }
  return ranked;
}

interface Entry {
  readonly id: string;
  /** This part, the batch: of the batch only what decides is worked out. */
  readonly judgements: readonly [Outcome<Judgement>, Outcome<Judgement>];
}

/** The entry with the best chance, and those that cannot be told from it. */
function leaders(entries: readonly Entry[], question: 0 | 1): readonly Entry[] {
  if (entries.length === 1) return entries;
  const chances = entries.map(({ judgements }) => chanceOf(judgements[question]));
  const best = chances.reduce((a, b) => (b.chance > a.chance ? b : a));
  return entries.filter((_, i) => {
    const { chance, scatter } = chances[i] as Pick<SampledChance, "chance" | "scatter">;
    return best.chance - chance <= best.scatter + scatter + numerical;
  });
}

/** Of entries that their chances do not tell apart; shares are looked at only here, where they decide. */
function tightest(entries: readonly Entry[]): Entry {
  const [first, ...others] = entries as readonly [Entry, ...Entry[]];
  if (others.length === 0) return first;
  const shared = entries.map((entry) => ({ entry, shares: entry.judgements.map(largestShare) as [number, number] }));
  return shared.reduce((best, next) => (isLess(next.shares, best.shares) ? next : best)).entry;
}

function isLess(a: readonly [number, number], b: readonly [number, number]): boolean {
  return a[0] < b[0] || (a[0] === b[0] && a[1] < b[1]);
}

/** Largest share of a tolerance at its root sum square. */
function largestShare(judgement: Outcome<Judgement>): number {
  if (!judgement.ok || !judgement.value.chanceOfAll.ok) return Number.MAX_VALUE;
  return judgement.value.stacks.reduce((most, stack) => (stack.ok ? Math.max(most, stack.value.shares.rootSumSquare) : most), 0);
}

function chanceOf(judgement: Outcome<Judgement>): Pick<SampledChance, "chance" | "scatter"> {
  if (!judgement.ok || !judgement.value.chanceOfAll.ok) return { chance: -1, scatter: 0 };
  return judgement.value.chanceOfAll.value;
}
