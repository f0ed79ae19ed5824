import type { Distribution } from "../distribution.ts";
import type { RadialLaw } from "./radialLaw.ts";

/** Distance from the origin of a point that moves along a straight line only: its place along is distributed as `along`, its distance off is `off` >= 0; `error` tells how far that is from true. */
export function foldedLaw(along: Distribution, off: number, error: number): RadialLaw {
  return {
    error: error + 2 * along.error,
    method: `folded, ${along.method}`,
    evaluate(radius) {
      if (!(radius > off)) return [0, 0];
      const half = Math.sqrt((radius - off) * (radius + off));
      return [along.chanceWithin(-half, half), (radius / half) * (along.density(half) + along.density(-half))];
    },
  };
}
