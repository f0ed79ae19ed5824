import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import type { DimensionOrColumn } from "../formula/checkDimensions.ts";
import { type CheckedStatement, checkStatement } from "../formula/checkStatement.ts";
import type { Dimension } from "../formula/dimension.ts";
import type { Lookup } from "../formula/evaluateExpression.ts";
import { evaluateStatement, type StatementSource } from "../formula/evaluateStatement.ts";
import type { Statement } from "../formula/statement.ts";
import type { Unit } from "../formula/units.ts";
import { stepOfNumber } from "../formula/workOutDoubt.ts";
import type { CellLookup, Quantity } from "./cellValue.ts";
import { namesOf } from "./namesOf.ts";

/** A statement at its place in the document. */
export interface PlacedStatement {
  readonly place: string;
  readonly statement: Statement;
  /** Every name in it. */
  readonly uses: readonly string[];
  /** Which a bare number beside quantities takes. */
  readonly bareUnit: Unit;
  /** What the value must be; anything when left out. */
  readonly dimension?: Dimension;
  /** Whether bare numbers alone are numbers, or quantities in the unit. */
  readonly bareAlone: "numbers" | "quantities";
  /** Of the doubt that is stated in it. */
  readonly source: StatementSource;
}

/** The value of a statement from what it names; a problem at its place where it has none. */
export function quantityOf(placed: PlacedStatement, lookup: CellLookup): Outcome<Quantity> {
  const { place, uses, source } = placed;
  const at = <T>(outcome: Outcome<T>): Outcome<T> =>
    outcome.ok ? outcome : failure(...outcome.problems.map((problem): Problem => ({ ...problem, at: place })));
  const names = namesOf(lookup);
  for (const name of uses) {
    const problem = names.problemOf(name);
    if (problem) return failure({ ...problem, at: place });
  }
  const checked = at(checkPlaced(placed, names.dimensions));
  if (!checked.ok) return checked;
  const value = at(evaluateStatement(checked.value, names.values, source));
  const step = stepOfNumber(checked.value.expression);
  return value.ok
    ? success({ kind: "quantity", value: value.value, dimension: checked.value.dimension, ...(step !== undefined && { step }) })
    : value;
}

function checkPlaced(
  { statement, bareUnit, dimension, bareAlone }: PlacedStatement,
  dimensions: Lookup<DimensionOrColumn>,
): Outcome<CheckedStatement> {
  const checked = checkStatement(statement, dimensions, { bareUnit, ...(dimension && { dimension }) });
  return checked.ok && checked.value.isBare && bareAlone === "quantities" && dimension === undefined
    ? checkStatement(statement, dimensions, { bareUnit, dimension: bareUnit.dimension })
    : checked;
}
