import { chanceInDigits, groups } from "./formatChance.ts";

/** A chance, and what it may be off: the bound of a computation, or the standard error of trials. */
export interface KnownChance {
  readonly chance: number;
  readonly doubt: number;
}

/** The chance of being outside as far as it is known: one that is smaller than what it may be off is told as a bound, one whose digits may be off with its doubt. */
export function outsideInWords({ chance, doubt }: KnownChance, trials?: number): string {
  const outside = Math.max(0, 1 - chance);
  if (trials !== undefined) {
    if (outside * trials < 0.5) return `none of ${groups(trials)} trials`;
    return `${chanceInDigits(outside)}, standard error ${chanceInDigits(doubt)}`;
  }
  if (outside <= doubt) return `below ${chanceInDigits(Math.min(1, outside + doubt)).replace(/^below /, "")}`;
  return outside < surely * doubt ? `${chanceInDigits(outside)} ± ${chanceInDigits(doubt)}` : chanceInDigits(outside);
}

/** A chance that is so many times its doubt, or more, has the two digits that are told. */
export const surely = 20;
