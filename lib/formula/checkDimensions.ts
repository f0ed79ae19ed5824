import { suggestName } from "../base/nearestName.ts";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { Column, complainAboutColumn } from "./column.ts";
import {
  angleDimension,
  type Dimension,
  describeDimension,
  dimensionless,
  multiplyDimensions,
  raiseDimension,
  remedyForAngle,
  sameDimension,
  simplePower,
} from "./dimension.ts";
import { evaluateExpression, type Lookup } from "./evaluateExpression.ts";
import { type Expression, isAggregateName, isLineFunction, type LineFunctionName } from "./expression.ts";
import { formatExpression } from "./formatExpression.ts";
import { startOf, withBareUnit } from "./internals/bareFormulas.ts";
import { numberArithmetic } from "./numberArithmetic.ts";
import type { Unit } from "./units.ts";

/** The dimension of one value, or that of all values of a column. */
export type DimensionOrColumn = Dimension | Column<Dimension>;

export interface CheckedExpression {
  /** The formula, with a unit given to each bare number that had to take one. */
  readonly expression: Expression;
  readonly dimension: Dimension;
  /** Whether neither a unit nor a name stands in it: such a number may still take the unit of its place. */
  readonly isBare: boolean;
}

/**
 * Finds the dimension of a formula and refuses sums of unlike things, angles
 * where numbers belong and the like, naming the operation and both sides.
 *
 * With `bareUnit`, the unit of the place where the formula stands, a bare
 * number in a sum (or among the arguments of min, max, mean, sum, deviation, hypot, atan2) with
 * something of that dimension takes that unit: in an inch field `12.5 + 0.1 mm`
 * is 12.5 in + 0.1 mm. What is asked about a line takes none: that is the unit of its answer. A bare number that multiplies or divides stays a number,
 * and nothing that a name or a unit went into ever takes a unit by itself.
 */
export function checkDimensions(
  expression: Expression,
  dimensions: Lookup<DimensionOrColumn>,
  bareUnit?: Unit,
): Outcome<CheckedExpression> {
  const checked = check(expression, { dimensions, bareUnit });
  return "what" in checked ? failure(checked) : success(checked);
}

interface Context {
  readonly dimensions: Lookup<DimensionOrColumn>;
  readonly bareUnit: Unit | undefined;
}

type Checked = CheckedExpression | Problem;

function isSound(checked: Checked): checked is CheckedExpression {
  return !("what" in checked);
}

function check(node: Expression, context: Context): Checked {
  switch (node.kind) {
    case "number":
      return { expression: node, dimension: node.unit?.dimension ?? dimensionless, isBare: !node.unit };
    case "name": {
      const dimension = context.dimensions.get(node.name);
      if (!dimension) return { ...refuse(`unknown name "${node.name}"`, node), ...suggestName(node.name, context.dimensions.keys()) };
      if (dimension instanceof Column) return { at: "", ...complainAboutColumn(node.name), character: node.character };
      return { expression: node, dimension, isBare: false };
    }
    case "negate": {
      const operand = check(node.operand, context);
      return "what" in operand ? operand : { ...operand, expression: { ...node, operand: operand.expression } };
    }
    case "operation":
      return checkOperation(node, context);
    case "call":
      return checkCall(node, context);
  }
}

function checkOperation(node: Expression & { readonly kind: "operation" }, context: Context): Checked {
  const typedLeft = check(node.left, context);
  if ("what" in typedLeft) return typedLeft;
  const typedRight = check(node.right, context);
  if ("what" in typedRight) return typedRight;
  const { operator } = node;
  if (operator === "+" || operator === "-") {
    const left = adoptUnit(typedLeft, [typedRight], context);
    const right = adoptUnit(typedRight, [typedLeft], context);
    const expression: Expression = { ...node, left: left.expression, right: right.expression };
    return refuseUnlike(node, [left, right]) ?? { expression, dimension: left.dimension, isBare: left.isBare && right.isBare };
  }
  const expression: Expression = { ...node, left: typedLeft.expression, right: typedRight.expression };
  const isBare = typedLeft.isBare && typedRight.isBare;
  if (operator === "^") {
    const dimension = raise(typedLeft, typedRight, node);
    return "what" in dimension ? dimension : { expression, dimension, isBare };
  }
  const factor = operator === "*" ? typedRight.dimension : raiseDimension(typedRight.dimension, -1);
  return { expression, dimension: multiplyDimensions(typedLeft.dimension, factor), isBare };
}

function raise(base: CheckedExpression, exponent: CheckedExpression, node: Expression): Dimension | Problem {
  if (!sameDimension(exponent.dimension, dimensionless))
    return refuse(`the exponent must be a number, not ${describeDimension(exponent.dimension)}`, node);
  if (sameDimension(base.dimension, dimensionless)) return dimensionless;
  const constant = exponent.isBare ? evaluateExpression(exponent.expression, numberArithmetic, new Map<string, number>()) : undefined;
  if (constant?.ok) return simplePowerOf(base, constant.value, node);
  return refuse(
    `${describeDimension(base.dimension)} can be raised only to an exponent that is written out`,
    node,
    "write the exponent as a number",
  );
}

/** An argument of a function of many values: alone there, a name may stand for a column. */
function checkAmongMany(node: Expression, context: Context): Checked {
  const column = node.kind === "name" ? context.dimensions.get(node.name) : undefined;
  return column instanceof Column ? { expression: node, dimension: column.content, isBare: false } : check(node, context);
}

function simplePowerOf(base: CheckedExpression, exponent: number, node: Expression): Dimension | Problem {
  const remedy = "write a whole number or a simple fraction such as 1/3";
  return (
    simplePower(base.dimension, exponent) ??
    refuse(`${describeDimension(base.dimension)} raised to ${Number(exponent.toPrecision(6))} has no unit`, node, remedy)
  );
}

/** Of the places and values of a line, and of what is asked about it: see `LineFunctionName`. */
function checkLine(node: Expression & { readonly kind: "call" }, name: LineFunctionName, context: Context): Checked {
  const [places, values, about] = node.arguments;
  const across = columnOf(places, name, context);
  if ("what" in across) return across;
  const along = columnOf(values, name, context);
  if ("what" in along) return along;
  const ofLine = (dimension: Dimension, parts: readonly Expression[] = []): CheckedExpression => ({
    expression: { ...node, arguments: [across.expression, along.expression, ...parts] },
    dimension,
    isBare: false,
  });
  if (name === "slope_of_line") return ofLine(multiplyDimensions(along.dimension, raiseDimension(across.dimension, -1)));
  if (about === undefined) return ofLine(along.dimension);
  const given = check(about, context);
  if ("what" in given) return given;
  const [from, to] = name === "value_on_line" ? [across, along] : [along, across];
  // The unit of the place where the formula stands is that of what comes out, which a bare number that goes in need not be in.
  if (sameDimension(given.dimension, from.dimension)) return ofLine(to.dimension, [given.expression]);
  const remedy = remedyFor(given, from);
  return {
    at: "",
    what: `this is ${describeDimension(given.dimension)}, and the values of "${from.expression.name}" are ${describeDimension(from.dimension)}`,
    expected: describeDimension(from.dimension),
    character: startOf(given.expression),
    ...(remedy && { remedy }),
  };
}

type CheckedColumn = CheckedExpression & { readonly expression: Expression & { readonly kind: "name" } };

/** An argument that must be a whole column. */
function columnOf(node: Expression | undefined, name: LineFunctionName, context: Context): CheckedColumn | Problem {
  if (node === undefined) throw new RangeError(`arguments of ${name}: expected two columns or more`);
  const column = node.kind === "name" ? context.dimensions.get(node.name) : undefined;
  if (node.kind === "name" && column instanceof Column) return { expression: node, dimension: column.content, isBare: false };
  const checked = check(node, context);
  if ("what" in checked) return checked;
  return {
    at: "",
    what: `${name} takes whole columns: first the places, then the values found there; and this is one value`,
    expected: "the name of a column of a free table",
    character: startOf(node),
  };
}

function checkCall(node: Expression & { readonly kind: "call" }, context: Context): Checked {
  if (isLineFunction(node.function)) return checkLine(node, node.function, context);
  const checkArgument = isAggregateName(node.function) ? checkAmongMany : check;
  const checked = node.arguments.map((argument) => checkArgument(argument, context));
  const problem = checked.find((argument) => !isSound(argument));
  if (problem) return problem;
  const typed = checked.filter(isSound);
  const compares = functionsOfLikeArguments.has(node.function);
  const args = compares ? typed.map((argument) => adoptUnit(argument, typed, context)) : typed;
  const unlike = compares ? refuseUnlike(node, args) : undefined;
  if (unlike) return unlike;
  const [first] = args;
  if (!first) throw new RangeError(`arguments of ${node.function}: expected at least one, got none`);
  const dimension = dimensionOfCall(node, first);
  if ("what" in dimension) return dimension;
  const expression: Expression = { ...node, arguments: args.map((argument) => argument.expression) };
  const isBare = node.function !== "count" && dimension.angle === 0 && args.every((argument) => argument.isBare);
  return { expression, dimension, isBare };
}

function dimensionOfCall(node: Expression & { readonly kind: "call" }, argument: CheckedExpression): Dimension | Problem {
  switch (node.function) {
    case "sqrt":
      return simplePowerOf(argument, 1 / 2, node);
    case "sin":
    case "cos":
    case "tan":
      if (sameDimension(argument.dimension, angleDimension)) return dimensionless;
      return refuse(
        `${node.function} needs an angle, not ${describeDimension(argument.dimension)}`,
        node,
        argument.isBare ? "write its unit: deg or rad" : undefined,
      );
    case "asin":
    case "acos":
    case "atan":
      if (sameDimension(argument.dimension, dimensionless)) return angleDimension;
      return refuse(`${node.function} needs a number, not ${describeDimension(argument.dimension)}`, node);
    case "atan2":
      return angleDimension;
    case "count":
      return dimensionless;
    default:
      return argument.dimension;
  }
}

const functionsOfLikeArguments: ReadonlySet<string> = new Set(["atan2", "hypot", "min", "max", "mean", "sum", "deviation"]);

/** The bare number with the unit of the place, if one of its partners has that dimension and is not bare itself. */
function adoptUnit(value: CheckedExpression, partners: readonly CheckedExpression[], { bareUnit }: Context): CheckedExpression {
  if (!bareUnit || !value.isBare) return value;
  if (!partners.some((partner) => !partner.isBare && sameDimension(partner.dimension, bareUnit.dimension))) return value;
  return { expression: withBareUnit(value.expression, bareUnit), dimension: bareUnit.dimension, isBare: false };
}

function refuseUnlike(
  node: Expression & { readonly kind: "operation" | "call" },
  values: readonly CheckedExpression[],
): Problem | undefined {
  const [first] = values;
  const other = first && values.find((value) => !sameDimension(value.dimension, first.dimension));
  if (!first || !other) return undefined;
  const pair = `${describeDimension(first.dimension)} and ${describeDimension(other.dimension)}`;
  const what = node.kind === "call" ? `${node.function} of ${pair}` : `cannot ${node.operator === "+" ? "add" : "subtract"} ${pair}`;
  // Both sides as they are typed, with their units: the formula may be a long one.
  return { ...refuse(what, node, remedyFor(first, other)), got: formatExpression(node) };
}

function remedyFor(a: CheckedExpression, b: CheckedExpression): string | undefined {
  if (a.isBare || b.isBare) return "write the unit of the bare number";
  return remedyForAngle(a.dimension, b.dimension);
}

function refuse(what: string, { character }: Expression, remedy?: string): Problem {
  return { at: "", what, character, ...(remedy && { remedy }) };
}
