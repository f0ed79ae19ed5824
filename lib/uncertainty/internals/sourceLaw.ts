import { type SourceDistribution, standardUncertaintyOf } from "../sourceDistribution.ts";
import { curvilinearDensity, curvilinearTail, curvilinearTailQuantile } from "../special/curvilinearTrapezoid.ts";
import { normalDensity, normalUpperTail } from "../special/normalCumulative.ts";
import { normalQuantile } from "../special/normalQuantile.ts";
import { studentDensity, studentQuantile, studentUpperTail } from "../special/studentT.ts";
import { boxSumLaw } from "./boxSumLaw.ts";
import type { CentredLaw } from "./centredLaw.ts";
import { boxesOf } from "./ingredients.ts";

/** The law of one source by its own closed form; its scale must be above 0. */
export function sourceLaw(distribution: SourceDistribution): CentredLaw {
  const common = { standardDeviation: standardUncertaintyOf(distribution), unimodal: true, error: 1e-14 };
  switch (distribution.shape) {
    case "normal": {
      const sigma = distribution.standardDeviation;
      return {
        ...common,
        halfWidth: Number.POSITIVE_INFINITY,
        knots: [],
        method: "normal",
        evaluate: (z) => [normalUpperTail(z / sigma), normalDensity(z / sigma) / sigma],
        density: (z) => normalDensity(z / sigma) / sigma,
        tailQuantile: (tail) => -sigma * normalQuantile(tail),
      };
    }
    case "scaledT": {
      const { scale, degreesOfFreedom } = distribution;
      return {
        ...common,
        halfWidth: Number.POSITIVE_INFINITY,
        knots: [],
        method: "Student's t",
        evaluate: (z) => [studentUpperTail(z / scale, degreesOfFreedom), studentDensity(z / scale, degreesOfFreedom) / scale],
        density: (z) => studentDensity(z / scale, degreesOfFreedom) / scale,
        tailQuantile: (tail) => -scale * studentQuantile(tail, degreesOfFreedom),
      };
    }
    case "arcsine": {
      const a = distribution.halfWidth;
      return {
        ...common,
        unimodal: false,
        halfWidth: a,
        knots: [a],
        method: "arcsine",
        // JCGM 101:2008, 6.4.6; arccos by the half-angle keeps its digits at the end.
        evaluate: (z) =>
          z < a ? [(2 * Math.asin(Math.sqrt((a - z) / (2 * a)))) / Math.PI, 1 / (Math.PI * Math.sqrt((a - z) * (a + z)))] : [0, 0],
        sweptDensity: () => 1 / Math.PI,
        tailQuantile: (tail) => a * Math.cos(Math.PI * tail),
      };
    }
    case "curvilinearTrapezoidal": {
      const { halfWidth, topRatio } = distribution;
      return {
        ...common,
        halfWidth,
        knots: [topRatio * halfWidth, halfWidth],
        method: "curvilinear trapezoid",
        evaluate: (z) => [curvilinearTail(z / halfWidth, topRatio), curvilinearDensity(z / halfWidth, topRatio) / halfWidth],
        tailQuantile: (tail) => halfWidth * curvilinearTailQuantile(tail, topRatio),
      };
    }
    case "exponential": {
      // In units of the mean: P(Z > z) = e^-(1+z) above the mean, P(Z < -z) = 1 - e^-(1-z) below (JCGM 101:2008, 6.4.10).
      const { mean } = distribution;
      return {
        ...common,
        halfWidth: Number.POSITIVE_INFINITY,
        knots: [],
        method: "exponential",
        evaluate(z) {
          const tail = Math.exp(-1 - z / mean);
          return [tail, tail / mean];
        },
        tailQuantile: (tail) => mean * (-Math.log(tail) - 1),
        lowerHalf: {
          halfWidth: mean,
          knots: [mean],
          evaluate: (z) => (z < mean ? [-Math.expm1(z / mean - 1), Math.exp(z / mean - 1) / mean] : [0, 0]),
          tailQuantile: (tail) => mean * (1 + Math.log1p(-tail)),
        },
      };
    }
    default:
      return boxSumLaw(boxesOf(distribution));
  }
}
