import { groups } from "./formatChance.ts";

/** The largest of 1, 2, 5, 10, 20, 50 … by which something may be enlarged without exceeding `wanted`; 1 when it is large already. */
export function enlargement(real: number, wanted: number): number {
  if (!(real > 0) || !(wanted > 0)) throw new RangeError(`enlargement: expected two lengths above 0, got ${real} and ${wanted}`);
  const ratio = wanted / real;
  if (ratio < 2) return 1;
  const decade = 10 ** Math.floor(Math.log10(ratio));
  const leading = ratio / decade;
  return Math.round((leading >= 5 ? 5 : leading >= 2 ? 2 : 1) * decade);
}

/** How the factor is written on a figure: `drawn × 2 000`. */
export function enlargementText(factor: number): string {
  return factor === 1 ? "drawn to scale" : `drawn × ${groups(factor)}`;
}
