import { type Outcome, success } from "../base/outcome.ts";
import { namedResults } from "../decision/namedResults.ts";
import type { OwnEvaluation, SetupEvaluation } from "../decision/setupEvaluation.ts";
import { strategyNamed } from "../decision/strategyNamed.ts";
import { baseUnitText } from "../formula/baseUnitText.ts";
import { angleDimension, type Dimension, lengthDimension } from "../formula/dimension.ts";
import { soundBudget } from "../formula/soundBudget.ts";
import { strategyInUse } from "../record/strategyInUse.ts";
import type { Budget } from "../uncertainty/budget.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";

/** What leaves: a setup worked out, with the cells of a person's own where they are at hand. */
export type Exchanged = SetupEvaluation & Partial<OwnEvaluation>;

/** A result that leaves, with its budget. */
export interface ExchangedResult {
  /**
   * As `NamedResult` has it; `hole 1 X, the batch` for a characteristic before touching, `cell width` for a cell of a person's own, `cell gauge_length, row 3`
   * for a row of a column of a free table.
   */
  readonly id: string;
  /** Undefined for a cell that has no value. */
  readonly dimension: Dimension | undefined;
  /** Of its numbers: mm, rad, K and products of them; empty for a cell that has no value. */
  readonly unit: string;
  readonly budget: Outcome<Budget>;
  /** Of a row of a free table: the name of its column, and which row, counted from 1. */
  readonly row?: { readonly column: string; readonly number: number };
}

/**
 * Every result that has a budget, by the strategy in use: of this part, then the characteristics of the batch, then the cells of a person's own and
 * the columns of their tables row by row, in their order. It is what a budget, a workbook and a file of D-SI tell. What could not be worked out is there with
 * its reasons; a row in which nothing is typed is not there, and the others keep their numbers.
 */
export function exchangedResults(evaluation: Exchanged): readonly ExchangedResult[] {
  const inUse = strategyInUse(evaluation);
  const chosen = inUse ? success(inUse.evaluation) : strategyNamed(evaluation.strategies, evaluation.setup.chosen);
  const ofBatch = namedResults(evaluation, chosen, "batch").filter(({ group }) => group === "characteristics");
  const named = [
    ...namedResults(evaluation, chosen, "thisPart"),
    ...ofBatch.map((result) => ({ ...result, id: `${result.id}, the batch` })),
  ].map(({ id, unit, budget }): ExchangedResult => ({ id, unit, budget, dimension: unit === "rad" ? angleDimension : lengthDimension }));
  return [...named, ...ownResults(evaluation)];
}

function ownResults({ cells = new Map(), own = new Map() }: Partial<OwnEvaluation>): ExchangedResult[] {
  return [...cells.keys()].flatMap((name): ExchangedResult[] => {
    const outcome = own.get(name);
    const id = `cell ${name}`;
    if (outcome === undefined) return [];
    if (!outcome.ok) return [{ id, dimension: undefined, unit: "", budget: outcome }];
    const { value } = outcome;
    if (value.kind === "quantity") return [valued(id, value.dimension, success(value.value))];
    return value.rows.flatMap((row, i) =>
      row === undefined ? [] : [{ ...valued(`${id}, row ${i + 1}`, value.dimension, row), row: { column: name, number: i + 1 } }],
    );
  });
}

function valued(id: string, dimension: Dimension, value: Outcome<Uncertain>): ExchangedResult {
  if (!value.ok) return { id, dimension: undefined, unit: "", budget: value };
  return { id, dimension, unit: baseUnitText(dimension), budget: soundBudget(value.value) };
}
