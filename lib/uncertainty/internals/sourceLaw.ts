import { type SourceDistribution, standardUncertaintyOf } from "../sourceDistribution.ts";
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
        tailQuantile: (tail) => a * Math.cos(Math.PI * tail),
      };
    }
    default:
      return boxSumLaw(boxesOf(distribution));
  }
}
