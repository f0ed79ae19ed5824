import { studentDensity, studentUpperTail } from "../special/studentT.ts";
import type { Ingredients } from "./ingredients.ts";

/** The chance far out of a sum with t terms: there a single t does it, and the rest only blurs it. */
export interface FarTail {
  /** Tail and density at z, to second order in the variance of the rest. */
  evaluate(z: number): readonly [tail: number, density: number];
  /** Guess of the error at z: the fourth-order term, and two terms going far together. Of no use where many nearly normal terms go there together. */
  error(z: number): number;
  /** The law means nothing nearer than this. */
  readonly smallestScale: number;
}

/**
 * P(Z > z) ≈ Σᵢ E[T̄ᵢ((z - Rᵢ)/cᵢ)] over the t terms (one term goes far: S. Foss, D. Korshunov, S. Zachary, An Introduction to Heavy-Tailed
 * and Subexponential Distributions, 2nd ed. 2013, ch. 3), each expanded in the moments of the rest Rᵢ,
 * which is symmetric or nearly so: what its third moment does is counted as error.
 */
export function farTailOf(sum: Ingredients): FarTail {
  const variances = sum.students.map(
    ({ scale, degreesOfFreedom }) => scale * scale * (degreesOfFreedom > 2.5 ? degreesOfFreedom / (degreesOfFreedom - 2) : 5),
  );
  const total =
    sum.normalVariance +
    sum.boxes.reduce((all, half) => all + (half * half) / 3, 0) +
    sum.arcsines.reduce((all, half) => all + (half * half) / 2, 0) +
    sum.shaped.reduce((all, { scale, shape }) => all + scale * scale * shape.variance, 0) +
    variances.reduce((all, variance) => all + variance, 0);
  const terms = sum.students.map(({ scale, degreesOfFreedom }, k) => ({
    scale,
    degreesOfFreedom,
    // Half the variance of all but this term, in units of its scale.
    blur: Math.max(0, total - (variances[k] as number)) / (2 * scale * scale),
  }));
  // Third cumulants of the skewed terms; those of an exponential are 2c³.
  const third = Math.abs(sum.shaped.reduce((all, { scale, shape }) => all + (shape.angle ? 2 * scale ** 3 : 0), 0));
  const evaluate = (z: number): readonly [number, number] => {
    let tail = 0;
    let density = 0;
    for (const { scale, degreesOfFreedom, blur } of terms) {
      const t = z / scale;
      const square = degreesOfFreedom + t * t;
      const height = studentDensity(t, degreesOfFreedom);
      // T̄'' = -f' = f·fall, and f'' = f (fall² - fall').
      const fall = ((degreesOfFreedom + 1) * t) / square;
      const fallSlope = ((degreesOfFreedom + 1) * (degreesOfFreedom - t * t)) / (square * square);
      tail += studentUpperTail(t, degreesOfFreedom) + blur * height * fall;
      density += (height * (1 + blur * (fall * fall - fallSlope))) / scale;
    }
    return [tail, density];
  };
  const smallestScale = Math.max(...terms.map(({ scale }) => scale));
  return {
    evaluate,
    smallestScale,
    error(z) {
      let error = 0;
      let others = 0;
      for (const { scale, degreesOfFreedom, blur } of terms) {
        const tail = studentUpperTail(z / scale, degreesOfFreedom);
        const fourth = (0.5 * (blur * (degreesOfFreedom + 2) ** 2 * scale * scale) ** 2) / z ** 4;
        const skew = ((degreesOfFreedom + 2) ** 3 * third) / (6 * z ** 3);
        error += tail * Math.min(1, fourth + skew) + 2 * tail * others;
        others += tail;
      }
      return error;
    },
  };
}
