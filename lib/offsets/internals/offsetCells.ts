import type { Problem } from "../../base/outcome.ts";
import { type Axis, axes } from "../../base/vector.ts";
import { parseNumber } from "../../formula/parseNumber.ts";
import { parseTable } from "../../readings/parseTable.ts";
import { readRegister, registerWords } from "../offsetRegister.ts";
import { decimalsOf, type FoundNumber, type FoundText, problemAt, type TextLine } from "./offsetWords.ts";

interface Column {
  readonly axis: Axis | undefined;
  readonly unit: "mm" | "inch" | undefined;
  readonly place: number;
}

/** Cells parted by tabs or semicolons under a row of names: the register first, then X, Y, Z with or without their unit (`X mm`, `Y [in]`). */
export function readCells(lines: readonly TextLine[], text: string): FoundText {
  const none = (problems: readonly Problem[]): FoundText => ({ form: "cells", unit: undefined, numbers: [], problems });
  const table = parseTable(text);
  if (!table.ok) return none(table.problems);
  const { header, rows, separator } = table.value;
  const [first] = lines;
  if (first === undefined) return none([]);
  if (header === undefined || text.includes('"'))
    return none([
      problemAt(first, 0, {
        what: header === undefined ? "no row of names says what the columns are" : "cells in quotes are not read here",
        expected: "register, X, Y, Z in the first row",
        got: first.text,
      }),
    ]);
  const problems: Problem[] = [];
  const columns = header.map((name, place) =>
    columnOf(name, place, (what) =>
      problems.push(problemAt(first, cellStart(first, place, separator), { what, expected: "register, X, Y or Z", got: name })),
    ),
  );
  const units = new Set(columns.flatMap(({ axis, unit }) => (axis === undefined ? [] : [unit])));
  if (units.size > 1)
    problems.push(
      problemAt(first, 0, { what: "the columns are not all in one unit", expected: "the same unit in every column", got: first.text }),
    );
  const numbers = problems.length > 0 ? [] : rows.flatMap((row, i) => readRow(row, lines[i + 1] as TextLine, columns, separator, problems));
  return { form: "cells", unit: [...units][0], numbers, problems };
}

function columnOf(name: string, place: number, refuse: (what: string) => void): Column {
  if (place === 0) return { axis: undefined, unit: undefined, place };
  const parts = /^([A-Za-z]+)\s*[[(,/]?\s*(mm|inches|inch|in)?\s*[\])]?$/u.exec(name.trim());
  const axis = axes.find((each) => each === parts?.[1]?.toUpperCase());
  if (axis === undefined) refuse(`"${name}" is no column of this table`);
  const unit = parts?.[2]?.toLowerCase();
  return { axis, unit: unit === undefined ? undefined : unit === "mm" ? "mm" : "inch", place };
}

function readRow(
  row: readonly string[],
  line: TextLine,
  columns: readonly Column[],
  separator: string,
  problems: Problem[],
): FoundNumber[] {
  if (row.every((cell) => cell === "")) return [];
  const register = readRegister(row[0] ?? "");
  if (register === undefined) {
    problems.push(problemAt(line, 0, { what: "this row names no register in its first cell", expected: registerWords, got: row[0] ?? "" }));
    return [];
  }
  if (row.length !== columns.length)
    problems.push(
      problemAt(line, line.text.length, {
        what:
          row.length < columns.length
            ? "this row has fewer cells than the row of names: it may be cut off"
            : "this row has more cells than the row of names",
        expected: `${columns.length} cells`,
        got: line.text,
      }),
    );
  return columns.flatMap(({ axis, place }) => {
    const typed = row[place] ?? "";
    if (axis === undefined || typed === "") return [];
    const column = cellStart(line, place, separator);
    const number = parseNumber(typed);
    if (!number.ok) {
      for (const problem of number.problems) problems.push(problemAt(line, column, { ...problem, got: typed }));
      return [];
    }
    const { understoodAs } = number.value;
    return [
      {
        register: register.name,
        axis,
        text: understoodAs,
        typed,
        decimals: decimalsOf(understoodAs),
        hasPoint: /[.,]/u.test(typed),
        line,
        column,
      },
    ];
  });
}

function cellStart({ text }: TextLine, place: number, separator: string): number {
  const before = text.split(separator).slice(0, place).join(separator).length + (place === 0 ? 0 : 1);
  return before + (/^\s*/u.exec(text.slice(before))?.[0].length ?? 0);
}
