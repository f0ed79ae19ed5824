import type { Outcome } from "../../base/outcome.ts";
import { type Dimension, sameDimension } from "../../formula/dimension.ts";
import { soundBudget } from "../../formula/soundBudget.ts";
import { cellSourceId } from "../../ledger/cellSource.ts";
import type { CellValue, ColumnValues } from "../../ledger/cellValue.ts";
import type { LedgerCell } from "../../ledger/ledger.ts";
import type { Budget } from "../../uncertainty/budget.ts";
import { explainDifference } from "../../uncertainty/explainDifference.ts";
import type { Uncertain } from "../../uncertainty/uncertain.ts";
import { type ComparedEvaluation, type EvaluationChange, type Move, smallestShare } from "../evaluationChange.ts";
import { ownUnit } from "./ownUnit.ts";
import { type OwnWriter, ownWriter } from "./ownWriter.ts";
import { signed } from "./signed.ts";

/** Cells and columns told one by one; in document order. */
const mostCells = 12;

/**
 * Cells and columns of a person's own that come out differently, by the sources that moved (see explainDifference). What has lost its value is told
 * with the problem that it has.
 */
export function ownChanges(before: ComparedEvaluation, after: ComparedEvaluation): EvaluationChange[] {
  const changes = [...after.cells.values()].flatMap((cell) => {
    const change = cellChange(cell, before, after);
    return change === undefined ? [] : [{ at: cell.place, ...change }];
  });
  const left = changes.length - mostCells;
  if (left <= 1) return changes;
  return [...changes.slice(0, mostCells), { at: "ledger", sentence: `${left} more cells and columns come out differently` }];
}

type Change = Omit<EvaluationChange, "at">;

function cellChange(cell: LedgerCell, before: ComparedEvaluation, after: ComparedEvaluation): Change | undefined {
  const [was, is] = [valueIn(before.own.get(cell.name)), valueIn(after.own.get(cell.name))];
  if (is === undefined) return undefined;
  const { unit } = after.setup;
  const name = `"${cell.name}"`;
  if (is.kind === "column") return columnChange(cell, was?.kind === "column" ? was : undefined, is, unit);
  const now = knownOf(is.value, is.dimension, cell, unit);
  const then = was?.kind === "quantity" ? knownOf(was.value, was.dimension, cell, unit) : undefined;
  if (now === undefined) return undefined;
  if (then === undefined) {
    const words = before.cells.has(cell.name) ? "has a value now" : "is new";
    return { sentence: `${name} ${words}: ${valueInWords(now)}` };
  }
  const sentence = differenceInWords(name, cell.name, then, now);
  if (sentence === undefined) return undefined;
  const by = now.budget.value - then.budget.value;
  if (!sameDimension(then.dimension, now.dimension) || !now.writer.tellsApart(then.budget.value, now.budget.value)) return { sentence };
  const move: Move = {
    by,
    valueIn: (evaluation) => {
      const value = valueIn(evaluation.own.get(cell.name));
      return value?.kind === "quantity" && sameDimension(value.dimension, now.dimension) ? value.value.value : undefined;
    },
    inWords: (part) => signed(now.writer.part(part)),
  };
  return { sentence, move };
}

/** Rows of a column told one by one. */
const mostRows = 3;

function columnChange(cell: LedgerCell, was: ColumnValues | undefined, is: ColumnValues, unit: "mm" | "inch"): Change | undefined {
  const name = `"${cell.name}"`;
  const [before, now] = [countOf(was), countOf(is)];
  if (before !== now) return { sentence: `${name} has ${now} ${now === 1 ? "value" : "values"}, it had ${before === 0 ? "none" : before}` };
  const rows = is.rows.flatMap((row, i) => {
    const old = was?.rows[i];
    if (row === old || !row?.ok || !old?.ok) return [];
    const known = [knownOf(old.value, was?.dimension ?? is.dimension, cell, unit), knownOf(row.value, is.dimension, cell, unit)] as const;
    const sentence = known[0] && known[1] && differenceInWords(`row ${i + 1} of ${name}`, `${cell.name} ${i + 1}`, known[0], known[1]);
    return sentence === undefined ? [] : [sentence];
  });
  if (rows.length === 0) return undefined;
  const left = rows.length - mostRows;
  return { sentence: [...rows.slice(0, mostRows), ...(left > 0 ? [`${left} more ${left === 1 ? "row" : "rows"} of it`] : [])].join("; ") };
}

function countOf(column: ColumnValues | undefined): number {
  return column?.rows.filter((row) => row?.ok).length ?? 0;
}

function valueIn(outcome: Outcome<CellValue> | undefined): CellValue | undefined {
  return outcome?.ok ? outcome.value : undefined;
}

interface Known {
  readonly budget: Budget;
  readonly dimension: Dimension;
  readonly writer: OwnWriter;
}

function knownOf(value: Uncertain, dimension: Dimension, { shown }: LedgerCell, unit: "mm" | "inch"): Known | undefined {
  const budget = soundBudget(value);
  if (!budget.ok) return undefined;
  return { budget: budget.value, dimension, writer: ownWriter(ownUnit(dimension, shown, unit), budget.value.standardUncertainty) };
}

function valueInWords({ budget, writer }: Known): string {
  const { value, standardUncertainty } = budget;
  return standardUncertainty === 0
    ? writer.value(value)
    : `${writer.value(value)}, standard uncertainty ${writer.uncertainty(standardUncertainty)}`;
}

/** @param source name of the doubt that is stated in its own entry */
function differenceInWords(name: string, source: string, was: Known, is: Known): string | undefined {
  if (!sameDimension(was.dimension, is.dimension)) return `${name} is ${valueInWords(is)}; it was ${valueInWords(was)}`;
  const { writer } = is;
  const isMoved = writer.tellsApart(was.budget.value, is.budget.value);
  const [before, after] = [was, is].map(({ budget }) => writer.uncertainty(budget.standardUncertainty));
  if (!isMoved && before === after) return undefined;
  const explained = explainDifference(was.budget, is.budget);
  const reasons = isMoved ? reasonsInWords(explained, source, writer) : "";
  const moved = `${name} is ${writer.value(is.budget.value)}, was ${writer.value(was.budget.value)}${reasons}`;
  const [most] = explained.variances;
  if (before === after) return moved;
  const way = explained.varianceDifference > 0 ? "grew" : "shrank";
  const by = most === undefined ? "" : `, most of all by ${sourceInWords(most.source, source)}`;
  const doubt = `${way} from ${before} to ${after}${by}`;
  return isMoved ? `${moved}; its standard uncertainty ${doubt}` : `the standard uncertainty of ${name} ${doubt}`;
}

/** Sources told one by one. */
const mostSources = 4;

function reasonsInWords({ difference, moved, remainder }: ReturnType<typeof explainDifference>, own: string, writer: OwnWriter): string {
  const visible = smallestShare * Math.max(Math.abs(difference), ...moved.map(({ effect }) => Math.abs(effect)));
  const causes = moved.filter(({ effect }) => Math.abs(effect) > visible);
  const rest = remainder + moved.reduce((sum, { effect }) => (Math.abs(effect) > visible ? sum : sum + effect), 0);
  if (causes.length === 0) return "";
  const hasRest = Math.abs(rest) > visible;
  const [first] = causes;
  if (causes.length === 1 && !hasRest && first !== undefined) return `: ${becauseOf(first.source, own)}`;
  const told = causes.slice(0, mostSources).map(({ source, effect }) => `${signed(writer.part(effect))} ${becauseOf(source, own)}`);
  const left = causes.slice(mostSources).reduce((sum, { effect }) => sum + effect, 0);
  const more = causes.length > mostSources ? [`${signed(writer.part(left))} by ${causes.length - mostSources} more sources`] : [];
  const others = hasRest ? [`${signed(writer.part(rest))} by readings, entries and formulas`] : [];
  return `: ${[...told, ...more, ...others].join(", ")}`;
}

function becauseOf(source: Parameters<typeof sourceInWords>[0], own: string): string {
  return `because ${sourceInWords(source, own)} ${source.id === cellSourceId(own) ? "changed" : "moved"}`;
}

function sourceInWords({ id, label }: { readonly id: string; readonly label: string }, own: string): string {
  return id === cellSourceId(own) ? "its own entry" : `"${label}"`;
}
