import { chanceInDigits, groups } from "./formatChance.ts";

/** A chance, and what it may be off: the bound of a computation, or the standard error of trials. */
export interface KnownChance {
  readonly chance: number;
  readonly doubt: number;
}

/** The chance of being outside as far as it is known: one that is smaller than what it may be off is told as a bound. */
export function outsideInWords({ chance, doubt }: KnownChance, trials?: number): string {
  const outside = Math.max(0, 1 - chance);
  if (trials !== undefined) {
    if (outside * trials < 0.5) return `none of ${groups(trials)} trials`;
    return `${chanceInDigits(outside)}, standard error ${chanceInDigits(doubt)}`;
  }
  return outside <= doubt ? `below ${chanceInDigits(Math.min(1, outside + doubt)).replace(/^below /, "")}` : chanceInDigits(outside);
}
