import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { latticeLaw } from "../../../lib/uncertainty/internals/latticeLaw.ts";
import { planarIngredients } from "../../../lib/uncertainty/internals/planarIngredients.ts";
import { planLattice } from "../../../lib/uncertainty/internals/radialGrids.ts";
import type { RadialTerm } from "../../../lib/uncertainty/radialDistribution.ts";

interface Plane {
  readonly name: string;
  readonly mean: readonly [number, number];
  readonly terms: readonly RadialTerm[];
  readonly chances: readonly (readonly [radius: number, chance: number])[];
}

/** Direct quadrature: tests/reference/skewedSums.py (scipy 1.17); those whose characteristic function a lattice of this size can hold. */
const { plane }: { readonly plane: readonly Plane[] } = JSON.parse(
  readFileSync(new URL("../../reference/skewedSums.json", import.meta.url), "utf8"),
);
const mostSamples = 200_000;
const held = plane.flatMap((one) => {
  const sum = planarIngredients(one.terms);
  const { grid } = planLattice(one.mean, sum, 1e-9);
  return grid.countA * grid.countB <= mostSamples ? [{ ...one, law: latticeLaw(sum, grid) }] : [];
});

it("some skewed clouds are held by a lattice", () => {
  expect(held.length).toBeGreaterThanOrEqual(4);
});

describe.each(held)("latticeLaw: $name", ({ law, chances }) => {
  it("latticeLaw(sum, grid).evaluate(radius) is the chance of direct quadrature, and its slope the density", () => {
    for (const [radius, chance] of chances) {
      const [found, density] = law.evaluate(radius);
      expect(Math.abs(found - chance), `r = ${radius}`).toBeLessThan(1e-7);
      const step = 1e-4 * radius;
      const slope = (law.evaluate(radius + step)[0] - law.evaluate(radius - step)[0]) / (2 * step);
      expect(Math.abs(density - slope), `r = ${radius}`).toBeLessThan(1e-4 + 1e-4 * density);
    }
  });
});
