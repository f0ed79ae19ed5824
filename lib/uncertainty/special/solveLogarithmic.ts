/**
 * The x > 0 at which a tail or a centre chance reaches `target`, by Newton steps in ln x and ln chance.
 *
 * In these coordinates the chances of Student's t and chi-square are concave, so the first step lands on the side from which all
 * further ones close in monotonically, from any start (their x·density/chance is monotone).
 *
 * @param chanceAt chance at x, and x times its derivative
 */
export function solveLogarithmic(target: number, start: number, chanceAt: (x: number) => readonly [chance: number, slope: number]): number {
  let x = start;
  for (let step = 0; step < 200; step += 1) {
    const [chance, slope] = chanceAt(x);
    if (!(chance > 0)) {
      x /= 2; // the tail underflowed: far right of any answer
      continue;
    }
    const move = (Math.log(target / chance) * chance) / slope;
    x *= Math.exp(Math.max(-largestMove, Math.min(largestMove, move)));
    // Newton doubles the digits: the step after this one would only rock the last bits.
    if (!(Math.abs(move) > 1e-8)) break;
  }
  return x;
}

/** In ln x; only a poor start meets it. */
const largestMove = 50;
