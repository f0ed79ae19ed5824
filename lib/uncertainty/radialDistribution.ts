import type { Distribution } from "./distribution.ts";
import { checkSource } from "./internals/checkSource.ts";
import { chordFrame, type Vector2 } from "./internals/chords.ts";
import { planConditioned } from "./internals/conditionedRadius.ts";
import { distributionOfRadius } from "./internals/distributionOfRadius.ts";
import { foldedLaw } from "./internals/foldedLaw.ts";
import { hankelLaw } from "./internals/hankelLaw.ts";
import { isVisible } from "./internals/isVisible.ts";
import { latticeLaw } from "./internals/latticeLaw.ts";
import { normalDisc } from "./internals/normalDisc.ts";
import { type PlanarIngredients, planarIngredients } from "./internals/planarIngredients.ts";
import { pointDistribution } from "./internals/pointDistribution.ts";
import { type Cost, farErrorFor, type LatticePlan, planHankel, planLattice } from "./internals/radialGrids.ts";
import type { RadialLaw } from "./internals/radialLaw.ts";
import { linearDistribution } from "./linearDistribution.ts";
import { type SourceDistribution, standardUncertaintyOf } from "./sourceDistribution.ts";

/** One independent source and the two sensitivities with which the point follows it. */
export interface RadialTerm {
  readonly coefficient: readonly [x: number, y: number];
  readonly distribution: SourceDistribution;
}

/**
 * The distribution of ρ = |mean + Σ coefficientᵢ Xᵢ|, the distance from the origin of a point in the plane whose coordinates follow the same
 * independent sources Xᵢ: `cumulative(r)` is the chance to lie within the radius r (a position tolerance zone of diameter 2r).
 *
 * Exact but for the error that `error` states, usually below 1e-8. By inversion of the characteristic function, averaged over directions
 * (Hankel) or, for clouds that are long or far from the origin, on a lattice in the cloud's own coordinates; one direction only: the folded
 * one-dimensional law; normal sources only: `normalDiscChance`. Where few bounded or skewed sources dominate, whose characteristic function falls
 * off too slowly, up to three of them are integrated directly and any others taken as one normal, with the larger `error` that follows.
 *
 * `mean` and `standardDeviation` are ρ's own (not the GUM's first-order ones, which do not exist for a point near the origin);
 * Infinity where a t term has too few degrees of freedom to have one.
 *
 * `quantile(0)` is 0 and `quantile(1)` Infinity, whatever the ends.
 *
 * Without terms, or with all scales zero, all the chance sits at |mean| (see `linearDistribution`).
 *
 * @throws RangeError for a coefficient, mean or parameter that is not finite or out of its range
 */
export function radialDistribution(mean: readonly [x: number, y: number], terms: readonly RadialTerm[]): Distribution {
  return distributionBy(patientLaw, mean, terms) as Distribution;
}

/**
 * The same where it takes some hundredths of a second at most, which is decided beforehand by the sources alone; undefined elsewhere: a few bounded
 * sources that dominate may take many seconds.
 */
export function quickRadialDistribution(mean: readonly [x: number, y: number], terms: readonly RadialTerm[]): Distribution | undefined {
  return distributionBy(quickLaw, mean, terms);
}

function distributionBy(
  lawOf: (mean: Vector2, terms: readonly RadialTerm[]) => RadialLaw | undefined,
  mean: readonly [x: number, y: number],
  terms: readonly RadialTerm[],
): Distribution | undefined {
  if (!mean.every(Number.isFinite)) throw new RangeError(`mean: expected finite, got ${mean}`);
  let scale = 0;
  for (const { coefficient, distribution } of terms) {
    if (!coefficient.every(Number.isFinite)) throw new RangeError(`coefficient: expected finite, got ${coefficient}`);
    checkSource(distribution);
    scale = Math.max(scale, Math.hypot(...coefficient) * standardUncertaintyOf(distribution));
  }
  if (scale === 0) return pointDistribution(Math.hypot(...mean));
  if (scale === Number.POSITIVE_INFINITY)
    throw new RangeError("coefficient: expected a finite product with the standard uncertainty, got Infinity");
  // In units of the largest standard uncertainty, so that squares neither overflow nor vanish.
  const centre: Vector2 = [mean[0] / scale, mean[1] / scale];
  const scaled = terms.map(({ coefficient: [x, y], distribution }): RadialTerm => ({ coefficient: [x / scale, y / scale], distribution }));
  const visible = scaled.filter(({ coefficient, distribution }) => isVisible(distribution, Math.hypot(...coefficient), invisible));
  const law = lawOf(centre, visible);
  return law && distributionOfRadius(law, centre, planarIngredients(visible), scale);
}

/** A term this small, relative to the largest, moves no chance by one rounding. */
const invisible = 1e-20;

function patientLaw(mean: Vector2, terms: readonly RadialTerm[]): RadialLaw {
  const quick = quickLaw(mean, terms);
  if (quick) return quick;
  const sum = planarIngredients(terms);
  const conditioned = planConditioned(mean, sum);
  const limit = conditioned.error > acceptable ? atMost : totalCost({ build: 0, evaluation: conditioned.evaluation });
  return inverted(mean, sum, acceptable, limit) ?? conditioned.make();
}

function quickLaw(mean: Vector2, terms: readonly RadialTerm[]): RadialLaw | undefined {
  const line = commonLine(terms);
  if (line) {
    const along = linearDistribution(
      mean[0] * line[0] + mean[1] * line[1],
      terms.map(({ coefficient, distribution }) => ({ coefficient: coefficient[0] * line[0] + coefficient[1] * line[1], distribution })),
    );
    return foldedLaw(along, Math.abs(mean[1] * line[0] - mean[0] * line[1]), parallel);
  }
  const sum = planarIngredients(terms);
  if (sum.boxes.length + sum.arcsines.length + sum.students.length + sum.shaped.length === 0) {
    const frame = chordFrame(mean, sum.normal);
    return { evaluate: (radius) => normalDisc(frame, radius), error: 1e-12, method: "bivariate normal" };
  }
  for (const tolerance of tolerances) {
    const law = inverted(mean, sum, tolerance, affordable);
    if (law) return law;
  }
  return undefined;
}

/** From the error that nobody can see to the largest that a chance within limits may carry. */
const acceptable = 1e-6;
const tolerances = [1e-9, 1e-7, acceptable];

/** The cheaper inversion, if its cost is within the limit. */
function inverted(mean: Vector2, sum: PlanarIngredients, tolerance: number, limit: number): RadialLaw | undefined {
  let hankel = planHankel(mean, sum, tolerance);
  let lattice: LatticePlan | undefined;
  for (;;) {
    if (!isCheap(hankel)) {
      lattice ??= planLattice(mean, sum, tolerance);
      if (totalCost(lattice) < totalCost(hankel)) return totalCost(lattice) <= limit ? latticeLaw(sum, lattice.grid) : undefined;
      if (!(totalCost(hankel) <= limit)) return undefined;
    }
    const law = hankelLaw(hankel.average, hankel.grid, hankel.farTail);
    if (law.miss <= farErrorFor(tolerance)) return law;
    // The far law of the t terms does not hold yet where it would take over.
    const wider = planHankel(mean, sum, tolerance, 1.5 * hankel.grid.range);
    if (!(wider.grid.range > hankel.grid.range)) return law;
    hankel = wider;
  }
}

/** A law is made, and asked for some ten chances (a quantile takes about five). */
function totalCost({ build, evaluation }: Cost): number {
  return build + 10 * evaluation;
}

function isCheap(cost: Cost): boolean {
  return totalCost(cost) < 1e6;
}

/** Sine of the angle up to which vectors count as parallel; the error of a chance is of that order. */
const parallel = 1e-9;

/** ns: about 10 ms, and what an exact answer may take where otherwise there would be a rough one only. */
const affordable = 1.2e7;
const atMost = 1.5e8;

/** The direction that all terms share, or nothing. */
function commonLine(terms: readonly RadialTerm[]): Vector2 | undefined {
  const longest = terms.reduce<Vector2>(
    (best, { coefficient }) => (Math.hypot(...coefficient) > Math.hypot(best[0], best[1]) ? coefficient : best),
    [0, 0],
  );
  const size = Math.hypot(...longest);
  const line: Vector2 = [longest[0] / size, longest[1] / size];
  return terms.every(({ coefficient: [x, y] }) => Math.abs(y * line[0] - x * line[1]) <= parallel * Math.hypot(x, y)) ? line : undefined;
}
