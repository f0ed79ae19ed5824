import type { Distribution } from "./distribution.ts";
import { boxSumCancellation, boxSumLaw } from "./internals/boxSumLaw.ts";
import { type CentredLaw, distributionAt } from "./internals/centredLaw.ts";
import { characteristicInversion } from "./internals/characteristicInversion.ts";
import { checkSource } from "./internals/checkSource.ts";
import { convolvedLaw } from "./internals/convolvedLaw.ts";
import { addSource, type Ingredients, noIngredients } from "./internals/ingredients.ts";
import { type InversionGrid, inversionGrid } from "./internals/inversionGrid.ts";
import { pointDistribution } from "./internals/pointDistribution.ts";
import { sourceLaw } from "./internals/sourceLaw.ts";
import { type SourceDistribution, standardUncertaintyOf } from "./sourceDistribution.ts";

/** One independent source and the sensitivity with which the output follows it. */
export interface LinearTerm {
  readonly coefficient: number;
  readonly distribution: SourceDistribution;
}

/**
 * The exact distribution of mean + Σ coefficientᵢ · Xᵢ with independent sources Xᵢ symmetric about zero: what a linear measurement
 * model makes of its inputs, without trials and without the assumption of a normal output (JCGM 101:2008, clause 5.2 calls it the
 * analytical propagation of distributions).
 *
 * Chances carry an absolute error of about 1e-11 (`error` says how much), so quantiles within 5 standard deviations are good
 * to 1e-7 of one. `standardDeviation` is the GUM's combined standard uncertainty, in which a t term counts with its scale
 * (see `standardUncertaintyOf`), not with its own larger standard deviation.
 *
 * Without terms, or with all scales zero, the result is a point: `cumulative` steps from 0 to 1 at the mean (and is 1 there),
 * `density` is Infinity there and 0 elsewhere, every quantile and both interval ends are the mean.
 *
 * @throws RangeError for a coefficient, mean or parameter that is not finite or out of its range
 */
export function linearDistribution(mean: number, terms: readonly LinearTerm[]): Distribution {
  if (!Number.isFinite(mean)) throw new RangeError(`mean: expected finite, got ${mean}`);
  let scale = 0;
  for (const { coefficient, distribution } of terms) {
    if (!Number.isFinite(coefficient)) throw new RangeError(`coefficient: expected finite, got ${coefficient}`);
    checkSource(distribution);
    scale = Math.max(scale, Math.abs(coefficient) * standardUncertaintyOf(distribution));
  }
  if (scale === 0) return pointDistribution(mean);
  if (scale === Number.POSITIVE_INFINITY) throw new RangeError("coefficient: expected a finite product with the standard uncertainty, got Infinity");
  let variance = 0;
  for (const { coefficient, distribution } of terms) variance += ((coefficient / scale) * standardUncertaintyOf(distribution)) ** 2;
  return distributionAt(mean, scaledLaw({ ...unitLaw(terms, scale), standardDeviation: Math.sqrt(variance) }, scale));
}

/** The law of the sum in units of `scale`, its largest standard uncertainty, so that squares neither overflow nor vanish. */
function unitLaw(terms: readonly LinearTerm[], scale: number): CentredLaw {
  const sum = noIngredients();
  for (const { coefficient, distribution } of terms) addSource(sum, distribution, Math.abs(coefficient) / scale);
  // A bounded term so small moves no chance by one rounding, and its products with s would vanish.
  const visible = (half: number) => half > 1e-30;
  return lawOf(combined({ ...sum, boxes: sum.boxes.filter(visible), arcsines: sum.arcsines.filter(visible) }));
}

/** Sums of t terms with one degree of freedom are again such (Cauchy): their scales add. */
function combined(sum: Ingredients): Ingredients {
  const cauchy = sum.students.filter(({ degreesOfFreedom }) => degreesOfFreedom === 1);
  if (cauchy.length < 2) return sum;
  const first = cauchy[0] as Ingredients["students"][number];
  const scale = cauchy.reduce((all, student) => all + student.scale, 0);
  return { ...sum, students: [...sum.students.filter((student) => !cauchy.includes(student)), { ...first, scale }] };
}

function lawOf(sum: Ingredients): CentredLaw {
  const exact = closedForm(sum);
  if (exact) return exact;
  const count = sum.boxes.length + sum.arcsines.length + sum.students.length + 1;
  const grid = inversionGrid(sum, tolerance, Math.max(leastNodes, Math.min(mostNodes, Math.ceil(mostFactors / count))));
  if (grid.error > goodEnough) {
    const parts = split(sum);
    if (parts) return convolvedLaw(...parts);
  }
  return inverted(sum, grid);
}

function inverted(sum: Ingredients, grid: InversionGrid): CentredLaw {
  return {
    evaluate: characteristicInversion(sum, grid),
    halfWidth: sum.normalVariance > 0 || sum.students.length > 0 ? Number.POSITIVE_INFINITY : total(sum.boxes) + total(sum.arcsines),
    knots: [],
    standardDeviation: standardDeviationOf(sum),
    unimodal: sum.arcsines.length === 0,
    error: grid.error,
    method: `characteristic function, ${grid.count} ${grid.kind === "uniform" ? "equal" : "graded"} steps`,
  };
}

/** Below this an error cannot matter to a chance in parts per billion. */
const tolerance = 1e-11;
/** Above this a slower method without the error is worth its time. */
const goodEnough = 1e-10;
/** Nodes, and nodes times factors, at most: about 10 ms. */
const mostNodes = 50_000;
const mostFactors = 400_000;
/** Whatever the number of terms: enough for any sum that has no dominating term. */
const leastNodes = 200;

function closedForm({ normalVariance, boxes, arcsines, students }: Ingredients): CentredLaw | undefined {
  const kinds = (normalVariance > 0 ? 1 : 0) + boxes.length + arcsines.length + students.length;
  const [arcsine] = arcsines;
  const [student] = students;
  if (kinds === 1 && normalVariance > 0) return sourceLaw({ shape: "normal", standardDeviation: Math.sqrt(normalVariance) });
  if (kinds === 1 && arcsine !== undefined) return sourceLaw({ shape: "arcsine", halfWidth: arcsine });
  if (kinds === 1 && student) return sourceLaw({ shape: "scaledT", scale: student.scale, degreesOfFreedom: student.degreesOfFreedom });
  const boxesOnly = kinds === boxes.length && boxes.length <= mostBoxes && boxSumCancellation(boxes) <= mostCancellation;
  return boxesOnly ? boxSumLaw(boxes) : undefined;
}

const mostBoxes = 7;
const mostCancellation = 1e4;

/** The dominating bounded terms apart from the rest; nothing if the rest is not simple, since quadrature within quadrature takes too long. */
function split(sum: Ingredients): [dominating: CentredLaw, rest: CentredLaw] | undefined {
  const boxes = [...sum.boxes].sort((a, b) => b - a);
  const arcsines = [...sum.arcsines].sort((a, b) => b - a);
  let taken = 0;
  while (taken < Math.min(mostBoxes, boxes.length) && boxSumCancellation(boxes.slice(0, taken + 1)) <= mostCancellation) taken += 1;
  const [largestArcsine] = arcsines;
  const byBoxes = taken > 0 && (taken < boxes.length || arcsines.length > 0 || sum.normalVariance > 0 || sum.students.length > 0);
  if (byBoxes) return withRest(boxSumLaw(boxes.slice(0, taken)), { ...sum, boxes: boxes.slice(taken) });
  if (largestArcsine === undefined) return undefined;
  return withRest(sourceLaw({ shape: "arcsine", halfWidth: largestArcsine }), { ...sum, arcsines: arcsines.slice(1) });
}

function withRest(dominating: CentredLaw, rest: Ingredients): [CentredLaw, CentredLaw] | undefined {
  const exact = closedForm(rest);
  if (exact) return [dominating, exact];
  const grid = inversionGrid(rest, tolerance, mostNodesOfRest);
  return grid.error <= goodEnough ? [dominating, inverted(rest, grid)] : undefined;
}

/** The rest is evaluated some hundred times for each chance, and a law that needs more has peaks too sharp for the panels. */
const mostNodesOfRest = 120;

function standardDeviationOf({ normalVariance, boxes, arcsines, students }: Ingredients): number {
  let variance = normalVariance;
  for (const half of boxes) variance += (half * half) / 3;
  for (const half of arcsines) variance += (half * half) / 2;
  for (const { scale } of students) variance += scale * scale;
  return Math.sqrt(variance);
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}

function scaledLaw(law: CentredLaw, scale: number): CentredLaw {
  const { tailQuantile } = law;
  return {
    ...law,
    evaluate(z) {
      const [tail, density] = law.evaluate(z / scale);
      return [tail, density / scale];
    },
    halfWidth: law.halfWidth * scale,
    standardDeviation: law.standardDeviation * scale,
    ...(tailQuantile ? { tailQuantile: (tail: number) => tailQuantile(tail) * scale } : {}),
  };
}
