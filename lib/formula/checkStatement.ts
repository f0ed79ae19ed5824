import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { summariseRepeats } from "../uncertainty/repeats.ts";
import type { SourceDistribution } from "../uncertainty/sourceDistribution.ts";
import { limitsAtDeviations } from "../uncertainty/statedLimits.ts";
import type { CheckedExpression, DimensionOrColumn } from "./checkDimensions.ts";
import { type Dimension, describeDimension, remedyForAngle, sameDimension } from "./dimension.ts";
import { evaluateExpression, type Lookup } from "./evaluateExpression.ts";
import type { Expression } from "./expression.ts";
import { startOf } from "./internals/bareFormulas.ts";
import { shareUnits } from "./internals/shareUnits.ts";
import { numberArithmetic } from "./numberArithmetic.ts";
import { type LimitShape, meanOf, middleOf, type StatedDoubt, type Statement } from "./statement.ts";
import type { Unit } from "./units.ts";

/** A statement whose units are known to fit, as plain data. */
export interface CheckedStatement {
  /** The formula of the best estimate, with a unit given to each bare number that had to take one. */
  readonly expression: Expression;
  readonly dimension: Dimension;
  /** Whether neither a unit nor a name stands in it. */
  readonly isBare: boolean;
  readonly doubt?: Doubt;
}

/** A doubt as a source holds it. */
export interface Doubt {
  /** Of the deviation from the estimate, in the base unit of the value. */
  readonly distribution: SourceDistribution;
  /** Of the standard uncertainty; `Infinity` where it is taken as exactly known (JCGM 100:2008, G.4.3). */
  readonly degreesOfFreedom: number;
  /** The readings that it rests on, where it does, in base units. */
  readonly readings?: readonly number[];
  /** Half the distance of stated limits, where the distribution itself has no end there. */
  readonly limit?: number;
  /** As typed, with the units given. */
  readonly stated: StatedDoubt;
}

/** Where a statement stands. */
export interface StatementPlace {
  /** What bare numbers are in, as `checkDimensions` says. */
  readonly bareUnit?: Unit;
  /** What the value must be; a statement of bare numbers alone then takes `bareUnit` as a whole, elsewhere it is a number. */
  readonly dimension?: Dimension;
}

/**
 * Finds the dimension of a statement, fits the units of value and doubt to each other, and works the doubt out.
 *
 * A unit that was typed once goes for both sides. It must be the unit of the place then, or both sides must be single numbers with as
 * many decimals: `12.500 ± 0.002 in` is in inches in a millimetre notebook too, `12.5 ± 2 um` is asked about. Behind a formula with names
 * a bare doubt takes the unit of the place.
 *
 * @throws RangeError if the place has a dimension and a unit that is not of it
 */
export function checkStatement(
  statement: Statement,
  dimensions: Lookup<DimensionOrColumn>,
  place: StatementPlace = {},
): Outcome<CheckedStatement> {
  const { bareUnit, dimension } = place;
  if (bareUnit && dimension && !sameDimension(bareUnit.dimension, dimension))
    throw new RangeError(`bareUnit: expected a unit of ${describeDimension(dimension)}, got ${bareUnit.symbol}`);
  const checked = shareUnits(partsOf(statement), dimensions, place);
  if (!checked.ok) return checked;
  const [value, ...others] = checked.value as readonly [CheckedExpression, ...CheckedExpression[]];
  for (const other of others)
    if (!sameDimension(other.dimension, value.dimension)) return failure(complainAboutUnlike(statement, value, other));
  if (dimension && !sameDimension(value.dimension, dimension)) return failure(complainAboutPlace(value, dimension));
  const parts = checked.value.map(({ expression }) => expression);
  const stated = statement.doubt && withParts(statement.doubt, parts);
  const expression = expressionOf(stated, parts);
  const result = { expression, dimension: value.dimension, isBare: value.isBare };
  if (!stated) return success(result);
  const doubt = workOut(stated);
  return doubt.ok ? success({ ...result, doubt: doubt.value }) : doubt;
}

/** The formulas of a statement that must be of one dimension: first the value, or what it is made of. */
function partsOf({ expression, doubt }: Statement): readonly Expression[] {
  switch (doubt?.kind) {
    case "standard":
      return [expression, doubt.size];
    case "within":
      return [expression, doubt.halfWidth];
    case "limits":
      return [doubt.lower, doubt.upper];
    case "readings":
      return doubt.readings;
    default:
      return [expression];
  }
}

function withParts(doubt: StatedDoubt, parts: readonly Expression[]): StatedDoubt {
  const [first, second] = parts as readonly [Expression, Expression];
  switch (doubt.kind) {
    case "standard":
      return { ...doubt, size: second };
    case "within":
      return { ...doubt, halfWidth: second };
    case "limits":
      return { ...doubt, lower: first, upper: second };
    case "readings":
      return { ...doubt, readings: parts };
  }
}

function expressionOf(doubt: StatedDoubt | undefined, parts: readonly Expression[]): Expression {
  const [first, second] = parts as readonly [Expression, Expression];
  if (doubt?.kind === "limits") return middleOf(first, second);
  return doubt?.kind === "readings" ? meanOf([first, ...parts.slice(1)]) : first;
}

/** The doubt in base units. */
function workOut(stated: StatedDoubt): Outcome<Doubt> {
  switch (stated.kind) {
    case "standard": {
      const { size, coverageFactor = 1, degreesOfFreedom = Number.POSITIVE_INFINITY } = stated;
      const typed = sizeOf(size);
      return typed.ok ? success({ ...standardDoubt(typed.value / coverageFactor, degreesOfFreedom), stated }) : typed;
    }
    case "within": {
      const halfWidth = sizeOf(stated.halfWidth);
      return halfWidth.ok ? success({ ...limitedDoubt(halfWidth.value, stated.shape), stated }) : halfWidth;
    }
    case "limits": {
      const lower = numberOf(stated.lower);
      if (!lower.ok) return lower;
      const upper = numberOf(stated.upper);
      if (!upper.ok) return upper;
      if (!(lower.value <= upper.value)) return refuse(stated.upper, "the second limit is below the first", "write the lower limit first");
      return success({ ...limitedDoubt(upper.value / 2 - lower.value / 2, stated.shape), stated });
    }
    case "readings":
      return workOutReadings(stated);
  }
}

/** With few degrees of freedom the deviation is a t of that many (JCGM 101:2008, 6.4.9). */
function standardDoubt(size: number, degreesOfFreedom: number): Omit<Doubt, "stated"> {
  const distribution: SourceDistribution = Number.isFinite(degreesOfFreedom)
    ? { shape: "scaledT", scale: size, degreesOfFreedom }
    : { shape: "normal", standardDeviation: size };
  return { distribution, degreesOfFreedom };
}

function limitedDoubt(halfWidth: number, shape: LimitShape): Omit<Doubt, "stated"> {
  const degreesOfFreedom = Number.POSITIVE_INFINITY;
  switch (shape.name) {
    case "normal":
      return {
        distribution: { shape: "normal", standardDeviation: halfWidth / limitsAtDeviations },
        degreesOfFreedom,
        limit: halfWidth,
      };
    case "trapezoidal":
      return { distribution: { shape: "trapezoidal", halfWidth, topRatio: shape.topRatio }, degreesOfFreedom };
    case "curvilinear trapezoidal":
      return { distribution: { shape: "curvilinearTrapezoidal", halfWidth, topRatio: shape.topRatio }, degreesOfFreedom };
    default:
      return { distribution: { shape: shape.name, halfWidth }, degreesOfFreedom };
  }
}

/** The mean errs by a t of n − 1 degrees of freedom times s/√n (JCGM 100:2008, 4.2.3 and G.3; JCGM 101:2008, 6.4.9.2). */
function workOutReadings(stated: StatedDoubt & { readonly kind: "readings" }): Outcome<Doubt> {
  const values: number[] = [];
  for (const reading of stated.readings) {
    const value = numberOf(reading);
    if (!value.ok) return value;
    values.push(value.value);
  }
  const { standardUncertaintyOfMean: scale, degreesOfFreedom } = summariseRepeats(values);
  if (scale === undefined || !Number.isFinite(scale)) return refuse(stated.readings[0] as Expression, "the readings are too far apart");
  return success({ distribution: { shape: "scaledT", scale, degreesOfFreedom }, degreesOfFreedom, readings: values, stated });
}

function sizeOf(expression: Expression): Outcome<number> {
  const size = numberOf(expression);
  if (size.ok && !(size.value >= 0)) return refuse(expression, "a doubt cannot be negative", "write its size without a sign");
  return size;
}

function numberOf(expression: Expression): Outcome<number> {
  return evaluateExpression(expression, numberArithmetic, new Map<string, number>());
}

function refuse(expression: Expression, what: string, remedy?: string): Outcome<never> {
  return failure({ at: "", what, character: startOf(expression), ...(remedy && { remedy }) });
}

function complainAboutUnlike({ doubt }: Statement, value: CheckedExpression, other: CheckedExpression): Problem {
  const character = startOf(other.expression);
  const [is, was] = [describeDimension(other.dimension), describeDimension(value.dimension)];
  if (doubt?.kind === "readings") return { at: "", what: `this reading is ${is}, the first one ${was}`, character };
  if (doubt?.kind === "limits") return { at: "", what: `the second limit is ${is}, the first one ${was}`, character };
  return { at: "", what: `the doubt is ${is}, the value ${was}`, expected: `a doubt that is ${was}`, character };
}

function complainAboutPlace({ dimension: found, expression }: CheckedExpression, expected: Dimension): Problem {
  const remedy = remedyForAngle(found, expected);
  const what = `the formula gives ${describeDimension(found)}`;
  return { at: "", what, expected: describeDimension(expected), character: startOf(expression), ...(remedy && { remedy }) };
}
