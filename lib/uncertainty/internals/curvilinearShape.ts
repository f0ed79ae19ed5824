import { gaussLegendre } from "../special/gaussLegendre.ts";
import { sineIntegral } from "../special/sineIntegral.ts";
import { boxEnvelope } from "./boxEnvelope.ts";
import type { Shape } from "./shape.ts";

/** A rectangle whose half-width is equally likely anywhere from `topRatio` to 1 (JCGM 101:2008, 6.4.3): φ(x) is the mean of sin(hx)/(hx) over h. */
export function curvilinearShape(topRatio: number): Shape {
  const rest = 1 - topRatio;
  return {
    distribution: { shape: "curvilinearTrapezoidal", halfWidth: 1, topRatio },
    variance: (1 + topRatio + topRatio ** 2) / 9,
    excess: (81 / 25) * ((1 + topRatio + topRatio ** 2 + topRatio ** 3 + topRatio ** 4) / (1 + topRatio + topRatio ** 2) ** 2) - 3,
    lower: 1,
    upper: 1,
    modulus(x) {
      // The difference of sine integrals loses digits where the half-widths are nearly one; there few nodes are exact.
      if (rest * x > fewestTurns) return (sineIntegral(x) - sineIntegral(topRatio * x)) / (rest * x);
      let mean = 0;
      for (let k = 0; k < nodes.length; k += 1) {
        const y = (topRatio + (rest * (1 + (nodes[k] as number))) / 2) * x;
        mean += ((weights[k] as number) / 2) * (y > 0 ? Math.sin(y) / y : 1);
      }
      return mean;
    },
    envelope(x) {
      // The mean over parts, each by its narrowest rectangle; and |Si(x) - Si(βx)| is at most Si(π) = 1.852, and 2/(βx).
      let mean = 0;
      for (let k = 0; k < parts; k += 1) mean += boxEnvelope((topRatio + (rest * k) / parts) * x) / parts;
      return Math.min(mean, Math.min(1.852, 2 / (topRatio * x)) / (rest * x));
    },
    // No wider than the widest of the rectangles.
    logMoment: (t) => (t * t) / 6,
  };
}

const fewestTurns = 4;
const { nodes, weights } = gaussLegendre(12);
const parts = 16;
