import { failure, type Outcome, success } from "../../../lib/base/outcome.ts";
import type { CellBlock, TableBlock } from "../../../lib/document/ledgerBlocks.ts";
import { parseStatement } from "../../../lib/formula/parseStatement.ts";
import { namesOfStatement } from "../../../lib/formula/statement.ts";
import { nameOf } from "../../../lib/ledger/cellNames.ts";
import { cellSourceId } from "../../../lib/ledger/cellSource.ts";
import type { Quantity } from "../../../lib/ledger/cellValue.ts";
import { correlationText } from "../../../lib/record/correlationText.ts";
import type { TraceGraph } from "../../figures/trace/traceOf.ts";
import { keyOf } from "../../inputs/rows.ts";
import type { SheetResults } from "../sheetResults.ts";
import type { LedgerGraph } from "./graph.ts";
import { quantityText, valueText } from "./valueText.ts";

/** What a person looks at when standing on a cell of their own, or on an entry of a free table. */
export interface Stood {
  /** What it was made of: what is equal to the last is not drawn again. */
  readonly from: readonly unknown[];
  /** `wall`, or `heights_z, row 3`. */
  readonly title: string;
  /** By which the graph knows it. */
  readonly name: string;
  /** The formula that counts, as typed. */
  readonly text: string;
  /** In which its value is shown, as typed. */
  readonly wish: { readonly unit: string; readonly decimals: string };
  /** Undefined where there is none, and nothing is wrong. */
  readonly value: Outcome<Quantity> | undefined;
  readonly unit: "mm" | "inch";
  /** Of the document's trials. */
  readonly seed: number;
  readonly graph: TraceGraph;
  isOwn(name: string): boolean;
  /** What a name in its trace comes to. */
  textOf(name: string): string | undefined;
  /** What a name in its formula comes to. */
  numberOf(name: string): string | undefined;
  /** What a name is, where it is no cell. */
  describes(name: string): string | undefined;
  /** Cells with whose doubts its own goes together, and how far. */
  readonly partners: readonly Partner[];
  /** Other entries of the same row. */
  readonly beside: readonly Beside[];
}

export interface Partner {
  readonly name: string;
  readonly coefficient: string;
}

export interface Beside {
  readonly label: string;
  readonly column: number;
}

export function stoodOnCell(block: CellBlock, graph: LedgerGraph, results: SheetResults): Stood {
  const outcome = results.own.get(block.id);
  const textOf = (name: string) => valueText(name, results);
  return {
    ...common(graph, results),
    from: [block, results],
    title: block.id,
    name: block.id,
    text: block.instead.trim() === "" ? block.entry : block.instead,
    wish: block,
    value: outcome?.ok ? (outcome.value.kind === "quantity" ? success(outcome.value) : failure()) : outcome,
    graph,
    textOf,
    numberOf: textOf,
    partners: partnersOf(block.id, results.related),
    beside: [],
  };
}

/** An entry of a free table, by the key of its row and the index of its column. */
export interface TableEntry {
  readonly row: string;
  readonly column: number;
}

/** Undefined where there is no such entry any more. */
export function stoodOnEntry(table: TableBlock, entry: TableEntry, graph: LedgerGraph, results: SheetResults): Stood | undefined {
  const index = table.rows.findIndex((row) => keyOf(row) === entry.row);
  const column = table.columns[entry.column];
  if (index < 0 || column === undefined) return undefined;
  const name = nameOf(table.id, column.id);
  const isTyped = column.formula.trim() === "";
  const text = isTyped ? (table.rows[index]?.[entry.column] ?? "") : column.formula;
  /** Columns of the table stand for what they are in this row, but where a typed entry means a column as a whole. */
  const inRow = new Set(isTyped ? [name] : table.columns.map(({ id }) => nameOf(table.id, id)));
  const textOf = (each: string) => (inRow.has(each) ? rowText(each, index, results) : valueText(each, results));
  const short = new Map(isTyped ? [] : table.columns.map(({ id }) => [id, nameOf(table.id, id)]));
  return {
    ...common(graph, results),
    from: [table, index, entry.column, results],
    title: `${name}, row ${index + 1}`,
    name,
    text,
    wish: { unit: column.unit, decimals: "" },
    value: rowOf(name, index, results),
    graph: isTyped
      ? {
          needsOf: (each) => (each === name ? namesOf(text) : graph.needsOf(each)),
          usersOf: (each) => graph.usersOf(each),
        }
      : graph,
    textOf,
    numberOf: (each) => textOf(short.get(each) ?? each),
    partners: [],
    beside: table.columns.flatMap(({ id }, i) => (i === entry.column ? [] : [{ label: id, column: i }])),
  };
}

function common(graph: LedgerGraph, { own, quantities, evaluation }: SheetResults) {
  return {
    unit: evaluation.setup.unit,
    seed: evaluation.setup.sampling.seed,
    isOwn: (name: string) => graph.isOwn(name),
    describes: (name: string) => (own.has(name) ? undefined : quantities.about(name)?.describes),
  };
}

function partnersOf(cell: string, related: SheetResults["related"]): Partner[] {
  const source = cellSourceId(cell);
  return related.flatMap(({ one, other, coefficient }) => {
    if (one !== source && other !== source) return [];
    const name = (one === source ? other : one).slice(cellSourceId("").length);
    return [{ name, coefficient: correlationText(coefficient).replace("-", "−") }];
  });
}

/** The names in a formula that is sound. */
export function namesOf(text: string): readonly string[] {
  const statement = parseStatement(text);
  return statement.ok ? namesOfStatement(statement.value) : [];
}

/** The value of one row of a column; what is wrong with all of it where that is so. */
function rowOf(name: string, index: number, { own }: SheetResults): Outcome<Quantity> | undefined {
  const column = own.get(name);
  if (!column?.ok) return column;
  if (column.value.kind !== "column") return undefined;
  const { rows, dimension } = column.value;
  const row = rows[index];
  return row?.ok ? success({ kind: "quantity", value: row.value, dimension }) : row;
}

function rowText(name: string, index: number, results: SheetResults): string | undefined {
  const value = rowOf(name, index, results);
  return value?.ok ? quantityText(value.value, results.evaluation.setup.unit) : undefined;
}
