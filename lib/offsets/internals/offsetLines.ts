import type { Problem } from "../../base/outcome.ts";
import type { Axis } from "../../base/vector.ts";
import { parseNumber } from "../../formula/parseNumber.ts";
import { readRegister, registerWords } from "../offsetRegister.ts";
import { decimalsOf, type FoundNumber, type FoundText, problemAt, type TextLine } from "./offsetWords.ts";

/** Lines as screens show them: `G54 Y-203.112`, also with `:` or `=` behind the names, a unit behind the numbers, commas between. */
export function readLines(lines: readonly TextLine[]): FoundText {
  const problems: Problem[] = [];
  const numbers: FoundNumber[] = [];
  const units = new Set<"mm" | "inch">();
  for (const line of lines) {
    if (line.text.trim() === "") continue;
    numbers.push(...readLine(line, units, problems));
  }
  return { form: "lines", unit: [...units][0], numbers, problems };
}

function readLine(line: TextLine, units: Set<"mm" | "inch">, problems: Problem[]): FoundNumber[] {
  const refuse = (column: number, problem: Omit<Problem, "at" | "character" | "got">): FoundNumber[] => {
    problems.push(problemAt(line, column, { ...problem, got: line.text }));
    return [];
  };
  const { text } = line;
  const head = /^\s*([GP]\s?\d+(?:\.\d+)?)(?=[\s:=]|$)\s*[:=]?/iu.exec(text);
  const register = head && readRegister(head[1] as string);
  if (!head || !register)
    return refuse(text.search(/\S/u), { what: "this line names no register at its beginning", expected: registerWords });
  const found: FoundNumber[] = [];
  let column = head[0].length;
  for (;;) {
    column += /^[\s]*/u.exec(text.slice(column))?.[0].length ?? 0;
    if (column >= text.length) break;
    const value = /^([A-Z])\s*[:=]?\s*([+-]?[\d.,']*\d[\d.,']*-?|[+-]?)\s*(mm|inches|inch|in)?(?=[\s,;]|[A-Z]|$)[,;]?/iu.exec(
      text.slice(column),
    );
    const letter = value?.[1]?.toUpperCase() ?? "";
    if (!value || !/^[XYZ]$/u.test(letter))
      return refuse(column, { what: "this is no axis with its value", expected: "X, Y or Z and a number" });
    const typed = (value[2] as string).replace(/[,']$/u, "");
    if (!/\d/u.test(typed))
      return refuse(column, {
        what: `no number stands behind ${letter}: the line may be cut off`,
        expected: "a number",
        remedy: "copy it again",
      });
    const number = parseNumber(typed);
    if (!number.ok) {
      for (const problem of number.problems) problems.push(problemAt(line, column, { ...problem, got: typed }));
      return [];
    }
    const unit = value[3] && (value[3].toLowerCase() === "mm" ? "mm" : "inch");
    if (unit) {
      if (units.size > 0 && !units.has(unit))
        return refuse(column, {
          what: "the text mixes millimetres and inches",
          expected: "one unit",
          remedy: "read both parts by themselves",
        });
      units.add(unit);
    }
    const { understoodAs } = number.value;
    found.push({
      register: register.name,
      axis: letter as Axis,
      text: understoodAs,
      typed: `${letter}${typed}`,
      decimals: decimalsOf(understoodAs),
      hasPoint: /[.,]/u.test(typed),
      line,
      column,
    });
    column += value[0].length;
  }
  return found.length > 0
    ? found
    : refuse(text.length, { what: `no value stands behind ${register.name}: the line may be cut off`, expected: "X, Y or Z and a number" });
}
