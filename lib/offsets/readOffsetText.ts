import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import type { Axis } from "../base/vector.ts";
import { millimetresIn } from "./enteredOffset.ts";
import { readBlocks } from "./internals/offsetBlocks.ts";
import { readCells } from "./internals/offsetCells.ts";
import { readLines } from "./internals/offsetLines.ts";
import { type FoundNumber, type FoundText, linesOf, problemAt } from "./internals/offsetWords.ts";

/** One value of one register, as the text has it. */
export interface ReadOffset {
  readonly register: string;
  readonly axis: Axis;
  /** The number as it was read: `-412.607`. */
  readonly text: string;
  /** As shown; undefined for a number of a file, whose missing decimals are zeros and no rounding. */
  readonly decimals: number | undefined;
  /** In mm. */
  readonly value: number;
  /** From 1. */
  readonly line: number;
}

/** What a text of offsets says, register by register. */
export interface ReadOffsets {
  /** `G10 L2` blocks, lines such as `G54 X-412.607`, or cells under a row of names. */
  readonly form: "blocks" | "lines" | "cells";
  readonly unit: "mm" | "inch";
  /** Whether the text says its unit; otherwise it was taken to be that of the controller. */
  readonly unitStated: boolean;
  readonly offsets: readonly ReadOffset[];
}

/** No list of offsets is longer. */
const longestText = 200_000;
const longestLine = 1000;
const mostProblems = 20;
/** Longer than any machine, mm. */
const longest = 1e6;

/**
 * Reads back offsets from text: `G10 L2 Pn` blocks as `offsetText` writes them (RS274/NGC, NISTIR 6556, 3.5.5), lines such as `G54 Y-203.112`, or
 * a pasted table with a row of names. Nothing of a text is taken when something in it is not understood, is missing, or can mean two things: unknown words,
 * incremental distances, a missing or wrong P, mixed units, values stated twice, numbers without a decimal point, lines that break off. Each is told at its line
 * and character.
 *
 * @param controllerUnit of lines and cells that state no unit: what the controller shows. Blocks must state theirs.
 */
export function readOffsetText(text: string, controllerUnit: "mm" | "inch"): Outcome<ReadOffsets> {
  if (text.length > longestText)
    return failure({
      at: "",
      what: `the text has ${text.length} characters`,
      expected: `at most ${longestText}`,
      remedy: "paste the offsets alone",
    });
  const lines = linesOf(text);
  if (lines.every(({ text }) => text.trim() === ""))
    return failure({ at: "", what: "nothing is typed", expected: "G10 L2 blocks, lines such as G54 X-412.607, or a table", got: text });
  const long = lines.find(({ text }) => text.length > longestLine);
  if (long !== undefined)
    return failure(
      problemAt(long, longestLine, {
        what: `this line has ${long.text.length} characters`,
        expected: `at most ${longestLine}`,
        got: long.text,
        remedy: "copy the offsets alone",
      }),
    );
  const found = formOf(text, lines)(lines, text);
  const problems = [...found.problems, ...(found.problems.length > 0 ? [] : doubtful(found))];
  if (problems.length > 0) return failure(...problems.slice(0, mostProblems));
  const unit = found.unit ?? controllerUnit;
  return success({
    form: found.form,
    unit,
    unitStated: found.unit !== undefined,
    offsets: found.numbers.map(({ register, axis, text, decimals, line }) => ({
      register,
      axis,
      text,
      decimals,
      value: Number(text) * millimetresIn(unit),
      line: line.number,
    })),
  });
}

function formOf(text: string, lines: readonly { readonly text: string }[]) {
  if (/(?:^|[^A-Z])G\s*0*10(?![.\d])/iu.test(text)) return readBlocks;
  const first = lines.find((line) => line.text.trim() !== "")?.text ?? "";
  return /[\t;]/u.test(first) && !/^\s*[GP]\d/iu.test(first) ? readCells : readLines;
}

/** What can be read and still be wrong: looked for where everything else is in order. */
function doubtful({ numbers }: FoundText): Problem[] {
  const problems: Problem[] = [];
  const seen = new Map<string, FoundNumber>();
  for (const each of numbers) {
    const name = `${each.axis} of ${each.register}`;
    const earlier = seen.get(name);
    if (earlier !== undefined)
      problems.push(
        problemAt(each.line, each.column, {
          what: `${name} is stated twice, here and in line ${earlier.line.number}`,
          expected: "each value once",
          got: each.typed,
          remedy: "take one of them out",
        }),
      );
    seen.set(name, each);
    if (!each.hasPoint && Number(each.text) !== 0)
      problems.push(
        problemAt(each.line, each.column, {
          what: `${name} has no decimal point, and some controllers then count its smallest steps`,
          expected: `a number such as ${each.text}.0`,
          got: each.typed,
          remedy: "write the decimal point",
        }),
      );
    if (Math.abs(Number(each.text)) > longest)
      problems.push(problemAt(each.line, each.column, { what: "this is longer than any machine", got: each.typed }));
  }
  return [...problems, ...brokenOff(numbers)];
}

/** A text that was cut in its last number: all others have the same decimals, and this one fewer. */
function brokenOff(numbers: readonly FoundNumber[]): Problem[] {
  const last = numbers.at(-1);
  const others = numbers.slice(0, -1);
  const [first] = others;
  if (last === undefined || first === undefined || others.length < 2) return [];
  if (others.some(({ decimals }) => decimals !== first.decimals) || last.decimals >= first.decimals) return [];
  const expected = `${first.decimals} decimals, as all others have`;
  return [
    problemAt(last.line, last.column, {
      what: "the last number has fewer decimals than all others: the text may be cut off",
      expected,
      got: last.typed,
      remedy: "copy it again, or write the number out",
    }),
  ];
}
