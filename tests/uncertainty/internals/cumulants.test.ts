import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { type Cumulants, cumulantsOf } from "../../../lib/uncertainty/internals/cumulants.ts";
import type { SourceDistribution } from "../../../lib/uncertainty/sourceDistribution.ts";

/** From moments by quadrature (mpmath): tests/reference/cumulants.py. */
const references: readonly { readonly distribution: SourceDistribution; readonly cumulants: Cumulants }[] = JSON.parse(
  readFileSync(new URL("../../reference/cumulants.json", import.meta.url), "utf8"),
);

it.each(references)("cumulantsOf($distribution) are those of its moments (mpmath)", ({ distribution, cumulants }) => {
  const found = cumulantsOf(distribution) as Cumulants;
  // Moments cancel, so against a power of the variance.
  for (const order of ["second", "fourth", "sixth", "eighth"] as const)
    expect(Math.abs(found[order] - cumulants[order]), order).toBeLessThan(1e-9 * Math.max(1, found.second ** 4));
});

it("cumulantsOf(t) is nothing with 8 degrees of freedom or fewer, and that of a normal with infinitely many", () => {
  expect(cumulantsOf({ shape: "scaledT", scale: 1, degreesOfFreedom: 8 })).toBeUndefined();
  expect(cumulantsOf({ shape: "scaledT", scale: 2, degreesOfFreedom: Number.POSITIVE_INFINITY })).toEqual({
    second: 4,
    fourth: 0,
    sixth: 0,
    eighth: 0,
  });
});
