import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { type Dimension, describeDimension, dimensionless, sameDimension } from "../formula/dimension.ts";
import type { StatementSource } from "../formula/evaluateStatement.ts";
import { namesIn } from "../formula/expression.ts";
import { parseStatement } from "../formula/parseStatement.ts";
import { findUnit, type Unit, unit } from "../formula/units.ts";
import { checkName, nameOf } from "../ledger/cellNames.ts";
import type { CellLookup, CellValue, Quantity } from "../ledger/cellValue.ts";
import { evaluateFree, type Ledger, type LedgerCell, ledgerOf } from "../ledger/ledger.ts";
import { type PlacedStatement, quantityOf } from "../ledger/statementCell.ts";
import type { Evidence } from "../uncertainty/source.ts";
import type { Supposition } from "../uncertainty/sourceBook.ts";
import type { CellBlock, TableBlock } from "./ledgerBlocks.ts";
import { readWhatIf } from "./readWhatIf.ts";
import type { SetupDocument } from "./setupDocument.ts";

export interface ReadLedger {
  readonly ledger: Ledger;
  /** Of names; what is wrong with an entry is told by the cell that it belongs to. */
  readonly problems: readonly Problem[];
  /** Cells that rest on an entry that only counts for the moment. */
  readonly overridden: ReadonlySet<string>;
}

/** What entries of the setup may use: cells that rest on nothing but each other. */
export interface FreeCells extends Pick<ReadLedger, "overridden"> {
  readonly values: ReadonlyMap<string, Outcome<CellValue>>;
  /** Those that rest on the setup, so that its entries cannot rest on them. */
  readonly bound: ReadonlySet<string>;
}

export function freeCellsOf({ ledger, overridden }: ReadLedger): FreeCells {
  return { values: evaluateFree(ledger), bound: boundCells(ledger), overridden };
}

export function boundCells({ cells, free }: Ledger): ReadonlySet<string> {
  return new Set([...cells.keys()].filter((name) => !free.has(name)));
}

/** The cells and free tables that a person has written, ready to be worked out. */
export function readLedger({ ledger, unit: bare, whatIf }: Pick<SetupDocument, "ledger" | "unit" | "whatIf">): ReadLedger {
  const suppositions = readWhatIf({ whatIf });
  const reading: Reading = { bareUnit: unit(bare === "inch" ? "in" : "mm"), suppositions };
  const problems: Problem[] = [];
  const cells: LedgerCell[] = [];
  const places = new Map<string, string>();
  const add = (cell: LedgerCell, shown: string) => {
    const checked = checkName(shown);
    const other = places.get(cell.name);
    if (!checked.ok) problems.push(...checked.problems.map((problem) => ({ ...problem, at: `${cell.place}.id` })));
    else if (other !== undefined)
      problems.push({
        at: `${cell.place}.id`,
        what: `this name is used twice, here and at ${other}`,
        got: cell.name,
        remedy: "rename one of them",
      });
    else {
      places.set(cell.name, cell.place);
      cells.push(cell);
    }
  };
  for (const block of ledger) {
    if (block.kind === "cell") add(cellOf(block, reading), block.id);
    if (block.kind === "table") for (const cell of columnsOf(block, reading)) add(cell, cell.name);
  }
  const read = ledgerOf(cells);
  const overridden = new Set(ledger.flatMap((block) => (block.kind === "cell" && block.instead.trim() !== "" ? [block.id] : [])));
  for (const name of read.order) if (read.cells.get(name)?.uses.some((used) => overridden.has(used))) overridden.add(name);
  return { ledger: read, problems, overridden };
}

interface Reading {
  readonly bareUnit: Unit;
  readonly suppositions: ReadonlyMap<string, Supposition>;
}

function cellOf(block: CellBlock, reading: Reading): LedgerCell {
  const place = `ledger.${block.id}`;
  const overridden = block.instead.trim() !== "";
  const placed = placedStatement(overridden ? block.instead : block.entry, {
    place: `${place}.${overridden ? "instead" : "entry"}`,
    ...bareUnitOf(block.unit, reading),
    source: sourceOf(block.id, block.family, evidenceOf(block.evidence), reading),
  });
  return {
    name: block.id,
    place,
    uses: placed.ok ? placed.value.uses : [],
    signature: signatureOf(block, place, reading),
    // Nothing typed is nothing wrong.
    evaluate: (lookup) => (placed.ok ? quantityOf(placed.value, lookup) : block.entry.trim() === "" ? failure() : placed),
  };
}

function columnsOf(table: TableBlock, reading: Reading): LedgerCell[] {
  const names = table.columns.map(({ id }) => nameOf(table.id, id));
  return table.columns.map((column, index) => {
    const name = names[index] as string;
    const place = `ledger.${table.id}.${column.id}`;
    const about = { ...bareUnitOf(column.unit, reading), bareAlone: "quantities" as const };
    if (column.formula.trim() !== "") return formulaColumn(table, index, names, { ...about, place }, reading);
    const rows = table.rows.map((row, i) => {
      const text = row[index] ?? "";
      return text.trim() === ""
        ? undefined
        : placedStatement(text, {
            ...about,
            place: `${place}.${i + 1}`,
            source: sourceOf(`${name} ${i + 1}`, "process", { kind: "stated" }, reading),
          });
    });
    return {
      name,
      place,
      uses: [...new Set(rows.flatMap((row) => (row?.ok ? row.value.uses : [])))],
      signature: signatureOf([column, table.rows.map((row) => row[index])], place, reading),
      evaluate: (lookup) =>
        columnOf(
          place,
          rows.map((row) => (row?.ok ? quantityOf(row.value, lookup) : row)),
        ),
    };
  });
}

/** Every row worked out by one formula, in which the other columns of the table go by their own short names. */
function formulaColumn(
  table: TableBlock,
  index: number,
  names: readonly string[],
  about: Omit<Statement, "source">,
  reading: Reading,
): LedgerCell {
  const name = names[index] as string;
  const short = new Map(table.columns.map(({ id }, i) => [id, names[i] as string]));
  const rows = table.rows.map((_, i) =>
    placedStatement(table.columns[index]?.formula ?? "", {
      ...about,
      place: `${about.place}.${i + 1}`,
      source: sourceOf(`${name} ${i + 1}`, "process", { kind: "stated" }, reading),
    }),
  );
  const [first] = rows;
  const uses = first?.ok ? first.value.uses.map((used) => short.get(used) ?? used) : [];
  return {
    name,
    place: about.place,
    uses: [...new Set(uses)],
    signature: signatureOf([table.columns, table.rows.length], about.place, reading),
    evaluate: (lookup) =>
      columnOf(
        about.place,
        rows.map((row, i) => (row.ok ? rowOutcome(row.value, lookup, short, i) : row)),
      ),
  };
}

/** Undefined where the row has nothing in one of the columns that it needs. */
function rowOutcome(
  placed: PlacedStatement,
  lookup: CellLookup,
  short: ReadonlyMap<string, string>,
  row: number,
): Outcome<Quantity> | undefined {
  const inRow: CellLookup = {
    get: (name) => {
      const column = short.get(name);
      const found = lookup.get(column ?? name);
      if (column === undefined || !found?.ok || found.value.kind !== "column") return found;
      const value = found.value.rows[row];
      if (value === undefined) return failure({ at: placed.place, what: `"${name}" has nothing in this row` });
      return value.ok ? success({ kind: "quantity", value: value.value, dimension: found.value.dimension }) : value;
    },
    keys: () => new Set([...short.keys(), ...lookup.keys()]),
  };
  const isEmpty = placed.uses.some((name) => {
    const found = lookup.get(short.get(name) ?? "");
    return found?.ok && found.value.kind === "column" && found.value.rows[row] === undefined;
  });
  return isEmpty ? undefined : quantityOf(placed, inRow);
}

/** Rows of one dimension as a column: that of the first row that has a value. */
function columnOf(place: string, rows: readonly (Outcome<Quantity> | undefined)[]): Outcome<CellValue> {
  const first = rows.find((row) => row?.ok);
  const dimension = first?.ok ? first.value.dimension : dimensionless;
  const values = rows.map((row, i) => {
    if (row === undefined || !row.ok) return row;
    return sameDimension(row.value.dimension, dimension)
      ? success(row.value.value)
      : failure({
          at: `${place}.${i + 1}`,
          what: `this is ${describeDimension(row.value.dimension)}, the rows before are ${describeDimension(dimension)}`,
          remedy: "write its unit, or move it to a column of its own",
        });
  });
  return success({ kind: "column", rows: values, dimension });
}

interface Statement {
  readonly place: string;
  readonly bareUnit: Unit;
  readonly dimension?: Dimension;
  readonly bareAlone: "numbers" | "quantities";
  readonly source: StatementSource;
}

function placedStatement(text: string, about: Statement): Outcome<PlacedStatement> {
  const parsed = parseStatement(text);
  return parsed.ok
    ? success({ ...about, statement: parsed.value, uses: namesIn(parsed.value.expression) })
    : failure(...parsed.problems.map((problem) => ({ ...problem, at: about.place })));
}

/** The unit of bare numbers: the one that is stated, of which everything must then be; or the notebook's. */
function bareUnitOf(text: string, { bareUnit }: Reading): Pick<Statement, "bareUnit" | "dimension" | "bareAlone"> {
  const own = text.trim() === "" ? undefined : findUnit(text.trim());
  return own === undefined ? { bareUnit, bareAlone: "numbers" } : { bareUnit: own, dimension: own.dimension, bareAlone: "quantities" };
}

function sourceOf(name: string, family: StatementSource["family"], evidence: Evidence, { suppositions }: Reading): StatementSource {
  const id = `cell ${name}`;
  const supposition = suppositions.get(id);
  return { id, label: name, family, evidence, ...(supposition && { supposition }) };
}

function signatureOf(written: unknown, place: string, { bareUnit, suppositions }: Reading): string {
  const supposed = [...suppositions].filter(([id]) => id.startsWith("cell "));
  return JSON.stringify([place, written, bareUnit.symbol, supposed]);
}

function evidenceOf(kind: CellBlock["evidence"]): Evidence {
  return kind === "certificate" || kind === "published" ? { kind, note: "" } : { kind };
}
