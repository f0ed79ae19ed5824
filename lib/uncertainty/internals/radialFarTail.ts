import { studentDensity, studentUpperTail } from "../special/studentT.ts";
import type { Vector2 } from "./chords.ts";
import { type PlanarIngredients, planarCovariance } from "./planarIngredients.ts";

/** Chance beyond a large radius of a sum with t terms, and what is known of its error: see `farTailOf`, here in the plane. */
export interface RadialFarTail {
  evaluate(radius: number): number;
  error(radius: number): number;
}

/**
 * A single t term goes far along its vector, to either side; the rest blurs it along (second moment of the rest and the mean along
 * the vector) and lengthens the distance across (second moment across, over twice the radius).
 */
export function radialFarTail(mean: Vector2, sum: PlanarIngredients): RadialFarTail {
  const total = planarCovariance(sum, unknownVariance);
  const terms = sum.students.map(({ scale, degreesOfFreedom }) => {
    const size = Math.hypot(...scale);
    const [x, y] = [scale[0] / size, scale[1] / size];
    const own =
      size * size * (degreesOfFreedom > 2 ? Math.min(unknownVariance, degreesOfFreedom / (degreesOfFreedom - 2)) : unknownVariance);
    const variance = total[0] * x * x + 2 * total[1] * x * y + total[2] * y * y;
    const along = Math.max(0, variance - own) + (mean[0] * x + mean[1] * y) ** 2;
    const across = Math.max(0, total[0] + total[2] - variance) + (mean[1] * x - mean[0] * y) ** 2;
    return { size, degreesOfFreedom, along, across };
  });
  return {
    evaluate(radius) {
      let tail = 0;
      for (const { size, degreesOfFreedom, along, across } of terms) {
        const t = radius / size;
        const height = studentDensity(t, degreesOfFreedom);
        const fall = ((degreesOfFreedom + 1) * t) / (degreesOfFreedom + t * t);
        tail += 2 * (studentUpperTail(t, degreesOfFreedom) + height * ((along * fall) / (2 * size * size) + across / (2 * radius * size)));
      }
      return tail;
    },
    error(radius) {
      let error = 0;
      let others = 0;
      for (const { size, degreesOfFreedom, along, across } of terms) {
        const tail = 2 * studentUpperTail(radius / size, degreesOfFreedom);
        const fourth = (((along + across) * (degreesOfFreedom + 2) ** 2) / (radius * radius)) ** 2 / 8;
        error += tail * Math.min(1, fourth) + tail * others;
        others += tail;
      }
      return error;
    },
  };
}

/** Stands for the variance, in units of c², of a t that has none or nearly none: what it is within some tens of c. */
const unknownVariance = 5;
