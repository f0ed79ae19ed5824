import { expect, it } from "vitest";
import { quantileOf } from "../../lib/uncertainty/quantileOf.ts";
import { standardUncertaintyOf } from "../../lib/uncertainty/sourceDistribution.ts";
import { gaussLegendre } from "../../lib/uncertainty/special/gaussLegendre.ts";
import { nonNegative } from "../../lib/uncertainty/statedLimits.ts";

// JCGM 100:2008, F.2.2.2: indications that differ by hysteresis δx have u = 0.29 δx (value from memory, recomputed).
it("gum-F.2.2.2-hysteresis: standardUncertaintyOf(rectangular over δx) is 0.29 δx", () => {
  expect(Math.abs(standardUncertaintyOf({ shape: "rectangular", halfWidth: 0.5 }) - 0.29)).toBeLessThanOrEqual(0.005);
});

// JCGM 100:2008, F.2.4.5: a correction spread evenly over -0.02 to 0.06 has the mean 0.02 and the variance 0.000 533 (values chosen, formula
// published: a sanity check).
it("gum-F.2.4.5-range-correction: a rectangular correction over 0.08 has the variance 0.000533333", () => {
  expect(Math.abs(standardUncertaintyOf({ shape: "rectangular", halfWidth: 0.04 }) ** 2 - 0.000533333333)).toBeLessThanOrEqual(1e-9);
});

// JCGM 100:2008, F.2.4.4: a cosine error δ = β²/2 of misalignment, normal with s = 0.01 rad. In two planes β² is the sum of two squares of normals, so that δ
// is exponential: expectation and standard uncertainty s². In one plane expectation s²/2 and variance s⁴/2 (value from memory, recomputed).
it("gum-F.2.4.4-cosine: nonNegative(s²) has the expectation 1e-4 and u = 1e-4, as misalignment in two planes", () => {
  const s = 0.01;
  const { estimate, distribution } = nonNegative(s * s);
  expect(Math.abs(estimate - 1e-4)).toBeLessThanOrEqual(1e-10);
  expect(Math.abs(standardUncertaintyOf(distribution) - 1e-4)).toBeLessThanOrEqual(1e-10);
});

it("gum-F.2.4.4-cosine: half of the square of a normal has the expectation 5e-5 and u = 7.0710678e-5, as misalignment in one plane", () => {
  const { nodes, weights } = gaussLegendre(200);
  let [mean, square] = [0, 0];
  for (const [k, node] of nodes.entries()) {
    // Probability ½ v³ of the lower half, which stands for both.
    const v = (1 + node) / 2;
    const deviation = quantileOf({ shape: "normal", standardDeviation: 0.01 }, 0.5 * v ** 3);
    const weight = ((weights[k] as number) / 2) * 3 * v * v;
    mean += (weight * deviation ** 2) / 2;
    square += (weight * deviation ** 4) / 4;
  }
  expect(Math.abs(mean - 5e-5)).toBeLessThanOrEqual(1e-10);
  expect(Math.abs(Math.sqrt(square - mean ** 2) - 7.0710678e-5)).toBeLessThanOrEqual(1e-10);
});
