import { failure, type Outcome, type Problem, success } from "../../base/outcome.ts";
import { type CheckedExpression, checkDimensions, type DimensionOrColumn } from "../checkDimensions.ts";
import type { StatementPlace } from "../checkStatement.ts";
import { dimensionless, sameDimension } from "../dimension.ts";
import type { Lookup } from "../evaluateExpression.ts";
import { type Expression, leavesOf, type NumberExpression } from "../expression.ts";
import type { Unit } from "../units.ts";
import { startOf, withBareUnit } from "./bareFormulas.ts";

/** Checks formulas that stand beside each other and are of one kind; bare ones take the unit that was typed once, or that of the place. */
export function shareUnits(
  parts: readonly Expression[],
  dimensions: Lookup<DimensionOrColumn>,
  place: StatementPlace,
): Outcome<readonly CheckedExpression[]> {
  const checked: CheckedExpression[] = [];
  for (const part of parts) {
    const outcome = checkDimensions(part, dimensions, place.bareUnit);
    if (!outcome.ok) return outcome;
    checked.push(outcome.value);
  }
  const bare = checked.find(({ isBare }) => isBare);
  if (!bare) return success(checked);
  const unit = unitOfBare(checked, place);
  if (unit === undefined) return success(checked);
  if ("what" in unit) return failure({ ...unit, character: startOf(bare.expression) });
  const inUnit = ({ expression }: CheckedExpression): CheckedExpression => ({
    expression: withBareUnit(expression, unit),
    dimension: unit.dimension,
    isBare: false,
  });
  return success(checked.map((part) => (part.isBare ? inUnit(part) : part)));
}

type Complaint = Omit<Problem, "character">;

/** Undefined where bare numbers stay numbers. */
function unitOfBare(checked: readonly CheckedExpression[], { bareUnit, dimension }: StatementPlace): Unit | Complaint | undefined {
  const typed = checked.filter(({ isBare }) => !isBare);
  const [first] = typed;
  if (!first) return dimension && bareUnit;
  if (typed.every((part) => sameDimension(part.dimension, dimensionless))) return undefined;
  const leaves = typed.flatMap(({ expression }) => leavesOf(expression));
  const units = [...new Set(leaves.flatMap((leaf) => (leaf.kind === "number" && leaf.unit ? [leaf.unit] : [])))];
  if (leaves.some(({ kind }) => kind === "name")) {
    const isOfPlace = bareUnit && sameDimension(first.dimension, bareUnit.dimension) && units.every((unit) => unit === bareUnit);
    return isOfPlace ? bareUnit : unclear;
  }
  const [unit] = units;
  if (!unit || units.length > 1 || !typed.every((part) => sameDimension(part.dimension, unit.dimension))) return unclear;
  if (bareUnit === undefined || unit === bareUnit || !sameDimension(unit.dimension, bareUnit.dimension)) return unit;
  const decimals = new Set(checked.map(({ expression }) => singleNumber(expression)?.decimals));
  return decimals.size === 1 && !decimals.has(undefined)
    ? unit
    : { ...unclear, what: `it is unclear whether this number is in ${unit.symbol} or in ${bareUnit.symbol}` };
}

const unclear: Complaint = { at: "", what: "it is unclear in which unit this number is", remedy: "write its unit behind it" };

function singleNumber(expression: Expression): NumberExpression | undefined {
  if (expression.kind === "negate") return singleNumber(expression.operand);
  return expression.kind === "number" ? expression : undefined;
}
