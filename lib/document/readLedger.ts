import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { parseCellName } from "../formula/cellName.ts";
import { type Dimension, describeDimension, dimensionless, sameDimension } from "../formula/dimension.ts";
import type { StatementSource } from "../formula/evaluateStatement.ts";
import type { Names } from "../formula/names.ts";
import { parseStatement } from "../formula/parseStatement.ts";
import { parseUnit } from "../formula/resultUnit.ts";
import { namesOfStatement } from "../formula/statement.ts";
import { type Unit, unit } from "../formula/units.ts";
import { type CellDoubts, noCellDoubts } from "../ledger/cellDoubts.ts";
import { nameOf } from "../ledger/cellNames.ts";
import { cellSourceId, columnsOfLine, isCellSource } from "../ledger/cellSource.ts";
import { type CellLookup, type CellValue, type ColumnValues, lookupIn, type Quantity } from "../ledger/cellValue.ts";
import { evaluateFree, type Ledger, type LedgerCell, ledgerOf } from "../ledger/ledger.ts";
import { namesOf } from "../ledger/namesOf.ts";
import { type PlacedStatement, quantityOf } from "../ledger/statementCell.ts";
import { type RelatedPair, type RelatedSources, relateSources, type SourceRelation } from "../uncertainty/relateSources.ts";
import type { Supposition } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { CellBlock, TableBlock } from "./ledgerBlocks.ts";
import { readCorrelations } from "./readCorrelations.ts";
import { evidenceOf } from "./readEquipment.ts";
import { readWhatIf } from "./readWhatIf.ts";
import type { SetupDocument } from "./setupDocument.ts";

export interface ReadLedger {
  readonly ledger: Ledger;
  /** Of names; what is wrong with an entry is told by the cell that it belongs to. */
  readonly problems: readonly Problem[];
  /** Cells with an entry that only counts for the moment. */
  readonly overridden: ReadonlySet<string>;
  /** Doubts of cells that go together. */
  readonly related: readonly RelatedPair[];
  readonly doubts: CellDoubts;
}

/** What entries of the setup may use: cells that rest on nothing but each other. */
export interface FreeCells extends Pick<ReadLedger, "overridden" | "doubts"> {
  /** Of those that entries name; of others it does not matter. */
  readonly values: ReadonlyMap<string, Outcome<CellValue>>;
  /** The names of all of them. */
  readonly known: readonly string[];
  /** Those that rest on the setup, so that its entries cannot rest on them. */
  readonly bound: ReadonlySet<string>;
}

export function freeCellsOf({ ledger, overridden, doubts }: ReadLedger): FreeCells {
  const values = evaluateFree(ledger);
  return { values, known: [...values.keys()], bound: boundCells(ledger), overridden, doubts };
}

export function boundCells({ cells, free }: Ledger): ReadonlySet<string> {
  return new Set([...cells.keys()].filter((name) => !free.has(name)));
}

/** The cells and free tables that a person has written, ready to be worked out. */
export function readLedger(document: Pick<SetupDocument, "ledger" | "unit" | "whatIf" | "correlations">): ReadLedger {
  const { ledger, unit: bare, whatIf } = document;
  const suppositions = readWhatIf({ whatIf });
  const supposed = [...suppositions].filter(([id]) => isCellSource(id));
  const alone: Reading = {
    bareUnit: unit(bare === "inch" ? "in" : "mm"),
    suppositions,
    key: JSON.stringify([bare, supposed]),
    related: nothingRelated,
  };
  const related = relatedCells(document, alone);
  const reading: Reading = { ...alone, related };
  const { cells, problems } = readCells(ledger, reading);
  const overridden = new Set(ledger.flatMap((block) => (block.kind === "cell" && block.instead.trim() !== "" ? [block.id] : [])));
  return {
    ledger: ledgerOf(cells),
    problems: [...related.problems, ...problems],
    overridden,
    related: related.pairs,
    doubts: related.doubts,
  };
}

function readCells(ledger: SetupDocument["ledger"], reading: Reading): { readonly cells: LedgerCell[]; readonly problems: Problem[] } {
  const problems: Problem[] = [];
  const cells: LedgerCell[] = [];
  const places = new Map<string, string>();
  const add = ({ cell, misnamed }: NamedCell) => {
    const other = places.get(cell.name);
    if (misnamed.length > 0) problems.push(...misnamed);
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
  for (const block of ledger) if (block.kind === "cell" || block.kind === "table") cellsOf(block, reading).forEach(add);
  return { cells, problems };
}

interface NamedCell {
  readonly cell: LedgerCell;
  /** Why formulas cannot name it so; empty where they can. */
  readonly misnamed: readonly Problem[];
}

function namedCell(cell: LedgerCell): NamedCell {
  const checked = parseCellName(cell.name);
  return { cell, misnamed: checked.ok ? [] : checked.problems.map((problem) => ({ ...problem, at: `${cell.place}.id` })) };
}

interface Reading {
  readonly bareUnit: Unit;
  readonly suppositions: ReadonlyMap<string, Supposition>;
  /** Readings with the same key read alike, but for cells whose doubts go together. */
  readonly key: string;
  readonly related: RelatedCells;
}

/** Doubts of cells that go together. */
interface RelatedCells extends Omit<RelatedSources, "estimates"> {
  readonly doubts: CellDoubts;
  /** Of the cells that they are the doubts of: other relations and other entries have another key. */
  readonly key: string;
}

const nothingRelated: RelatedCells = {
  values: new Map(),
  pairs: [],
  unusable: new Set(),
  problems: [],
  doubts: noCellDoubts,
  key: "",
};

/** Relations of cells as they were worked out last, and how often they were: cells that share sources must be read from the same ones. */
let lastRelated: { readonly stated: string; readonly related: RelatedCells } | undefined;
let timesRelated = 0;

function relatedCells(document: Pick<SetupDocument, "ledger" | "unit" | "correlations">, reading: Reading): RelatedCells {
  if (document.correlations.length === 0) return nothingRelated;
  const { ofCells, ofSetup, unusable } = readCorrelations(document, [], namesForCoefficients(document, reading));
  const refused = [...unusable].filter(isCellSource);
  if (ofCells.length === 0 && refused.length === 0) return nothingRelated;
  const named = new Set([...ofCells.flatMap(({ one, other }) => [one, other]), ...refused].filter(isCellSource));
  const blocks = document.ledger.flatMap((block) => (block.kind === "cell" && named.has(cellSourceId(block.id)) ? [block] : []));
  const entries = blocks.map(({ id, entry, instead, unit: own, family, evidence }) => [id, entry, instead, own, family, evidence]);
  const stated = JSON.stringify([reading.key, ofCells, refused, entries]);
  if (lastRelated?.stated === stated) return lastRelated.related;
  timesRelated += 1;
  const made = new Map(blocks.map((block) => [cellSourceId(block.id), doubtOf(block, reading)]));
  // Nothing rests on a cell that cannot be read, and why it cannot be read is told there.
  const usable = ofCells.filter((relation) => ends.every((end) => made.get(relation[end]) !== "unread"));
  const isOfRow = rowSources(document.ledger);
  const refusalOf = (id: string) => {
    if (columnsOfLine(id)) return ofLine;
    return made.get(id) === "rests on others" ? restsOnOthers : isOfRow(id) ? ofRow : undefined;
  };
  const mixed = usable.flatMap((relation) =>
    ends.flatMap((end) => {
      const refusal = refusalOf(relation[end]);
      return refusal === undefined ? [] : [{ ...refusal, at: `${relation.place}.${end}`, got: relation[end] }];
    }),
  );
  const values = new Map([...made].flatMap(([id, value]) => (typeof value === "string" ? [] : [[id, value] as const])));
  const exact = [...reading.suppositions].flatMap(([id, { doubt }]) => (doubt === 0 ? [id] : []));
  const isMixed = ({ place }: SourceRelation) => mixed.some(({ at }) => at.startsWith(`${place}.`));
  const found = relateSources(
    usable.filter((relation) => !isMixed(relation)),
    values,
    new Set(exact),
    { isLater: (id) => !isCellSource(id) },
  );
  const unusableNow = new Set([...refused, ...found.unusable, ...usable.filter(isMixed).flatMap(({ one, other }) => [one, other])]);
  const withSetup = new Set(ofSetup.flatMap(({ one, other }) => [one, other]));
  const doubts: CellDoubts = {
    values: new Map(
      [...found.values].flatMap(([id, value]) => (withSetup.has(id) ? [[id, { alone: values.get(id) as Uncertain, value }] as const] : [])),
    ),
    isUnusable: [...unusableNow].some((id) => withSetup.has(id)),
  };
  const related = { ...found, problems: [...mixed, ...found.problems], unusable: unusableNow, doubts, key: `${timesRelated} ${stated}` };
  lastRelated = { stated, related };
  return related;
}

/** What coefficients can name: cells as they are without anything going together, which changes no number that is sure. */
function namesForCoefficients(
  { correlations, ledger }: Pick<SetupDocument, "ledger" | "correlations">,
  reading: Reading,
): Names | undefined {
  if (!correlations.some(({ coefficient }) => /\p{L}/u.test(coefficient))) return undefined;
  return namesOf(evaluateFree(ledgerOf(readCells(ledger, reading).cells)));
}

const ends = ["one", "other"] as const;

const restsOnOthers: Omit<Problem, "at"> = {
  what: "this cell rests on others, and only a doubt that stands in a cell by itself can be related",
  expected: "a cell that names nothing else",
  remedy: "state the doubt in a cell of its own, and name that cell here and there",
};

const ofLine: Omit<Problem, "at"> = {
  what: "this is the doubt of a line through two columns, and only a doubt that stands in a cell by itself can be related",
  expected: "a cell that names nothing else",
  remedy: "state what the rows have in common in a cell, name that cell in each of them, and name it here",
};

const ofRow: Omit<Problem, "at"> = {
  what: "this is the doubt of a row of a table, and only a doubt that stands in a cell by itself can be related",
  expected: "a cell that names nothing else",
  remedy: "state the doubt in a cell, and name that cell in the row and here",
};

/** Whether a source is that of a row of a free table. */
function rowSources(ledger: SetupDocument["ledger"]): (id: string) => boolean {
  const columns = new Set(
    ledger.flatMap((block) => (block.kind === "table" ? block.columns.map(({ id }) => cellSourceId(nameOf(block.id, id))) : [])),
  );
  return (id) => columns.has(id.replace(/ \d+$/, "")) && / \d+$/.test(id);
}

/** The doubt that a cell states by itself. */
function doubtOf(block: CellBlock, reading: Reading): Uncertain | "unread" | "rests on others" {
  const { placed } = statementOf(block, reading);
  if (!placed.ok) return "unread";
  if (placed.value.uses.length > 0) return "rests on others";
  const outcome = quantityOf(placed.value, new Map());
  return outcome.ok ? outcome.value.value : "unread";
}

/** What blocks, which never change, were read as last. */
const readBlocks = new WeakMap<CellBlock | TableBlock, { readonly key: string; readonly cells: readonly NamedCell[] }>();

function cellsOf(block: CellBlock | TableBlock, reading: Reading): readonly NamedCell[] {
  const key = block.kind === "cell" ? keyOf(block, reading) : reading.key;
  const known = readBlocks.get(block);
  if (known?.key === key) return known.cells;
  const cells = (block.kind === "cell" ? [readCell(block, reading)] : columnsOf(block, reading)).map(namedCell);
  readBlocks.set(block, { key, cells });
  return cells;
}

function keyOf({ id }: CellBlock, { key, related }: Reading): string {
  if (related === nothingRelated) return key;
  const source = cellSourceId(id);
  return related.values.has(source) || related.unusable.has(source) ? `${key} ${related.key}` : key;
}

function readCell(block: CellBlock, reading: Reading): LedgerCell {
  const { place, text, placed } = statementOf(block, reading);
  const isUnusable = reading.related.unusable.has(cellSourceId(block.id));
  return {
    name: block.id,
    place,
    uses: placed.ok ? placed.value.uses : [],
    shown: { unit: block.unit, decimals: block.decimals },
    signature: JSON.stringify([place, block, keyOf(block, reading)]),
    evaluate: (lookup) => {
      // Nothing typed is nothing wrong.
      if (!placed.ok) return text.trim() === "" ? failure() : placed;
      return isUnusable ? failure({ ...relationUnusable, at: placed.value.place }) : quantityOf(placed.value, lookup);
    },
  };
}

const relationUnusable: Omit<Problem, "at"> = {
  what: "a correlation of its doubt cannot be used, and whatever rests on it would be wrong without it",
  remedy: "see what is said at the correlations",
};

function statementOf(block: CellBlock, reading: Reading) {
  const place = `ledger.${block.id}`;
  const overridden = block.instead.trim() !== "";
  const text = overridden ? block.instead : block.entry;
  const placed = placedStatement(text, bareUnitOf(block.unit, `${place}.unit`, reading), {
    place: `${place}.${overridden ? "instead" : "entry"}`,
    source: sourceOf(block.id, block, reading),
  });
  return { place, text, placed };
}

function columnsOf(table: TableBlock, reading: Reading): LedgerCell[] {
  const names = table.columns.map(({ id }) => nameOf(table.id, id));
  return table.columns.map((column, index) => {
    const name = names[index] as string;
    const place = `ledger.${table.id}.${column.id}`;
    const bare = bareUnitOf(column.unit, `${place}.unit`, reading);
    const about: About = {
      name,
      place,
      bare: bare.ok ? success({ ...bare.value, bareAlone: "quantities" }) : bare,
      rests: { evidence: column.evidence, family: column.family },
      shown: { unit: column.unit, decimals: column.decimals },
      reading,
    };
    return column.formula.trim() === "" ? typedColumn(table.rows, index, about) : formulaColumn(table, index, names, about);
  });
}

interface About {
  readonly name: string;
  readonly place: string;
  readonly bare: Outcome<BareUnit>;
  /** What the doubts of its rows rest on. */
  readonly rests: Pick<TableBlock["columns"][number], "evidence" | "family">;
  readonly shown: LedgerCell["shown"];
  readonly reading: Reading;
}

function typedColumn(rows: TableBlock["rows"], index: number, about: About): LedgerCell {
  const { name, place, shown } = about;
  const { read, uses, version } = readColumn(rows, index, about);
  return {
    name,
    place,
    uses,
    shown,
    signature: `${place} ${version}`,
    evaluate: (lookup) =>
      columnOf(
        about,
        read.map((row) => row?.evaluate(lookup)),
      ),
  };
}

interface RowCell {
  readonly uses: readonly string[];
  evaluate(lookup: CellLookup): Outcome<Quantity>;
}

/** A column as it was read last. */
interface ReadColumn extends Pick<About, "bare" | "rests"> {
  readonly key: string;
  readonly index: number;
  readonly rows: TableBlock["rows"];
  /** Undefined where nothing is typed. */
  readonly read: readonly (RowCell | undefined)[];
  readonly uses: readonly string[];
  /** Another one whenever a row is not what it was. */
  readonly version: number;
}

/** By their places: of thousands of rows a person changes one. */
const readColumns = new Map<string, ReadColumn>();
let versions = 0;

function readColumn(rows: TableBlock["rows"], index: number, about: About): ReadColumn {
  const { place, bare, rests, reading } = about;
  const last = readColumns.get(place);
  const isReadAlike = last?.key === reading.key && last.index === index && sameUnit(last.bare, bare) && sameRests(last.rests, rests);
  const before = isReadAlike ? last : undefined;
  let isAsBefore = before?.rows.length === rows.length;
  const read = rows.map((row, i) => {
    const text = row[index] ?? "";
    const former = before?.rows[i];
    if (former !== undefined && (former === row || (former[index] ?? "") === text)) return before?.read[i];
    isAsBefore = false;
    return text.trim() === "" ? undefined : readRow(text, i + 1, about);
  });
  const uses = new Set<string>();
  for (const row of read) if (row !== undefined && row.uses.length > 0) for (const used of row.uses) uses.add(used);
  if (before === undefined || !isAsBefore) versions += 1;
  const version = before !== undefined && isAsBefore ? before.version : versions;
  const column = { key: reading.key, index, bare, rests, rows, read, uses: [...uses], version };
  keepLast(readColumns, place, column);
  return column;
}

/** So many places are remembered; more than any notebook has columns. */
const mostPlaces = 400;

function keepLast<V>(known: Map<string, V>, place: string, value: V): void {
  known.delete(place);
  known.set(place, value);
  const oldest = known.keys().next();
  if (known.size > mostPlaces && !oldest.done) known.delete(oldest.value);
}

function sameRests(a: About["rests"], b: About["rests"]): boolean {
  return a.evidence === b.evidence && a.family === b.family;
}

function sameUnit(a: Outcome<BareUnit>, b: Outcome<BareUnit>): boolean {
  return a.ok && b.ok && a.value.bareUnit.symbol === b.value.bareUnit.symbol && a.value.dimension === b.value.dimension;
}

function readRow(text: string, number: number, { name, place, bare, rests, reading }: About): RowCell {
  const placed = placedStatement(text, bare, {
    place: `${place}.${number}`,
    source: sourceOf(`${name} ${number}`, rests, reading),
  });
  const uses = placed.ok ? placed.value.uses : [];
  let fixed: Outcome<Quantity> | undefined;
  const evaluate = (lookup: CellLookup): Outcome<Quantity> => {
    if (!placed.ok) return placed;
    if (uses.length > 0) return quantityOf(placed.value, lookup);
    fixed ??= quantityOf(placed.value, lookup);
    return fixed;
  };
  return { uses, evaluate };
}

/** Every row worked out by one formula, in which the other columns of the table go by their own short names. */
function formulaColumn({ rows, columns }: TableBlock, index: number, names: readonly string[], about: About): LedgerCell {
  const { name, place, bare, rests, shown, reading } = about;
  const short = new Map(columns.map(({ id }, i) => [id, names[i] as string]));
  const { formula = "", unit = "" } = columns[index] ?? {};
  const signature = JSON.stringify([place, formula, unit, rests, [...short], reading.key]);
  const placed = placedStatement(formula, bare, { place, source: sourceOf(name, rests, reading) });
  const uses = placed.ok ? placed.value.uses.map((used) => short.get(used) ?? used) : [];
  const inRow = (statement: PlacedStatement, i: number): PlacedStatement => ({
    ...statement,
    place: `${place}.${i + 1}`,
    source: sourceOf(`${name} ${i + 1}`, rests, reading),
  });
  return {
    name,
    place,
    uses: [...new Set(uses)],
    shown,
    signature: `${signature} ${rows.length}`,
    evaluate: (lookup) => {
      if (!placed.ok) return placed;
      const inputs = inputsOf(placed.value.uses, short, lookup);
      const last = workedOut.get(place);
      const before = last?.signature === signature ? last : undefined;
      const outcomes = rows.map((_, i) => {
        if (before !== undefined && i < before.outcomes.length && isRowOf(before.inputs, inputs, i)) return before.outcomes[i];
        return formulaRow(i, inputs, lookup, (values) => quantityOf(inRow(placed.value, i), values));
      });
      keepLast(workedOut, place, { signature, inputs, outcomes });
      return columnOf(about, outcomes);
    },
  };
}

/** A name of a row formula: of a column of the table, with its values, or of something else. */
interface RowInput {
  readonly name: string;
  readonly found: Outcome<CellValue> | undefined;
  /** Of a column of the table that has values. */
  readonly inRow: ColumnValues | undefined;
  /** A column of the table without any. */
  readonly isWithout: boolean;
}

function inputsOf(uses: readonly string[], short: ReadonlyMap<string, string>, lookup: CellLookup): RowInput[] {
  return uses.map((name) => {
    const found = lookup.get(short.get(name) ?? name);
    const inRow = short.has(name) && found?.ok && found.value.kind === "column" ? found.value : undefined;
    return { name, found, inRow, isWithout: short.has(name) && inRow === undefined };
  });
}

/** What the rows of a column came to by its formula last, and from what. */
interface WorkedOutColumn {
  readonly signature: string;
  readonly inputs: readonly RowInput[];
  readonly outcomes: readonly (Outcome<Quantity> | undefined)[];
}

/** By their places. */
const workedOut = new Map<string, WorkedOutColumn>();

/** Whether nothing that the formula names has changed for a row. */
function isRowOf(before: readonly RowInput[], inputs: readonly RowInput[], row: number): boolean {
  for (let i = 0; i < inputs.length; i++) {
    const [former, { found, inRow }] = [before[i] as RowInput, inputs[i] as RowInput];
    const isSame =
      inRow === undefined
        ? former.inRow === undefined && former.found === found
        : former.inRow?.rows[row] === inRow.rows[row] && former.inRow?.dimension === inRow.dimension;
    if (!isSame) return false;
  }
  return true;
}

/** Undefined where the row has nothing in one of the columns that the formula names. */
function formulaRow(
  index: number,
  inputs: readonly RowInput[],
  lookup: CellLookup,
  make: (values: CellLookup) => Outcome<Quantity>,
): Outcome<Quantity> | undefined {
  if (inputs.some(({ inRow }) => inRow !== undefined && inRow.rows[index] === undefined)) return undefined;
  const values = new Map(
    inputs.flatMap(({ name, found, inRow, isWithout }): [string, Outcome<CellValue>][] => {
      if (isWithout && found !== undefined) return [[name, found]];
      const value = inRow?.rows[index];
      if (inRow === undefined || value === undefined) return [];
      return [[name, value.ok ? success({ kind: "quantity", value: value.value, dimension: inRow.dimension }) : value]];
    }),
  );
  return make(lookupIn(values, lookup));
}

/** The values of a column as they were last, and the rows that they are of. */
interface LastColumn {
  readonly rows: readonly (Outcome<Quantity> | undefined)[];
  readonly values: ColumnValues["rows"];
  readonly dimension: Dimension;
}

/** By their places. */
const lastColumns = new Map<string, LastColumn>();

/** Rows of one dimension as a column: that of the first row that has a value. The same object for the same row, so that what rests on it is seen to be unchanged. */
function columnOf({ place, rests, reading }: About, rows: readonly (Outcome<Quantity> | undefined)[]): Outcome<CellValue> {
  const first = rows.find((row) => row?.ok);
  const dimension = first?.ok ? first.value.dimension : dimensionless;
  const last = lastColumns.get(place);
  const before = last !== undefined && sameDimension(last.dimension, dimension) ? last : undefined;
  let step = Number.POSITIVE_INFINITY;
  const values = rows.map((row, i) => {
    if (row === undefined || !row.ok) return row;
    if (row.value.step !== undefined && row.value.step < step) step = row.value.step;
    if (before !== undefined && before.rows[i] === row) return before.values[i];
    return sameDimension(row.value.dimension, dimension)
      ? success(row.value.value)
      : failure<Uncertain>({
          at: `${place}.${i + 1}`,
          what: `this is ${describeDimension(row.value.dimension)}, the rows before are ${describeDimension(dimension)}`,
          remedy: "write its unit, or move it to a column of its own",
        });
  });
  keepLast(lastColumns, place, { rows, values, dimension });
  return success({
    kind: "column",
    rows: values,
    dimension,
    ...(Number.isFinite(step) && { step }),
    scatter: { family: rests.family, suppositions: reading.suppositions },
  });
}

type BareUnit = Pick<PlacedStatement, "bareUnit" | "dimension" | "bareAlone">;

function placedStatement(
  text: string,
  bare: Outcome<BareUnit>,
  about: Pick<PlacedStatement, "place" | "source">,
): Outcome<PlacedStatement> {
  const parsed = parseStatement(text);
  if (!parsed.ok) return failure(...parsed.problems.map((problem) => ({ ...problem, at: about.place })));
  return bare.ok ? success({ ...about, ...bare.value, statement: parsed.value, uses: namesOfStatement(parsed.value) }) : bare;
}

/** The unit of bare numbers: the one that is stated, of which everything must then be; or the notebook's. */
function bareUnitOf(text: string, at: string, { bareUnit }: Reading): Outcome<BareUnit> {
  if (text.trim() === "") return success({ bareUnit, bareAlone: "numbers" });
  const own = parseUnit(text);
  if (!own.ok) return failure(...own.problems.map((problem) => ({ ...problem, at })));
  return success({ bareUnit: own.value, dimension: own.value.dimension, bareAlone: "quantities" });
}

function sourceOf(name: string, { evidence, family }: About["rests"], { suppositions, related }: Reading): StatementSource {
  const id = cellSourceId(name);
  const supposition = suppositions.get(id);
  const value = related.values.get(id);
  return { id, label: name, family, evidence: evidenceOf(evidence), ...(supposition && { supposition }), ...(value && { related: value }) };
}
