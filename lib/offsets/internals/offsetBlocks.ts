import type { Problem } from "../../base/outcome.ts";
import { type Axis, axes } from "../../base/vector.ts";
import { mostRegisters, registerOf } from "../offsetRegister.ts";
import { decimalsOf, type FoundNumber, type FoundText, plainNumber, problemAt, type TextLine } from "./offsetWords.ts";

/** A letter and its number, at its place in the line. */
interface Word {
  readonly letter: string;
  readonly number: string;
  readonly column: number;
}

/** What blocks before this one have set. */
interface Modes {
  unit: "mm" | "inch" | undefined;
  isAbsolute: boolean;
}

/**
 * `G10 L2 Pn` blocks. The words for unit and distances hold from their line on and act before the offset of the same line (RS274/NGC, NISTIR 6556, 3.8);
 * both must be there before the first offset: a controller may be in either mode.
 */
export function readBlocks(lines: readonly TextLine[]): FoundText {
  const problems: Problem[] = [];
  const numbers: FoundNumber[] = [];
  const modes: Modes = { unit: undefined, isAbsolute: false };
  for (const line of lines) {
    const words = wordsOf(line, problems);
    if (words.length === 0) continue;
    const before = problems.length;
    checkWords(words, line, problems);
    setModes(words, modes, line, problems);
    if (problems.length === before) numbers.push(...offsetsOf(words, modes, line, problems));
  }
  return { form: "blocks", unit: modes.unit, numbers, problems };
}

/** The words of a line without its comments; none where something in it is not understood. */
function wordsOf(line: TextLine, problems: Problem[]): Word[] {
  const refuse = (column: number, problem: Omit<Problem, "at" | "character">): Word[] => {
    problems.push(problemAt(line, column, problem));
    return [];
  };
  const { text } = line;
  if (text.trim() === "%") return [];
  const words: Word[] = [];
  for (let column = 0; column < text.length; ) {
    const sign = text.charAt(column);
    if (/\s/u.test(sign)) {
      column++;
      continue;
    }
    if (sign === "(") {
      const end = text.indexOf(")", column);
      if (end < 0)
        return refuse(column, { what: "this comment is never closed: the line may be cut off", expected: ")", got: text.slice(column) });
      if (text.slice(column + 1, end).includes("("))
        return refuse(text.indexOf("(", column + 1), {
          what: "a comment stands within a comment",
          expected: "none",
          got: text.slice(column, end + 1),
        });
      column = end + 1;
      continue;
    }
    if (!/[A-Za-z]/u.test(sign)) return refuse(column, strangeSign(sign, text.slice(column)));
    const start = column + 1 + (/^\s*/u.exec(text.slice(column + 1))?.[0].length ?? 0);
    const [number] = plainNumber.exec(text.slice(start)) ?? [];
    if (number === undefined)
      return /^[[#]/u.test(text.slice(start))
        ? refuse(start, { what: "what a controller works out itself is not read", expected: "a number", got: text.slice(column) })
        : refuse(column, {
            what: `no number stands behind ${sign.toUpperCase()}: the line may be cut off`,
            expected: "a number",
            got: text.slice(column),
            remedy: "copy it again",
          });
    words.push({ letter: sign.toUpperCase(), number, column });
    column = start + number.length;
    if (/^[,.\d]/u.test(text.slice(column)))
      return refuse(column, {
        what: "this does not belong to the number before it",
        expected: "a blank or a letter",
        got: text.slice(start),
      });
  }
  return words;
}

function strangeSign(sign: string, rest: string): Omit<Problem, "at" | "character"> {
  const got = rest;
  if (sign === "/") return { what: "a line that the machine may leave out says nothing sure", expected: "a line without /", got };
  if (sign === ";")
    return { what: "not every controller takes this for a comment", expected: "comments in ( )", got, remedy: "take it out" };
  return { what: `"${sign}" begins no word of a block`, expected: "a letter and its number", got };
}

const modeWords: Readonly<Record<string, keyof Modes>> = { "20": "unit", "21": "unit", "90": "isAbsolute", "91": "isAbsolute" };

/** Only what sets offsets is taken: any other word could do more than this text says here. */
function checkWords(words: readonly Word[], line: TextLine, problems: Problem[]): void {
  const seen = new Set<string>();
  for (const { letter, number, column } of words) {
    const value = Number(number);
    const known =
      letter === "G"
        ? value === 10 || modeWords[String(value)] !== undefined
        : "NLP".includes(letter) || (axes as readonly string[]).includes(letter);
    const word = `${letter}${number}`;
    if (!known)
      problems.push(
        problemAt(line, column, {
          what: /[ABCUVW]/u.test(letter)
            ? `${word} is of an axis that this table does not have`
            : letter === "R"
              ? `${word} turns the coordinates with some controllers and is no word of G10 in RS274/NGC version 3`
              : `${word} does not belong into a text that sets offsets`,
          expected: "G10 L2 P X Y Z, after G20 or G21 and G90",
          got: line.text,
          remedy: "take it out, if the offsets do not need it",
        }),
      );
    const group = letter === "G" ? (modeWords[String(value)] ?? "G10") : letter;
    if (known && seen.has(group))
      problems.push(
        problemAt(line, column, { what: `${word} is the second word of its kind in this line`, expected: "one", got: line.text }),
      );
    seen.add(group);
  }
}

function setModes(words: readonly Word[], modes: Modes, line: TextLine, problems: Problem[]): void {
  for (const { letter, number, column } of words) {
    const value = letter === "G" ? Number(number) : undefined;
    if (value === 20 || value === 21) {
      const unit = value === 20 ? "inch" : "mm";
      if (modes.unit !== undefined && modes.unit !== unit)
        problems.push(
          problemAt(line, column, {
            what: "the text mixes millimetres and inches",
            expected: modes.unit === "mm" ? "G21 alone" : "G20 alone",
            got: line.text,
            remedy: "read both parts by themselves",
          }),
        );
      modes.unit ??= unit;
    }
    if (value === 90) modes.isAbsolute = true;
    if (value === 91) {
      // Told once.
      modes.isAbsolute = true;
      problems.push(
        problemAt(line, column, {
          what: "with G91 some controllers add these values to what the registers hold",
          expected: "G90",
          got: line.text,
          remedy: "read the registers themselves, or write the values as absolute ones",
        }),
      );
    }
  }
}

function offsetsOf(words: readonly Word[], modes: Modes, line: TextLine, problems: Problem[]): FoundNumber[] {
  const of = (letter: string) => words.find((word) => word.letter === letter);
  const values = words.filter(({ letter }) => (axes as readonly string[]).includes(letter));
  const setting = words.find(({ letter, number }) => letter === "G" && Number(number) === 10);
  const refuse = (column: number, problem: Omit<Problem, "at" | "character" | "got">): FoundNumber[] => {
    problems.push(problemAt(line, column, { ...problem, got: line.text }));
    return [];
  };
  const [first] = [...values, ...["L", "P"].flatMap((letter) => of(letter) ?? [])];
  if (setting === undefined) {
    if (first === undefined) return [];
    return refuse(first.column, { what: "without G10 this would move the machine", expected: "G10 L2 P and the axes in one line" });
  }
  const kind = of("L");
  if (kind === undefined || Number(kind.number) !== 2)
    return refuse(kind?.column ?? setting.column, {
      what:
        kind === undefined
          ? "G10 without L2 says not what is set: the line may be cut off"
          : `G10 L${kind.number} sets something else than a coordinate system`,
      expected: "L2",
    });
  const named = of("P");
  const register = named && registerOf(Number(named.number));
  if (named === undefined || register === undefined)
    return refuse(named?.column ?? setting.column, {
      what: named === undefined ? "the P word is missing that names the register" : `P${named.number} is no register`,
      expected: `P1 to P9 for G54 to G59.3, or P10 to P${mostRegisters}`,
    });
  if (values.length === 0) return refuse(setting.column, { what: "this sets no axis: the line may be cut off", expected: "X, Y or Z" });
  if (modes.unit === undefined)
    return refuse(setting.column, {
      what: "no word says in which unit these values are",
      expected: "G21 or G20 before",
      remedy: "write it in the line before",
    });
  if (!modes.isAbsolute)
    return refuse(setting.column, {
      what: "no word says that these values are absolute",
      expected: "G90 before",
      remedy: "write it in the line before",
    });
  return values.map(({ letter, number, column }) => ({
    register: register.name,
    axis: letter as Axis,
    text: number,
    typed: `${letter}${number}`,
    decimals: decimalsOf(number),
    hasPoint: number.includes("."),
    line,
    column,
  }));
}
