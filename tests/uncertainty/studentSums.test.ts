import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { linearChance } from "../../lib/uncertainty/linearChance.ts";
import { type LinearTerm, linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { radialChance } from "../../lib/uncertainty/radialChance.ts";
import { type RadialTerm, radialDistribution } from "../../lib/uncertainty/radialDistribution.ts";
import type { SourceDistribution } from "../../lib/uncertainty/sourceDistribution.ts";

/** tests/reference/studentSums.py (scipy 1.17): the inversion integral on Gauss-Legendre panels, without a far law. */
const reference: {
  readonly line: readonly {
    readonly terms: readonly { scale: number; degreesOfFreedom: number; times: number }[];
    readonly normal: number;
    readonly tails: readonly (readonly [z: number, tail: number])[];
  }[];
  readonly plane: readonly {
    readonly degreesOfFreedom: number;
    readonly times: number;
    readonly normal: number;
    readonly ratio: number;
    readonly chances: readonly (readonly [radius: number, chance: number])[];
  }[];
} = JSON.parse(readFileSync(new URL("../reference/studentSums.json", import.meta.url), "utf8"));

const student = (scale: number, degreesOfFreedom: number): SourceDistribution => ({ shape: "scaledT", scale, degreesOfFreedom });
const normalOf = (standardDeviation: number): SourceDistribution => ({ shape: "normal", standardDeviation });
const repeated = <T>(times: number, value: T): T[] => Array.from({ length: times }, () => value);

// Far out a sum of many nearly normal t terms has more than any of them alone has, which a law of one term going far does not see.
describe("many t terms along a line", () => {
  for (const { terms, normal, tails } of reference.line) {
    const sources: LinearTerm[] = [
      ...terms.flatMap(({ scale, degreesOfFreedom, times }) =>
        repeated(times, { coefficient: 1, distribution: student(scale, degreesOfFreedom) }),
      ),
      ...(normal > 0 ? [{ coefficient: 1, distribution: normalOf(normal) }] : []),
    ];
    const name = terms.map(({ scale, degreesOfFreedom, times }) => `${times} of ${scale} with ${degreesOfFreedom}`).join(" and ");
    it(`linearDistribution(0, ${name}, normal ${normal}) has every tail within 1 %, and within the error it states`, () => {
      const distribution = linearDistribution(0, sources);
      for (const [z, tail] of tails) {
        const error = Math.abs(distribution.cumulative(-z) - tail);
        expect(error, `z = ${z}`).toBeLessThan(distribution.error + 1e-13);
        expect(error, `z = ${z}`).toBeLessThan(0.01 * tail);
        expect(Math.abs(distribution.quantile(tail) + z), `tail ${tail}`).toBeLessThan(0.01);
        const { chance, error: stated } = linearChance(0, sources, z, Number.POSITIVE_INFINITY);
        expect(Math.abs(chance - tail), `linearChance beyond ${z}`).toBeLessThan(stated);
      }
    });
  }
});

describe("many t terms in the plane", () => {
  for (const { degreesOfFreedom, times, normal, ratio, chances } of reference.plane) {
    const all = [...repeated(times, student(1, degreesOfFreedom)), ...(normal > 0 ? [normalOf(normal)] : [])];
    const sources = all.flatMap((distribution): RadialTerm[] => [
      { coefficient: [1, 0], distribution },
      { coefficient: [0, ratio], distribution },
    ]);
    it(`radialDistribution([0, 0], ${times} with ${degreesOfFreedom} along each axis, ratio ${ratio}) has every chance within the error it states`, () => {
      const distribution = radialDistribution([0, 0], sources);
      expect(distribution.error).toBeLessThan(1e-7);
      for (const [radius, chance] of chances) {
        expect(Math.abs(distribution.cumulative(radius) - chance), `r = ${radius}`).toBeLessThan(distribution.error);
        const { chance: alone, error } = radialChance([0, 0], sources, radius);
        expect(Math.abs(alone - chance), `radialChance, r = ${radius}`).toBeLessThan(error);
      }
    });
  }
});
