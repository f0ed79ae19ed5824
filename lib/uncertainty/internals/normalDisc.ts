import { normalDensity, normalUpperTail } from "../special/normalCumulative.ts";
import { type ChordFrame, chordsOf } from "./chords.ts";

/** Chance of a bivariate normal within `radius`, and its rate of growth with the radius, by quadrature over the chords of the disc. */
export function normalDisc(frame: ChordFrame, radius: number): readonly [chance: number, density: number] {
  const { sigmaA, sigmaB } = frame;
  let chance = 0;
  let density = 0;
  const finer = { ...frame, nodes: frame.nodes + extraNodes };
  for (const { b, low, high, weight, growth } of chordsOf(finer, radius, farthest * sigmaB)) {
    const height = normalDensity(b / sigmaB) / sigmaB;
    chance += weight * height * normalBetween(low / sigmaA, high / sigmaA);
    density += (growth * height * (normalDensity(low / sigmaA) + normalDensity(high / sigmaA))) / sigmaA;
  }
  return [Math.min(1, Math.max(0, chance)), density];
}

/** Chance of a standard normal between two values, told without cancellation in either tail. */
export function normalBetween(low: number, high: number): number {
  return low > 0 ? normalUpperTail(low) - normalUpperTail(high) : normalUpperTail(-high) - normalUpperTail(-low);
}

/** Here nodes are cheap: they bring the error from 1e-9 to below 1e-13. */
const extraNodes = 24;
/** Standard deviations beyond which less than 1e-15 is left. */
export const farthest = 8.2;
