/** Slips that explanations are made of. */
export const slipKinds = [
  "radius or diameter",
  "radius counted in already",
  "wrong side",
  "inch or millimetre",
  "other tool",
  "block",
  "digits exchanged",
  "decimal point moved",
  "minus dropped",
  "work coordinate",
  "shift left on",
  "not seated",
  "something else",
] as const;
export type SlipKind = (typeof slipKinds)[number];

/** Chances of slips, from 0 to 1, that a person has stated in the place of the usual ones. */
export type SlipChances = ReadonlyMap<SlipKind, number>;

/**
 * How often each slip happens at one touch, tool or entry where it could: shop default, editable. No source is known for any of them; only their
 * proportions matter, and a reading that decides matters more.
 */
export const usualSlipChances: Readonly<Record<SlipKind, number>> = {
  "radius or diameter": 0.003,
  "radius counted in already": 0.003,
  "wrong side": 0.002,
  "inch or millimetre": 0.001,
  "other tool": 0.002,
  block: 0.003,
  "digits exchanged": 0.001,
  "decimal point moved": 0.001,
  "minus dropped": 0.001,
  "work coordinate": 0.001,
  "shift left on": 0.001,
  "not seated": 0.002,
  "something else": 0.001,
};
