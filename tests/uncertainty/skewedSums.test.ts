import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { linearChance } from "../../lib/uncertainty/linearChance.ts";
import { type LinearTerm, linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { radialChance } from "../../lib/uncertainty/radialChance.ts";
import { type RadialTerm, radialDistribution } from "../../lib/uncertainty/radialDistribution.ts";

interface Line {
  readonly name: string;
  readonly terms: readonly LinearTerm[];
  readonly chances: readonly (readonly [z: number, chance: number])[];
}

interface Plane {
  readonly name: string;
  readonly mean: readonly [number, number];
  readonly terms: readonly RadialTerm[];
  readonly chances: readonly (readonly [radius: number, chance: number])[];
}

/** Closed laws and direct quadrature, no characteristic function: tests/reference/skewedSums.py (scipy 1.17). */
const { line, plane }: { readonly line: readonly Line[]; readonly plane: readonly Plane[] } = JSON.parse(
  readFileSync(new URL("../reference/skewedSums.json", import.meta.url), "utf8"),
);

describe.each(line)("a sum: $name", ({ terms, chances }) => {
  const distribution = linearDistribution(3, terms);

  it("linearDistribution(...).cumulative is within 1e-9, and within the error it states", () => {
    for (const [z, chance] of chances) {
      const error = Math.abs(distribution.cumulative(3 + z) - chance);
      expect(error, `z = ${z}, ${distribution.method}`).toBeLessThan(1e-9);
      expect(error, `z = ${z}, ${distribution.method}`).toBeLessThan(distribution.error + 1e-12);
    }
  });

  it("linearDistribution(...).quantile gives the value back", () => {
    for (const [z, chance] of chances) {
      if (!(chance > 1e-6 && chance < 1 - 1e-6)) continue;
      const slack = 1e-8 * distribution.standardDeviation + 2e-9 / distribution.density(3 + z);
      expect(Math.abs(distribution.quantile(chance) - 3 - z), `z = ${z}`).toBeLessThan(slack);
    }
  });

  it("linearDistribution(...).density is the slope of cumulative", () => {
    const step = 1e-5 * distribution.standardDeviation;
    for (const [z, chance] of chances) {
      if (!(chance > 0.02 && chance < 0.98)) continue;
      const slope = (distribution.cumulative(3 + z + step) - distribution.cumulative(3 + z - step)) / (2 * step);
      const density = distribution.density(3 + z);
      // A kink of the density may lie within the step.
      if (Number.isFinite(density) && !isKink(distribution.density, 3 + z, step))
        expect(Math.abs(slope / density - 1), `z = ${z}`).toBeLessThan(1e-3);
    }
  });

  it("linearChance(...) is within its stated error, from below, between, and reversed in sign", () => {
    for (const [z, chance] of chances) {
      const below = linearChance(3, terms, Number.NEGATIVE_INFINITY, 3 + z);
      expect(Math.abs(below.chance - chance), `z = ${z}`).toBeLessThan(below.error + 1e-12);
      const opposite = terms.map(({ coefficient, distribution: source }) => ({ coefficient: -coefficient, distribution: source }));
      const above = linearChance(-3, opposite, -3 - z, Number.POSITIVE_INFINITY);
      expect(Math.abs(above.chance - chance), `z = ${z}`).toBeLessThan(above.error + 1e-12);
    }
  });
});

function isKink(density: (y: number) => number, y: number, step: number): boolean {
  const [left, middle, right] = [density(y - 2 * step), density(y), density(y + 2 * step)];
  return Math.abs(left + right - 2 * middle) > 1e-3 * middle;
}

it("linearDistribution(0, exponential).interval(0.95, shortest) begins at the very end", () => {
  const [low, high] = linearDistribution(0, [{ coefficient: 1, distribution: { shape: "exponential", mean: 1 } }]).interval(
    0.95,
    "shortest",
  );
  expect(low).toBeCloseTo(-1, 9);
  // -ln 0.05 - 1.
  expect(high).toBeCloseTo(1.995732273553991, 9);
});

describe.each(plane)("in the plane: $name", ({ mean, terms, chances }) => {
  it("radialDistribution(...).cumulative is within 1e-6, and within the error it states", () => {
    const distribution = radialDistribution(mean, terms);
    for (const [radius, chance] of chances) {
      const error = Math.abs(distribution.cumulative(radius) - chance);
      expect(error, `r = ${radius}, ${distribution.method}`).toBeLessThan(1e-6);
      expect(error, `r = ${radius}, ${distribution.method}`).toBeLessThan(distribution.error + 1e-10);
    }
  });

  it("radialChance(...) is within its stated error, also turned and mirrored", () => {
    for (const turn of [0, 0.4, 2]) {
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      for (const side of [1, -1]) {
        const move = ([x, y]: readonly [number, number]) => [c * x - s * side * y, s * x + c * side * y] as const;
        const moved = terms.map(({ coefficient, distribution }) => ({ coefficient: move(coefficient), distribution }));
        for (const [radius, chance] of chances) {
          const found = radialChance(move(mean), moved, radius);
          expect(Math.abs(found.chance - chance), `r = ${radius}, turned ${turn}, ${side}`).toBeLessThan(found.error + 1e-10);
          expect(found.error).toBeLessThan(1e-5);
        }
      }
    }
  });
});
