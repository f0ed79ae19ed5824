import { withScale } from "../sourceDistribution.ts";
import { boxSumCancellation, boxSumLaw } from "./boxSumLaw.ts";
import { type CentredLaw, halvesOf, reversedLaw } from "./centredLaw.ts";
import { characteristicInversion } from "./characteristicInversion.ts";
import { convolvedLaw } from "./convolvedLaw.ts";
import { type Ingredients, isSkewed, type ShapedIngredient } from "./ingredients.ts";
import { farTolerance, type InversionGrid, inversionGrid } from "./inversionGrid.ts";
import { sourceLaw } from "./sourceLaw.ts";

/**
 * The law of a sum of independent sources, by the first of: one source or a few bounded ones in closed form; inversion of the characteristic
 * function; the dominating terms with an end convolved with the rest, where that function falls off too slowly.
 */
export function linearLaw(given: Ingredients): CentredLaw {
  const sum = combined(given);
  const exact = closedForm(sum);
  if (exact) return exact;
  const count = sum.boxes.length + sum.arcsines.length + sum.students.length + sum.shaped.length + 1;
  const nodes = Math.max(leastNodes, Math.min(mostNodes, Math.ceil(mostFactors / count)));
  const grid = inversionGrid(sum, tolerance, nodes);
  if (grid.error > goodEnough) {
    const parts = split(sum);
    if (parts) return convolvedLaw(...parts);
  }
  return inverted(sum, grid, nodes);
}

/** By inversion on a grid, or on the first wider one at whose end the far law of the t terms holds. */
function inverted(sum: Ingredients, first: InversionGrid, nodes: number): CentredLaw {
  let grid = first;
  let { evaluate, miss } = characteristicInversion(sum, grid);
  while (miss > farTolerance) {
    const wider = inversionGrid(sum, tolerance, nodes, 1.5 * grid.range);
    if (!(wider.range > grid.range)) break;
    grid = wider;
    ({ evaluate, miss } = characteristicInversion(sum, grid));
  }
  const [lower, upper] = ends(sum);
  return {
    ...(isSkewed(sum) ? halvesOf(evaluate, lower, upper) : { evaluate, halfWidth: upper, knots: [] }),
    standardDeviation: standardDeviationOf(sum),
    unimodal: sum.arcsines.length === 0,
    error: grid.error + miss,
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

function closedForm({ normalVariance, boxes, arcsines, students, shaped }: Ingredients): CentredLaw | undefined {
  const kinds = (normalVariance > 0 ? 1 : 0) + boxes.length + arcsines.length + students.length + shaped.length;
  const [arcsine] = arcsines;
  const [student] = students;
  const [other] = shaped;
  if (kinds === 1 && normalVariance > 0) return sourceLaw({ shape: "normal", standardDeviation: Math.sqrt(normalVariance) });
  if (kinds === 1 && arcsine !== undefined) return sourceLaw({ shape: "arcsine", halfWidth: arcsine });
  if (kinds === 1 && student) return sourceLaw({ shape: "scaledT", scale: student.scale, degreesOfFreedom: student.degreesOfFreedom });
  if (kinds === 1 && other) return shapedLaw(other);
  const boxesOnly = kinds === boxes.length && boxes.length <= mostBoxes && boxSumCancellation(boxes) <= mostCancellation;
  return boxesOnly ? boxSumLaw(boxes) : undefined;
}

const mostBoxes = 7;
const mostCancellation = 1e4;

function shapedLaw({ scale, shape }: ShapedIngredient): CentredLaw {
  const law = sourceLaw(withScale(shape.distribution, Math.abs(scale)));
  return scale < 0 ? reversedLaw(law) : law;
}

/** The dominating terms with an end apart from the rest; nothing if the rest is not simple, since quadrature within quadrature takes too long. */
function split(sum: Ingredients): [dominating: CentredLaw, rest: CentredLaw] | undefined {
  const [widest, ...others] = [...sum.shaped].sort((a, b) => sizeOf(b) - sizeOf(a));
  if (!widest) return splitBounded(sum);
  const byWidest = () => withRest(shapedLaw(widest), { ...sum, shaped: others });
  const largestBox = Math.max(0, ...sum.boxes) / Math.sqrt(3);
  return sizeOf(widest) > largestBox ? (byWidest() ?? splitBounded(sum)) : (splitBounded(sum) ?? byWidest());
}

/** The standard deviation of a term. */
function sizeOf({ scale, shape }: ShapedIngredient): number {
  return Math.abs(scale) * Math.sqrt(shape.variance);
}

function splitBounded(sum: Ingredients): [dominating: CentredLaw, rest: CentredLaw] | undefined {
  const boxes = [...sum.boxes].sort((a, b) => b - a);
  const arcsines = [...sum.arcsines].sort((a, b) => b - a);
  let taken = 0;
  while (taken < Math.min(mostBoxes, boxes.length) && boxSumCancellation(boxes.slice(0, taken + 1)) <= mostCancellation) taken += 1;
  const [largestArcsine] = arcsines;
  const byBoxes =
    taken > 0 && (taken < boxes.length || arcsines.length > 0 || sum.normalVariance > 0 || sum.students.length + sum.shaped.length > 0);
  if (byBoxes) return withRest(boxSumLaw(boxes.slice(0, taken)), { ...sum, boxes: boxes.slice(taken) });
  if (largestArcsine === undefined) return undefined;
  return withRest(sourceLaw({ shape: "arcsine", halfWidth: largestArcsine }), { ...sum, arcsines: arcsines.slice(1) });
}

function withRest(dominating: CentredLaw, rest: Ingredients): [CentredLaw, CentredLaw] | undefined {
  const exact = closedForm(rest);
  if (exact) return [dominating, exact];
  const grid = inversionGrid(rest, tolerance, mostNodesOfRest);
  if (grid.error > goodEnough) return undefined;
  const law = inverted(rest, grid, mostNodesOfRest);
  return law.error <= 2 * goodEnough ? [dominating, law] : undefined;
}

/** The rest is evaluated some hundred times for each chance, and a law that needs more has peaks too sharp for the panels. */
const mostNodesOfRest = 120;

function standardDeviationOf({ normalVariance, boxes, arcsines, students, shaped }: Ingredients): number {
  let variance = normalVariance;
  for (const half of boxes) variance += (half * half) / 3;
  for (const half of arcsines) variance += (half * half) / 2;
  for (const { scale } of students) variance += scale * scale;
  for (const { scale, shape } of shaped) variance += scale * scale * shape.variance;
  return Math.sqrt(variance);
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}

/** How far the sum reaches below and above its expectation. */
function ends({ normalVariance, boxes, arcsines, students, shaped }: Ingredients): [lower: number, upper: number] {
  if (normalVariance > 0 || students.length > 0) return [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  let lower = total(boxes) + total(arcsines);
  let upper = lower;
  for (const { scale, shape } of shaped) {
    lower += Math.abs(scale) * (scale < 0 ? shape.upper : shape.lower);
    upper += Math.abs(scale) * (scale < 0 ? shape.lower : shape.upper);
  }
  return [lower, upper];
}

/** Sums of t terms with one degree of freedom are again such (Cauchy): their scales add. */
function combined(sum: Ingredients): Ingredients {
  const cauchy = sum.students.filter(({ degreesOfFreedom }) => degreesOfFreedom === 1);
  if (cauchy.length < 2) return sum;
  const first = cauchy[0] as Ingredients["students"][number];
  const scale = cauchy.reduce((all, student) => all + student.scale, 0);
  return { ...sum, students: [...sum.students.filter((student) => !cauchy.includes(student)), { ...first, scale }] };
}
