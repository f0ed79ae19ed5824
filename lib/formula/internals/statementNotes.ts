import { failure, type Outcome, type Problem, success } from "../../base/outcome.ts";
import { judgedDegreesOfFreedom } from "../../uncertainty/judgedDegreesOfFreedom.ts";
import { type NumberOptions, parseNumber } from "../parseNumber.ts";
import type { FormulaText } from "./scanFormula.ts";

export type NoteKind = "coverageFactor" | "degreesOfFreedom" | "topRatio";

export interface Note {
  readonly value: number;
  /** Where it stands in the typed text. */
  readonly character: number;
}

/** What stands in brackets behind a doubt, and the index where the first such bracket starts: the end of the text where there is none. */
export interface Notes {
  readonly start: number;
  readonly notes: ReadonlyMap<NoteKind, Note>;
}

/**
 * Reads `(k = 2)`, `(9 degrees of freedom)`, `(df 9)`, `(known to 25 %)`, `(top 0.5)` at the end of a statement. Several in one bracket are parted by
 * a semicolon, or a comma and a blank.
 */
export function notesBehind(statement: FormulaText, options: NumberOptions): Outcome<Notes> {
  const { text } = statement;
  const notes = new Map<NoteKind, Note>();
  let start = text.length;
  for (;;) {
    const end = text.slice(0, start).trimEnd().length;
    const open = text.charAt(end - 1) === ")" ? text.lastIndexOf("(", end - 1) : -1;
    const content = text.slice(open + 1, end - 1);
    if (open < 0 || !findPattern(content)) return success({ start, notes });
    const problem = readNotes(content, open + 1, statement, options, notes);
    if (problem) return failure(problem);
    start = open;
  }
}

/** No formula holds any of these: they have an equals sign, or a word beside a number that is no unit. */
const patterns = [
  {
    kind: "coverageFactor",
    pattern: /^\s*k\s*=\s*(.*)/d,
    isSound: (k: number) => k > 0,
    expected: "a coverage factor above 0: (k = 2)",
  },
  {
    kind: "degreesOfFreedom",
    pattern: /^\s*df(?:\s*=|\s+(?=[.\d]))\s*(.*)/d,
    isSound: (df: number) => df > 0,
    expected: "degrees of freedom above 0: (df 9)",
  },
  {
    kind: "degreesOfFreedom",
    pattern: /^(.*)\bdegrees?\s+of\s+freedom\s*$/d,
    isSound: (df: number) => df > 0,
    expected: "degrees of freedom above 0: (9 degrees of freedom)",
  },
  {
    // How well somebody judges the size of the doubt itself to be known tells its degrees of freedom (JCGM 100:2008, G.4.2).
    kind: "degreesOfFreedom",
    pattern: /^\s*known\s+to\s+(.*)/d,
    isSound: (percent: number) => percent > 0 && percent <= 100,
    degreesOf: (percent: number) => judgedDegreesOfFreedom(percent / 100),
    expected: "how well the size of the doubt is known, above 0 to 100 %: (known to 25 %)",
  },
  {
    kind: "topRatio",
    pattern: /^\s*top(?:\s*=|\s+(?=[.\d]))\s*(.*)/d,
    isSound: (ratio: number) => ratio >= 0 && ratio <= 1,
    expected: "the flat share of the width, from 0 to 1: (top 0.5)",
  },
] as const;

function findPattern(note: string) {
  return patterns.find(({ pattern }) => pattern.test(note));
}

/** Reads the notes of one bracket, whose content starts at `start`, into `notes`. */
function readNotes(
  content: string,
  start: number,
  { typed: whole, characterAt }: FormulaText,
  options: NumberOptions,
  notes: Map<NoteKind, Note>,
): Problem | undefined {
  for (const { 0: note, index } of content.matchAll(/(?:[^;,]|,(?!\s))+/g)) {
    const place = start + index;
    const refuse = (what: string, character: number, expected?: string): Problem => ({
      at: "",
      what,
      got: whole,
      character: characterAt(character),
      ...(expected && { expected }),
    });
    const found = findPattern(note);
    const number = found?.pattern.exec(note)?.indices?.[1];
    if (!found || !number) return refuse(`"${note.trim()}" is not understood behind a doubt`, place, "(k = 2) or (9 degrees of freedom)");
    // Without its sign a share is no number: 0.25 and 25 would both be meant as one.
    const typed = note.slice(...number);
    const parsed = parseNumber("degreesOf" in found ? (/^(.*)%\s*$/.exec(typed)?.[1] ?? "") : typed, options);
    if (!parsed.ok || !found.isSound(parsed.value.value)) return refuse(`"${note.trim()}" cannot be`, place + number[0], found.expected);
    if (notes.has(found.kind)) return refuse("this is said twice", place);
    const { value } = parsed.value;
    notes.set(found.kind, { value: "degreesOf" in found ? found.degreesOf(value) : value, character: characterAt(place) });
  }
  return undefined;
}
