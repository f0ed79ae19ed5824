import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { type CheckedExpression, checkDimensions, type DimensionOrColumn } from "./checkDimensions.ts";
import { type Dimension, describeDimension, dimensionless, remedyForAngle, sameDimension, temperatureDimension } from "./dimension.ts";
import type { Lookup } from "./evaluateExpression.ts";
import { type Expression, namesIn } from "./expression.ts";
import { startOf } from "./internals/bareFormulas.ts";
import { shareUnits } from "./internals/shareUnits.ts";
import { inGroups, isRelative, meanOf, middleOf, partsOfStatement, type StatedDoubt, type Statement, sizesOf } from "./statement.ts";
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
  const stated =
    statement.doubt &&
    (isRelative(statement.doubt) ? checkShare(statement.doubt, value, dimensions) : success(withParts(statement.doubt, parts)));
  if (stated?.ok === false) return stated;
  const expression = expressionOf(stated?.value, parts);
  const result = { expression, dimension: value.dimension, isBare: value.isBare };
  if (!stated) return success(result);
  const restsOn = isRelative(stated.value) ? [expression, ...sizesOf(stated.value)] : sizesOf(stated.value);
  if (restsOn.some((size) => namesIn(size).length > 0)) return success({ ...result, namedDoubt: stated.value });
  const doubt = workOutDoubt(stated.value, numberAlone, () => numberAlone(expression));
  if (!doubt.ok) return doubt;
  const { groups } = doubt.value;
  return success({ ...result, doubt: doubt.value, ...(groups?.differ && { expression: meanOfGroups(parts, groups.sizes) }) });
}

/** A share is a number, and a share of a temperature would rest on where its scale begins. */
function checkShare(
  doubt: StatedDoubt & { readonly isRelative: true },
  value: CheckedExpression,
  dimensions: Lookup<DimensionOrColumn>,
): Outcome<StatedDoubt> {
  const [size] = sizesOf(doubt) as [Expression];
  const checked = checkDimensions(size, dimensions);
  if (!checked.ok) return checked;
  const { expression, dimension } = checked.value;
  const character = startOf(expression);
  if (!sameDimension(dimension, dimensionless))
    return failure({
      at: "",
      what: `the doubt in per cent is ${describeDimension(dimension)}`,
      expected: "a number before the sign %",
      character,
    });
  if (sameDimension(value.dimension, temperatureDimension))
    return failure({
      at: "",
      what: "a temperature has no doubt in per cent, since where its scale begins is a matter of choice",
      remedy: "write the doubt in kelvins: ± 0.5 K",
      character,
    });
  return success(doubt.kind === "within" ? { ...doubt, halfWidth: expression } : { ...doubt, size: expression });
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
    case "notBelow":
      return { ...doubt, expectation: first, lowest: second };
    case "readings":
      return { ...doubt, readings: parts };
  }
}

/** The mean of the groups' means: what groups that differ come to (JCGM 100:2008, H.5.2). */
function meanOfGroups(readings: readonly Expression[], sizes: readonly number[]): Expression {
  return meanOf(inGroups(readings, sizes).map((group) => meanOf(group as [Expression, ...Expression[]])) as [Expression, ...Expression[]]);
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
  if (doubt?.kind === "notBelow") return { at: "", what: `the limit is ${is}, the expectation ${was}`, character };
  return { at: "", what: `the doubt is ${is}, the value ${was}`, expected: `a doubt that is ${was}`, character };
}

function complainAboutPlace({ dimension: found, expression }: CheckedExpression, expected: Dimension): Problem {
  const remedy = remedyForAngle(found, expected);
  const what = `the formula gives ${describeDimension(found)}`;
  return { at: "", what, expected: describeDimension(expected), character: startOf(expression), ...(remedy && { remedy }) };
}
