import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { Column } from "../formula/column.ts";
import type { DimensionOrColumn } from "../formula/checkDimensions.ts";
import type { Dimension } from "../formula/dimension.ts";
import type { Lookup, ValueOrColumn } from "../formula/evaluateExpression.ts";
import type { Statement } from "../formula/statement.ts";
import { type CheckedStatement, checkStatement } from "../formula/checkStatement.ts";
import { evaluateStatement, type StatementSource } from "../formula/evaluateStatement.ts";
import type { Unit } from "../formula/units.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { CellLookup, CellValue, Quantity } from "./cellValue.ts";

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
  for (const name of uses) {
    const used = lookup.get(name);
    if (used?.ok === false) return failure(withoutValue(place, name, used.problems[0]));
  }
  const checked = at(checkPlaced(placed, dimensionsIn(lookup)));
  if (!checked.ok) return checked;
  const value = at(evaluateStatement(checked.value, valuesIn(lookup), source));
  return value.ok ? success({ kind: "quantity", value: value.value, dimension: checked.value.dimension }) : value;
}

function checkPlaced({ statement, bareUnit, dimension, bareAlone }: PlacedStatement, dimensions: Lookup<DimensionOrColumn>): Outcome<CheckedStatement> {
  const checked = checkStatement(statement, dimensions, { bareUnit, ...(dimension && { dimension }) });
  return checked.ok && checked.value.isBare && bareAlone === "quantities" && dimension === undefined
    ? checkStatement(statement, dimensions, { bareUnit, dimension: bareUnit.dimension })
    : checked;
}

function withoutValue(at: string, name: string, reason: Problem | undefined): Problem {
  return { at, what: `"${name}" has no value, so this has none`, ...(reason && { remedy: `see there: ${reason.what}` }) };
}

function dimensionsIn(lookup: CellLookup): Lookup<DimensionOrColumn> {
  return {
    get: (name) => {
      const value = valueIn(lookup, name);
      return value?.kind === "column" ? new Column(value.dimension) : value?.dimension;
    },
    keys: () => lookup.keys() as MapIterator<string>,
  };
}

function valuesIn(lookup: CellLookup): Lookup<ValueOrColumn<Uncertain>> {
  return {
    get: (name) => {
      const value = valueIn(lookup, name);
      return value?.kind === "column" ? new Column(value.rows.flatMap((row) => (row?.ok ? [row.value] : []))) : value?.value;
    },
    keys: () => lookup.keys() as MapIterator<string>,
  };
}

function valueIn(lookup: CellLookup, name: string): CellValue | undefined {
  const outcome = lookup.get(name);
  return outcome?.ok ? outcome.value : undefined;
}
