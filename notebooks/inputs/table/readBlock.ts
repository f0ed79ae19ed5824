import { nearestName } from "../../../lib/base/nearestName.ts";
import { describeProblem, type Outcome, success } from "../../../lib/base/outcome.ts";
import {
  type BlockMarks,
  findMarks,
  hasDoubtfulMark,
  type MarkMeaning,
  settleMarks,
  suggestMeaning,
} from "../../../lib/readings/numberMarks.ts";
import { type CellSeparator, type ParsedTable, parseTable } from "../../../lib/readings/parseTable.ts";
import type { CellContext, EntryColumn } from "../column.ts";

export interface BlockTarget<Row extends object> {
  readonly rows: readonly Row[];
  /** The cell that takes the first cell of the block. */
  readonly index: number;
  readonly column: number;
  /** The range that is selected, in rows and columns: a block that fits into it several times fills it. */
  readonly height: number;
  readonly width: number;
  readonly columns: readonly EntryColumn<Row>[];
  /** A new row for what does not fit into the rows there are. */
  readonly blank: (rows: readonly Row[]) => Row;
  readonly context: CellContext;
}

/** What a person decided about a block; what is undecided is read as it suggests itself, or waits. */
export interface BlockChoices {
  readonly commas?: CommaMeaning;
  readonly points?: MarkMeaning;
  readonly firstRow?: FirstRow;
  /** By the `key` of a doubt: the text that is entered in its place; `leftOut` for none. */
  readonly tokens?: ReadonlyMap<string, string>;
}

export type CommaMeaning = MarkMeaning | "between cells" | "part of words";
export type FirstRow = "names" | "entries";
export const leftOut = "\u0000";

/** A question about the block as a whole. */
export interface BlockQuestion {
  readonly about: "commas" | "points" | "firstRow";
  readonly words: string;
  readonly answers: readonly { readonly value: string; readonly words: string }[];
  /** As decided, or as the block itself suggests; undefined must be decided before the block can be taken. */
  readonly chosen: string | undefined;
}

/** One cell of the block and what becomes of it. */
export interface ReadToken {
  readonly typed: string;
  /** The text that is entered; undefined leaves the cell as it was. */
  readonly taken: string | undefined;
  /** Why it is in doubt, in words; undefined where it is not. */
  readonly doubt: string | undefined;
  /** How the taken text is understood, where that is more than the text. */
  readonly understood: string | undefined;
}

/** Tokens of one text in one column that need a decision. */
export interface TokenDoubt {
  readonly key: string;
  readonly typed: string;
  readonly column: string;
  readonly why: string;
  readonly count: number;
  readonly answers: readonly { readonly value: string; readonly words: string }[];
  readonly chosen: string;
}

export interface ReadBlock<Row extends object> {
  /** The rows of the table with the block in them. */
  readonly rows: Row[];
  /** Labels of the columns that the block goes into; undefined beyond the last. */
  readonly columns: readonly (string | undefined)[];
  /** First row of the table that the block goes into, and how many it fills. */
  readonly index: number;
  readonly height: number;
  /** Columns of the table that it fills, from and to, among those given. */
  readonly left: number;
  readonly right: number;
  readonly tokens: readonly (readonly ReadToken[])[];
  readonly filled: number;
  readonly added: number;
  /** What is left out, in words. */
  readonly refused: readonly string[];
  readonly questions: readonly BlockQuestion[];
  readonly doubts: readonly TokenDoubt[];
  /** Whether a person must look at it before it is taken. */
  readonly isDoubtful: boolean;
  /** Whether every question has an answer. */
  readonly isDecided: boolean;
}

/**
 * A block from a spreadsheet put into a table from one cell on, to the right and down; rows are added as needed. If its
 * first row names columns of the table, every cell goes where its name says.
 *
 * Nothing is guessed in silence: what can be read in two ways becomes a question, and what cannot be entered is listed.
 */
export function readBlock<Row extends object>(text: string, target: BlockTarget<Row>, choices: BlockChoices = {}): Outcome<ReadBlock<Row>> {
  const parted = partCells(text, choices.commas);
  if (!parted.ok) return parted;
  const { table, commasMayBe } = parted.value;
  const all = table.header === undefined ? table.rows : [table.header, ...table.rows];
  const width = Math.max(...all.map((row) => row.length));
  const header = readHeader(all, table.header !== undefined, target, choices.firstRow);
  const entries = header.isHeader ? all.slice(1) : all;
  const columns = Array.from({ length: width }, (_, right) =>
    header.named === undefined ? target.columns[target.column + right] : header.named[right],
  );
  const numbers = entries.flatMap((row) => row.filter((_, right) => columns[right]?.figures));
  const marks = readMarks(findMarks(numbers), commasMayBe, choices);
  const questions = [...marks.questions, ...header.questions];
  const block = tiled(entries, width, header.named === undefined ? target : undefined);
  const filled = fill(block, columns, header.named === undefined, target, marks, choices.tokens ?? new Map());
  const places = columns.flatMap((column) => (column === undefined ? [] : [target.columns.indexOf(column)]));
  const spread = header.named === undefined && block.width > width ? block.width - width : 0;
  return success({
    ...filled,
    columns: Array.from({ length: block.width }, (_, right) => columnAt(columns, target, header.named === undefined, right)?.label),
    index: target.index,
    height: block.rows.length,
    left: places.length === 0 ? target.column : Math.min(...places),
    right: places.length === 0 ? target.column : Math.min(target.columns.length - 1, Math.max(...places) + spread),
    questions,
    isDoubtful: questions.length > 0 || filled.doubts.length > 0 || filled.refused.length > 0,
    isDecided: questions.every(({ chosen }) => chosen !== undefined),
  });
}

function tokenKey(column: string, typed: string): string {
  return `${column}\n${typed}`;
}

interface PartedBlock {
  readonly table: ParsedTable;
  /** What else than ends of cells commas can be; undefined where that is clear. */
  readonly commasMayBe: "marks" | "words" | undefined;
}

/** Tabs part cells where there are any; where commas may be something else, every line is one cell until a person has said. */
function partCells(text: string, commas: CommaMeaning | undefined): Outcome<PartedBlock> {
  const asOne = (commasMayBe: PartedBlock["commasMayBe"], separator: CellSeparator): Outcome<PartedBlock> => {
    const table = parseTable(text, { separator });
    return table.ok ? success({ table: table.value, commasMayBe }) : table;
  };
  if (text.includes("\t")) return asOne(undefined, "\t");
  const parsed = parseTable(text);
  if (!parsed.ok) return asOne("marks", commas === "between cells" ? "," : "\t");
  const { separator, header } = parsed.value;
  // A comma in words (`milled, then ground`) is as little a separator as one in numbers.
  const mayBeWords = separator === "," && header === undefined && hasBareComma(text) && !/\d\.\d/.test(text);
  if (!mayBeWords) return success({ table: parsed.value, commasMayBe: undefined });
  return asOne("words", commas === "between cells" ? "," : "\t");
}

function hasBareComma(text: string): boolean {
  return (text.includes('"') ? text.replace(/"[^"]*"/g, '""') : text).includes(",");
}

interface Header<Row extends object> {
  readonly isHeader: boolean;
  /** The columns that its cells name; undefined where the block goes in from the cell that is stood on. */
  readonly named: readonly (EntryColumn<Row> | undefined)[] | undefined;
  readonly questions: readonly BlockQuestion[];
}

function readHeader<Row extends object>(
  rows: readonly (readonly string[])[],
  isGuessed: boolean,
  target: BlockTarget<Row>,
  chosen: FirstRow | undefined,
): Header<Row> {
  const first = rows[0] ?? [];
  const named = rows.length > 1 ? columnsNamed(first, target.columns) : undefined;
  // Every cell the name of a column: nothing to ask.
  if (named !== undefined && chosen === undefined && named.every((column) => column !== undefined))
    return { isHeader: true, named, questions: [] };
  if (named === undefined && !isGuessed) return { isHeader: false, named: undefined, questions: [] };
  const looksForeign = first.some((cell, right) => !fits(cell, target.columns[target.column + right], target));
  if (named === undefined && !looksForeign) return { isHeader: false, named: undefined, questions: [] };
  const value = chosen ?? (named !== undefined || looksForeign ? "names" : "entries");
  const question: BlockQuestion = {
    about: "firstRow",
    words: `The first row (${first.slice(0, 4).join(", ")}${first.length > 4 ? ", …" : ""})`,
    answers: [
      { value: "names", words: named === undefined ? "names the columns and is not entered" : "says which columns the cells go into" },
      { value: "entries", words: "is entered like the others" },
    ],
    chosen: value,
  };
  return { isHeader: value === "names", named: value === "names" ? named : undefined, questions: [question] };
}

/** Whether a text is what a column usually holds. */
function fits<Row extends object>(text: string, column: EntryColumn<Row> | undefined, { rows, blank, context }: BlockTarget<Row>): boolean {
  if (column === undefined || text === "") return true;
  const choices = column.choices?.(context);
  if (choices !== undefined) return choices.includes(text);
  if (column.understand !== undefined) return column.understand(text, rows[0] ?? blank(rows), context).ok;
  // Where numbers belong, words above numbers are more likely what the numbers are called than names in formulas.
  return column.figures !== true || /\d/.test(text);
}

/** The columns that a header names; undefined unless it names at least half of its own. */
function columnsNamed<Row extends object>(
  header: readonly string[],
  columns: readonly EntryColumn<Row>[],
): readonly (EntryColumn<Row> | undefined)[] | undefined {
  const found = header.map((name) =>
    columns.find(({ key, label, names = [] }) => [key, label, ...names].some((own) => own.toLowerCase() === name.toLowerCase())),
  );
  return found.filter((column) => column !== undefined).length * 2 >= header.length ? found : undefined;
}

interface Marks {
  readonly commas: MarkMeaning | undefined;
  readonly points: MarkMeaning | undefined;
  readonly isCommaAsked: boolean;
  readonly isPointAsked: boolean;
  readonly questions: readonly BlockQuestion[];
}

function readMarks({ commas, points }: BlockMarks, commasMayBe: PartedBlock["commasMayBe"], choices: BlockChoices): Marks {
  const questions: BlockQuestion[] = [];
  const isCommaAsked = commas.doubtful > 0 || commasMayBe !== undefined;
  const comma = choices.commas ?? (commasMayBe === undefined ? suggestMeaning(commas, points) : undefined);
  if (isCommaAsked) {
    const between = { value: "between cells", words: "between cells" };
    const words = { value: "part of words", words: "part of the words" };
    const marks = [
      { value: "decimal", words: "decimal marks: 12,500 is 12.5" },
      { value: "thousands", words: "thousands marks: 12,500 is 12500" },
    ];
    const answers = commasMayBe === "words" ? [between, words] : commasMayBe === "marks" ? [between, ...marks] : marks;
    questions.push({ about: "commas", words: "Commas are", answers, chosen: comma });
  }
  // Points between thousands go with decimal commas; a machine's display prints them before decimals.
  const hasDecimalCommas = commas.isDecimalSomewhere || (isCommaAsked && comma === "decimal");
  const isPointAsked = points.doubtful > 0 && (points.isThousandsSomewhere || hasDecimalCommas);
  const point = choices.points ?? (points.isDecimalSomewhere && !points.isThousandsSomewhere ? "decimal" : undefined);
  if (isPointAsked) {
    questions.push({
      about: "points",
      words: "Points are",
      answers: [
        { value: "decimal", words: "decimal marks: 12.500 is 12.5" },
        { value: "thousands", words: "thousands marks: 12.500 is 12500" },
      ],
      chosen: point,
    });
  }
  return {
    commas: comma === "decimal" || comma === "thousands" ? comma : undefined,
    points: isPointAsked ? point : undefined,
    isCommaAsked,
    isPointAsked,
    questions,
  };
}

interface Block {
  readonly rows: readonly (readonly string[])[];
  readonly width: number;
}

/** A block that fits several times into the range that is selected fills it. */
function tiled(
  rows: readonly (readonly string[])[],
  width: number,
  target: { readonly height: number; readonly width: number } | undefined,
): Block {
  const down = target !== undefined && target.height % rows.length === 0 ? target.height / rows.length : 1;
  const across = target !== undefined && target.width % width === 0 ? target.width / width : 1;
  if (down * across <= 1 || target === undefined) return { rows, width };
  const wide = rows.map((row) => Array.from({ length: width * across }, (_, i) => row[i % width] ?? ""));
  return { rows: Array.from({ length: rows.length * down }, (_, i) => wide[i % rows.length] ?? []), width: width * across };
}

/** A tiled block goes on into the columns to the right of its own. */
function columnAt<Row extends object>(
  columns: readonly (EntryColumn<Row> | undefined)[],
  target: BlockTarget<Row>,
  goesOn: boolean,
  right: number,
): EntryColumn<Row> | undefined {
  return goesOn ? target.columns[target.column + right] : columns[right];
}

type Filled<Row extends object> = Pick<ReadBlock<Row>, "rows" | "tokens" | "filled" | "added" | "refused" | "doubts">;

function fill<Row extends object>(
  { rows: block }: Block,
  columns: readonly (EntryColumn<Row> | undefined)[],
  goesOn: boolean,
  target: BlockTarget<Row>,
  marks: Marks,
  decided: ReadonlyMap<string, string>,
): Filled<Row> {
  const rows = [...target.rows];
  const refused = new Map<string, number>();
  const doubts = new Map<string, TokenDoubt>();
  let filled = 0;
  const tokens = block.map((cells, down) => {
    const index = target.index + down;
    let row = rows[index] ?? target.blank(rows);
    const read = cells.map((typed, right): ReadToken => {
      const column = columnAt(columns, target, goesOn, right);
      if (column === undefined) {
        const doubt = goesOn ? "stands beyond the last column" : "stands in a column that this table does not have";
        if (typed === "") return { typed, taken: undefined, doubt: undefined, understood: undefined };
        count(refused, `“${typed}” ${doubt}`);
        return { typed, taken: undefined, doubt, understood: undefined };
      }
      const token = readToken(typed, column, row, target.context, marks, decided);
      if (token.question !== undefined) {
        const before = doubts.get(token.question.key);
        doubts.set(token.question.key, { ...token.question, count: (before?.count ?? 0) + 1 });
      }
      const written = token.taken === undefined ? undefined : column.write(row, token.taken);
      if (written !== undefined) {
        filled += 1;
        row = written;
      } else if (typed !== "") count(refused, `“${typed}” is nothing that ${column.label} can be`);
      return { typed, taken: written === undefined ? undefined : token.taken, doubt: token.doubt, understood: token.understood };
    });
    rows[index] = row;
    return read;
  });
  return {
    rows,
    tokens,
    filled,
    added: rows.length - target.rows.length,
    refused: [...refused].map(([words, times]) => (times === 1 ? words : `${words} (${times} times)`)),
    doubts: [...doubts.values()],
  };
}

function count(tally: Map<string, number>, words: string): void {
  tally.set(words, (tally.get(words) ?? 0) + 1);
}

interface TokenReading {
  readonly taken: string | undefined;
  readonly doubt?: string;
  readonly understood?: string;
  readonly question?: Omit<TokenDoubt, "count">;
}

function readToken<Row extends object>(
  typed: string,
  column: EntryColumn<Row>,
  row: Row,
  context: CellContext,
  marks: Marks,
  decided: ReadonlyMap<string, string>,
): TokenReading {
  if (typed === "") return { taken: typed };
  const choices = column.choices?.(context);
  if (choices !== undefined) return choices.includes(typed) ? { taken: typed } : readChoice(typed, column, row, choices, decided);
  if (column.understand === undefined) return { taken: typed };
  const isAsked = column.figures === true && (isAskedAbout(typed, ",", marks) || isAskedAbout(typed, ".", marks));
  const settled = column.figures === true ? settleMarks(typed, marks) : typed;
  const understood = column.understand(settled, row, context);
  if (isAsked) {
    const isOpen =
      (isAskedAbout(typed, ",", marks) && marks.commas === undefined) || (isAskedAbout(typed, ".", marks) && marks.points === undefined);
    if (isOpen) return { taken: typed, doubt: "a decimal or a thousands mark" };
    if (understood.ok) return { taken: settled, doubt: `taken for ${understood.value}`, understood: understood.value };
  }
  if (understood.ok) return { taken: settled, ...(understood.value !== settled && { understood: understood.value }) };
  const why = describeProblem({ at: "", what: understood.problems[0]?.what ?? "it cannot be read" }).replace(/\.$/, "");
  return decide(typed, settled, column, why, [{ value: settled, words: "enter it as it is, to be mended in its cell" }], settled, decided);
}

function isAskedAbout(typed: string, mark: "," | ".", { isCommaAsked, isPointAsked }: Marks): boolean {
  return (mark === "," ? isCommaAsked : isPointAsked) && hasDoubtfulMark(typed, mark);
}

function readChoice<Row extends object>(
  typed: string,
  column: EntryColumn<Row>,
  row: Row,
  choices: readonly string[],
  decided: ReadonlyMap<string, string>,
): TokenReading {
  const nearest = nearestName(typed, choices);
  const canHold = column.write(row, typed) !== undefined;
  const answers = [
    ...(nearest === undefined ? [] : [{ value: nearest, words: `take it for “${nearest}”` }]),
    ...(canHold ? [{ value: typed, words: "enter it as it is, to be mended in its cell" }] : []),
  ];
  const isOnlyCase = nearest !== undefined && nearest.toLowerCase() === typed.toLowerCase();
  const usual = isOnlyCase ? nearest : canHold ? typed : leftOut;
  return decide(typed, typed, column, `there is no such choice for ${column.label}`, answers, usual, decided);
}

function decide<Row extends object>(
  typed: string,
  settled: string,
  column: EntryColumn<Row>,
  why: string,
  answers: TokenDoubt["answers"],
  usual: string,
  decided: ReadonlyMap<string, string>,
): TokenReading {
  const key = tokenKey(column.key, typed);
  const chosen = decided.get(key) ?? usual;
  return {
    taken: chosen === leftOut ? undefined : chosen,
    doubt: chosen === leftOut ? `${why}: left out` : chosen === settled ? `${why}: entered as it is` : `taken for “${chosen}”`,
    question: {
      key,
      typed,
      column: column.label,
      why,
      answers: [...answers, { value: leftOut, words: "leave it out; the cell stays as it was" }],
      chosen,
    },
  };
}
