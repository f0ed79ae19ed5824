import type { Outcome, Problem } from "../base/outcome.ts";
import { type Mm, mm } from "../base/quantity.ts";
import { checkUnitPlausible, type ExpectedRange } from "../formula/checkUnitPlausible.ts";
import { parseLength } from "../formula/parseQuantity.ts";
import { parseTolerance } from "../part/parseTolerance.ts";
import type { Limits } from "../part/part.ts";

/** Longer than any machine, mm: a slip, and beyond it sums of squares would run out of doubles. */
const longest = 1e6;

/**
 * Reads the typed entries of one row. A problem is kept at its place and marks
 * the row as failed: a row with an unreadable entry is not used in part.
 */
export class RowReader {
  readonly problems: Problem[] = [];
  private readonly place: string;
  private readonly unit: "mm" | "inch";

  /** @param unit which bare numbers take */
  constructor(place: string, unit: "mm" | "inch") {
    this.place = place;
    this.unit = unit;
  }

  get failed(): boolean {
    return this.problems.length > 0;
  }

  /** A problem at an entry of this row. */
  refuse(entry: string, problem: Omit<Problem, "at">): void {
    this.problems.push({ ...problem, at: entry === "" ? this.place : `${this.place}.${entry}` });
  }

  /** The value of an outcome, its problems kept at the entry; undefined when there is none. */
  take<T>(entry: string, outcome: Outcome<T>): T | undefined {
    if (outcome.ok) return outcome.value;
    for (const problem of outcome.problems) this.refuse(entry, problem);
    return undefined;
  }

  /** A length of either sign; undefined when the entry is empty or unreadable. */
  length(entry: string, text: string, plausible?: ExpectedRange): Mm | undefined {
    if (text.trim() === "") return undefined;
    const parsed = this.take(entry, parseLength(text, { unit: this.unit }));
    if (parsed === undefined || this.tooLong(entry, parsed.value, text)) return undefined;
    const typedUnit = parsed.typedUnit === undefined && parsed.decimals !== undefined ? undefined : this.unit;
    const doubt = plausible && checkUnitPlausible(parsed.value, typedUnit, this.unit, plausible);
    if (doubt === undefined) return parsed.value;
    this.refuse(entry, { ...doubt, got: text });
    return undefined;
  }

  /** Permitted deviations; undefined when unreadable. */
  tolerance(entry: string, text: string): Limits | undefined {
    const limits = this.take(entry, parseTolerance(text, this.unit));
    return limits && !this.tooLong(entry, Math.max(Math.abs(limits.lower), Math.abs(limits.upper)), text) ? limits : undefined;
  }

  /** Refuses what is longer than any machine. */
  tooLong(entry: string, value: number, text: string): boolean {
    if (Math.abs(value) <= longest) return false;
    this.refuse(entry, { what: "this is longer than any machine", expected: `at most ${longest} mm`, got: text });
    return true;
  }

  /** A length that cannot be negative; undefined when empty or unreadable. */
  magnitude(entry: string, text: string, plausible?: ExpectedRange): Mm | undefined {
    const value = this.length(entry, text, plausible);
    if (value === undefined || value >= 0) return value;
    this.refuse(entry, { what: "this cannot be negative", expected: "a length of 0 or more", got: text });
    return undefined;
  }

  /** A doubt: 0 when nothing is stated. */
  doubt(entry: string, text: string): Mm {
    return this.magnitude(entry, text) ?? mm(0);
  }

  /** A length that must be there. */
  required(entry: string, text: string, what: string): Mm {
    const value = this.length(entry, text);
    if (value === undefined && text.trim() === "") this.refuse(entry, { what: `${what} is missing`, expected: "a length", got: "" });
    return value ?? mm(0);
  }
}

/** Reads rows one by one; keeps the good ones and every problem. A name may be used once. */
export function readRows<Entry extends { readonly id: string }, Row>(
  entries: readonly Entry[],
  place: string,
  unit: "mm" | "inch",
  problems: Problem[],
  read: (entry: Entry, row: RowReader) => Row | undefined,
): Row[] {
  const seen = new Set<string>();
  return entries.flatMap((entry) => {
    const row = new RowReader(`${place}.${entry.id}`, unit);
    if (seen.has(entry.id))
      row.refuse("id", {
        what: "this name is used twice",
        expected: "a name of its own for every row",
        got: entry.id,
        remedy: "rename one of them",
      });
    seen.add(entry.id);
    const result = read(entry, row);
    problems.push(...row.problems);
    return row.failed || result === undefined ? [] : [result];
  });
}
