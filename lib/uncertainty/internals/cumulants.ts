import type { SourceDistribution } from "../sourceDistribution.ts";

/** Cumulants of even order of a distribution that is symmetric about zero; the others are zero. */
export interface Cumulants {
  readonly second: number;
  readonly fourth: number;
  readonly sixth: number;
  readonly eighth: number;
}

/**
 * The first four cumulants of even order of a source, or nothing where it does not have them all (a t with 8 degrees of freedom or fewer), or has others
 * besides (an exponential).
 *
 * Rectangle of half-width a: Bₙ (2a)ⁿ / n with the Bernoulli numbers Bₙ; triangle and trapezoid are sums of two rectangles. Arcsine: from
 * the series of ln J₀. Curvilinear trapezoid (a rectangle of random half-width) and Student's t: from their moments (JCGM 101:2008, 6.4.3 and 6.4.9 for the distributions). The sum of independent
 * sources has the sum of their cumulants.
 */
export function cumulantsOf(distribution: SourceDistribution): Cumulants | undefined {
  switch (distribution.shape) {
    case "normal":
      return { second: distribution.standardDeviation ** 2, fourth: 0, sixth: 0, eighth: 0 };
    case "rectangular":
      return rectangle(distribution.halfWidth, 0);
    case "triangular":
      return rectangle(distribution.halfWidth / 2, distribution.halfWidth / 2);
    case "trapezoidal":
      return rectangle(
        (distribution.halfWidth * (1 + distribution.topRatio)) / 2,
        (distribution.halfWidth * (1 - distribution.topRatio)) / 2,
      );
    case "arcsine": {
      const square = distribution.halfWidth ** 2;
      return { second: square / 2, fourth: (-3 / 8) * square ** 2, sixth: (5 / 4) * square ** 3, eighth: (-1155 / 128) * square ** 4 };
    }
    case "scaledT":
      return student(distribution.scale, distribution.degreesOfFreedom);
    case "curvilinearTrapezoidal":
      return curvilinear(distribution.halfWidth, distribution.topRatio);
    case "exponential":
      return undefined;
  }
}

/** Of one rectangle, or of the sum of two. */
function rectangle(a: number, b: number): Cumulants {
  const [aa, bb] = [a * a, b * b];
  const [aaaa, bbbb] = [aa * aa, bb * bb];
  return {
    second: (aa + bb) / 3,
    fourth: (-2 / 15) * (aaaa + bbbb),
    sixth: (16 / 63) * (aaaa * aa + bbbb * bb),
    eighth: (-16 / 15) * (aaaa * aaaa + bbbb * bbbb),
  };
}

function student(scale: number, degreesOfFreedom: number): Cumulants | undefined {
  if (degreesOfFreedom === Number.POSITIVE_INFINITY) return { second: scale ** 2, fourth: 0, sixth: 0, eighth: 0 };
  if (!(degreesOfFreedom > 8)) return undefined;
  const n = degreesOfFreedom;
  const second = (scale ** 2 * n) / (n - 2);
  return {
    second,
    fourth: (second ** 2 * 6) / (n - 4),
    sixth: (second ** 3 * 240) / ((n - 4) * (n - 6)),
    eighth: (second ** 4 * 5040 * (5 * n - 22)) / ((n - 4) ** 2 * (n - 6) * (n - 8)),
  };
}

function curvilinear(halfWidth: number, topRatio: number): Cumulants {
  // The moment of order 2k is the mean of h²ᵏ over the half-widths h, over 2k + 1.
  const moment = (order: number) => {
    let sum = 0;
    for (let k = 0; k <= order; k += 1) sum += topRatio ** k;
    return (halfWidth ** order * sum) / (order + 1) ** 2;
  };
  const [m2, m4, m6, m8] = [moment(2), moment(4), moment(6), moment(8)];
  return {
    second: m2,
    fourth: m4 - 3 * m2 ** 2,
    sixth: m6 - 15 * m4 * m2 + 30 * m2 ** 3,
    eighth: m8 - 28 * m6 * m2 - 35 * m4 ** 2 + 420 * m4 * m2 ** 2 - 630 * m2 ** 4,
  };
}
