import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import type { CheckedExpression, DimensionOrColumn } from "./checkDimensions.ts";
import { type Dimension, describeDimension, remedyForAngle, sameDimension } from "./dimension.ts";
import type { Lookup } from "./evaluateExpression.ts";
import { type Expression, namesIn } from "./expression.ts";
import { startOf } from "./internals/bareFormulas.ts";
import { shareUnits } from "./internals/shareUnits.ts";
import { meanOf, middleOf, partsOfStatement, type StatedDoubt, type Statement, sizesOf } from "./statement.ts";
import type { Unit } from "./units.ts";
import { type Doubt, numberAlone, workOutDoubt } from "./workOutDoubt.ts";

/** A statement whose units are known to fit, as plain data. */
export interface CheckedStatement {
  /** The formula of the best estimate, with a unit given to each bare number that had to take one. */
  readonly expression: Expression;
  readonly dimension: Dimension;
  /** Whether neither a unit nor a name stands in it. */
  readonly isBare: boolean;
  /** Of sizes that are numbers alone. */
  readonly doubt?: Doubt;
  /** A doubt whose size rests on names, worked out with their values. */
  readonly namedDoubt?: StatedDoubt;
}

/** Where a statement stands. */
export interface StatementPlace {
  /** What bare numbers are in, as `checkDimensions` says. */
  readonly bareUnit?: Unit;
  /** What the value must be; a statement of bare numbers alone then takes `bareUnit` as a whole, elsewhere it is a number. */
  readonly dimension?: Dimension;
}

/**
 * Finds the dimension of a statement, fits the units of value and doubt to each other, and works a doubt of numbers alone out.
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
  const checked = shareUnits(partsOfStatement(statement), dimensions, place);
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
  if (sizesOf(stated).some((size) => namesIn(size).length > 0)) return success({ ...result, namedDoubt: stated });
  const doubt = workOutDoubt(stated, numberAlone);
  return doubt.ok ? success({ ...result, doubt: doubt.value }) : doubt;
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
