import { failure, type Outcome, success } from "../base/outcome.ts";

export type CellSeparator = "\t" | ";" | ",";

export interface TableOptions {
  /** Most rows taken; 100 000 unless given. */
  readonly maximumRows?: number;
  /** Most characters taken; 20 000 000 unless given. */
  readonly maximumCharacters?: number;
  /** What parts cells; found out unless given. */
  readonly separator?: CellSeparator;
}

export interface ParsedTable {
  /** The first row, if it names the columns. */
  readonly header: readonly string[] | undefined;
  /** The rows below it, cells without blanks round them; as many cells as were there. */
  readonly rows: readonly (readonly string[])[];
  readonly separator: CellSeparator;
}

/**
 * The cells of a pasted block: tab, semicolon or comma between cells, quotes
 * round cells with `""` for a quote inside (RFC 4180), any kind of line end.
 *
 * Tabs part cells if there are any, else semicolons, else commas. Commas that
 * may be decimal marks (`12,5` with no point anywhere) are asked about, unless a
 * row of names shows how many cells there are. The first row is a header if
 * none of its cells starts like a number and a later row has one that does.
 *
 * One pass over the text; what is too large is refused before or during it.
 */
export function parseTable(text: string, options: TableOptions = {}): Outcome<ParsedTable> {
  const { maximumRows = 100_000, maximumCharacters = 20_000_000 } = options;
  if (text.length > maximumCharacters) {
    const what = `the block has ${text.length} characters`;
    return failure({ at: "", what, expected: `at most ${maximumCharacters}`, remedy: "paste a part of it" });
  }
  const separator = options.separator ?? findSeparator(text);
  const cells = splitCells(text, separator, maximumRows);
  if (!cells.ok) return cells;
  const rows = [...cells.value];
  while (rows.at(-1)?.every((cell) => cell === "")) rows.pop();
  const [first] = rows;
  if (!first) return failure({ at: "", what: "the block is empty", expected: "rows of cells", got: text.slice(0, 80) });
  const hasHeader = !first.some(startsLikeNumber) && rows.some((row) => row.some(startsLikeNumber));
  if (
    separator === "," &&
    options.separator === undefined &&
    mayBeDecimalCommas(text) &&
    !(hasHeader && rows.every((row) => row.length === first.length))
  ) {
    const what = "the commas can part cells or be decimal marks";
    return failure({ at: "", what, got: text.slice(0, 80), remedy: "paste with tabs or semicolons between cells, or with decimal points" });
  }
  return success({ header: hasHeader ? first : undefined, rows: hasHeader ? rows.slice(1) : rows, separator });
}

/** No table of this trade has more; a row of millions of tabs would fill the memory. */
const mostColumns = 1000;
/** A quote that is closed much later than meant swallows rows; better refused than taken for a cell. */
const longestCell = 100_000;
/** The separator shows long before the end of this. */
const lookedAt = 65_536;

function findSeparator(text: string): CellSeparator {
  let inQuotes = false;
  let semicolon = false;
  for (let index = 0; index < Math.min(text.length, lookedAt); index++) {
    const sign = text.charAt(index);
    // A quote in the middle of a cell is an inch mark, not the start of a quotation.
    if (sign === '"' && (inQuotes || index === 0 || /[\t;,\r\n]/.test(text.charAt(index - 1)))) inQuotes = !inQuotes;
    else if (inQuotes) continue;
    else if (sign === "\t") return "\t";
    else if (sign === ";") semicolon = true;
  }
  return semicolon ? ";" : ",";
}

function splitCells(text: string, separator: CellSeparator, maximumRows: number): Outcome<readonly (readonly string[])[]> {
  const rows: string[][] = [];
  let row: string[] = [];
  let index = text.startsWith("\ufeff") ? 1 : 0;
  for (;;) {
    const cell = text.charAt(index) === '"' ? quotedCell(text, index, separator) : plainCell(text, index, separator);
    if (cell === undefined) {
      return failure({
        at: "",
        what: `a quote in row ${rows.length + 1} is never closed`,
        got: text.slice(index, index + 80),
        character: index,
      });
    }
    if (cell.end - index > longestCell) {
      return failure({ at: "", what: `a cell in row ${rows.length + 1} has more than ${longestCell} characters`, character: index });
    }
    row.push(cell.text);
    index = cell.end;
    if (row.length > mostColumns)
      return failure({ at: "", what: `row ${rows.length + 1} has more than ${mostColumns} cells`, character: index });
    if (text.charAt(index) === separator) {
      index++;
      continue;
    }
    rows.push(row);
    row = [];
    if (rows.length > maximumRows)
      return failure({ at: "", what: `the block has more than ${maximumRows} rows`, remedy: "paste a part of it", character: index });
    if (index >= text.length) return success(rows);
    index += text.startsWith("\r\n", index) ? 2 : 1;
  }
}

interface Cell {
  readonly text: string;
  /** Index of the separator or line end behind it. */
  readonly end: number;
}

function plainCell(text: string, start: number, separator: CellSeparator): Cell {
  const end = endOfCell(text, start, separator);
  return { text: text.slice(start, end).trim(), end };
}

function quotedCell(text: string, start: number, separator: CellSeparator): Cell | undefined {
  const parts: string[] = [];
  for (let from = start + 1; ; ) {
    if (from - start > longestCell) return { text: "", end: from };
    const quote = text.indexOf('"', from);
    if (quote === -1) return undefined;
    parts.push(text.slice(from, quote));
    if (text.charAt(quote + 1) === '"') {
      parts.push('"');
      from = quote + 2;
      continue;
    }
    // Text behind the closing quote belongs to the cell: nothing that was pasted is dropped.
    const end = endOfCell(text, quote + 1, separator);
    return { text: (parts.join("") + text.slice(quote + 1, end)).trim(), end };
  }
}

function endOfCell(text: string, start: number, separator: CellSeparator): number {
  let end = start;
  while (end < text.length) {
    const sign = text.charAt(end);
    if (sign === separator || sign === "\n" || sign === "\r") return end;
    end++;
  }
  return end;
}

/** `-412.607`, `.5`, `3 mm`, `X-412.607`; not `H1` and not `1st hole`. Long cells are no numbers. */
function startsLikeNumber(cell: string): boolean {
  return cell.length <= 60 && /^(?:[XYZxyz][=:]?)?\s?[+\-−–]?\s?[.,]?\d[\d.,']*(?:[eE][+-]?\d+)?-?\s?[A-Za-zµμ°]*$/.test(cell);
}

/** Commas inside quotes part no cells. */
function mayBeDecimalCommas(text: string): boolean {
  const unquoted = text.includes('"') ? text.replace(/"[^"]*"/g, '""') : text;
  return /\d,\d/.test(unquoted) && !/\d\.\d/.test(unquoted);
}
