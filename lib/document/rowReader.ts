import type { Outcome, Problem } from "../base/outcome.ts";
import { type Mm, mm, type Radian, radian } from "../base/quantity.ts";
import { checkStatement } from "../formula/checkStatement.ts";
import { checkUnitPlausible, type ExpectedRange } from "../formula/checkUnitPlausible.ts";
import { angleDimension, type Dimension, lengthDimension } from "../formula/dimension.ts";
import { evaluateStatement, type StatementSource } from "../formula/evaluateStatement.ts";
import { type ParsedQuantity, parseLength, parseQuantity } from "../formula/parseQuantity.ts";
import { parseStatement } from "../formula/parseStatement.ts";
import { soundBudget } from "../formula/soundBudget.ts";
import { namesOfStatement } from "../formula/statement.ts";
import { plainNumber, type Unit, unit } from "../formula/units.ts";
import { parseAngleTolerance } from "../part/parseAngleTolerance.ts";
import { parseTolerance, type TolerancedSize } from "../part/parseTolerance.ts";
import type { AngleLimits, Limits } from "../part/part.ts";
import { budgetOf } from "../uncertainty/budget.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { Reading } from "./reading.ts";

/** Longer than any machine, mm: a slip, and beyond it sums of squares would run out of doubles. */
const longest = 1e6;

/**
 * Reads the typed entries of one row. A problem is kept at its place and marks
 * the row as failed: a row with an unreadable entry is not used in part.
 */
export class RowReader {
  readonly problems: Problem[] = [];
  readonly reading: Reading;
  private readonly place: string;

  constructor(place: string, reading: Reading) {
    this.place = place;
    this.reading = reading;
  }

  get failed(): boolean {
    return this.problems.length > 0;
  }

  /** A problem at an entry of this row. */
  refuse(entry: string, problem: Omit<Problem, "at">): void {
    this.problems.push({ ...problem, at: entry === "" ? this.place : `${this.place}.${entry}` });
  }

  /** Leaves of problems that say the same at the same place the first: every member of a pattern reads the row's other entries. */
  tellOnce(): void {
    const told = new Set<string>();
    const kept = this.problems.filter(({ at, what, got }) => {
      const key = JSON.stringify([at, what, got]);
      return told.has(key) ? false : told.add(key);
    });
    this.problems.splice(0, this.problems.length, ...kept);
  }

  /** The value of an outcome, its problems kept at the entry; undefined when there is none. */
  take<T>(entry: string, outcome: Outcome<T>): T | undefined {
    if (outcome.ok) return outcome.value;
    for (const problem of outcome.problems) this.refuse(entry, problem);
    return undefined;
  }

  /** A length of either sign without a doubt of its own; undefined when the entry is empty or unreadable. */
  length(entry: string, text: string, plausible?: ExpectedRange): Mm | undefined {
    return this.sure(entry, text, this.quantity(entry, text, plausible));
  }

  /** A quantity without a doubt of its own, in base units; a bare number takes `bareUnit`. Undefined when the entry is empty or unreadable. */
  sureQuantity(entry: string, text: string, bareUnit: Unit): number | undefined {
    if (text.trim() === "") return undefined;
    const { names } = this.reading;
    return this.sure(entry, text, this.take(entry, parseQuantity(text, bareUnit.dimension, bareUnit, { names })));
  }

  /** Refuses a doubt that a name has brought with it. */
  private sure<T extends number>(entry: string, text: string, parsed: ParsedQuantity<T> | undefined): T | undefined {
    if (parsed?.doubtful === undefined) return parsed?.value;
    this.refuse(entry, {
      what: "what is named here is in doubt, and this entry takes a sure number",
      got: text,
      remedy: "put the doubt aside with estimate( ), if that is meant",
    });
    return undefined;
  }

  /**
   * A quantity that may bring its doubt with it, in base units; a bare number takes `bareUnit`. Undefined when empty or unreadable. The doubt then takes
   * the place of the source, and its own entry must be empty.
   *
   * @param stated the entry that else states the doubt
   */
  doubtfulQuantity(
    entry: string,
    text: string,
    bareUnit: Unit,
    source: StatementSource,
    stated: { readonly entry: string; readonly text: string },
  ): { readonly value: number; readonly doubtful: Uncertain | undefined } | undefined {
    const read = text.trim() === "" ? undefined : this.statement(entry, text, source, bareUnit.dimension, bareUnit);
    const budget = read && this.take(entry, soundBudget(read.value));
    if (read === undefined || budget === undefined) return undefined;
    const isDoubtful = budget.standardUncertainty > 0;
    if (isDoubtful && this.isStatedTwice(entry, stated)) return undefined;
    return { value: budget.value, doubtful: isDoubtful ? read.value : undefined };
  }

  private isStatedTwice(entry: string, stated: { readonly entry: string; readonly text: string }): boolean {
    if (stated.text.trim() === "") return false;
    this.refuse(stated.entry, {
      what: `the doubt is stated twice, here and in ${entry}`,
      got: stated.text,
      remedy: "leave one of them empty",
    });
    return true;
  }

  /**
   * A length that may bring its doubt with it, by names or as `12.5 mm ± 0.002 mm`; undefined when empty or unreadable. The doubt then takes the
   * place of the source, and its own entry must be empty.
   *
   * @param stated the entry that else states the doubt
   */
  doubtfulLength(
    entry: string,
    text: string,
    source: StatementSource,
    stated: { readonly entry: string; readonly text: string },
    plausible?: ExpectedRange,
  ): { readonly value: Mm; readonly doubtful?: Uncertain } | undefined {
    const read = statesDoubt(text) ? this.statedLength(entry, text, source, plausible) : this.quantity(entry, text, plausible);
    if (read?.doubtful !== undefined && this.isStatedTwice(entry, stated)) return undefined;
    return read?.doubtful === undefined || this.take(entry, soundBudget(read.doubtful)) ? read : undefined;
  }

  /** An angle in radians that may bring its doubt with it, from -180° to 180°; a bare number is degrees. Undefined when empty or unreadable. */
  doubtfulAngle(entry: string, text: string, source: StatementSource): Uncertain | undefined {
    const read = text.trim() === "" ? undefined : this.statement(entry, text, source, angleDimension, unit("deg"));
    if (read === undefined || this.take(entry, soundBudget(read.value)) === undefined) return undefined;
    if (Math.abs(read.value.value) <= Math.PI) return read.value;
    this.refuse(entry, { what: "this is more than half a turn", expected: "-180° to 180°", got: text });
    return undefined;
  }

  /** A value that an entry has given with its doubt takes the place of a source. */
  give(source: string, value: Uncertain | undefined): void {
    if (value) this.reading.given.set(source, value);
  }

  /** The same for a length that cannot be negative. */
  doubtfulMagnitude(...[entry, text, ...others]: Parameters<RowReader["doubtfulLength"]>): ReturnType<RowReader["doubtfulLength"]> {
    const read = this.doubtfulLength(entry, text, ...others);
    return read === undefined || this.isMagnitude(entry, text, read.value) ? read : undefined;
  }

  /** The standard uncertainty of a value that an entry has given with its doubt. */
  doubtOf(doubtful: Uncertain | undefined): Mm | undefined {
    return doubtful && mm(budgetOf(doubtful).standardUncertainty);
  }

  private quantity(entry: string, text: string, plausible?: ExpectedRange): ParsedQuantity<Mm> | undefined {
    if (text.trim() === "") return undefined;
    const { unit, names } = this.reading;
    const parsed = this.take(entry, parseLength(text, { unit, names }));
    if (parsed === undefined || this.tooLong(entry, parsed.value, text)) return undefined;
    const isBare = parsed.typedUnit === undefined && parsed.decimals !== undefined;
    return this.isPlausible(entry, text, parsed.value, isBare, plausible) ? parsed : undefined;
  }

  /** Refuses a bare number that is likely to be in the other unit. */
  private isPlausible(entry: string, text: string, value: Mm, isBare: boolean, plausible: ExpectedRange | undefined): boolean {
    const { unit } = this.reading;
    const doubt = plausible && checkUnitPlausible(value, isBare ? undefined : unit, unit, plausible);
    if (doubt !== undefined) this.refuse(entry, { ...doubt, got: text });
    return doubt === undefined;
  }

  private statedLength(
    entry: string,
    text: string,
    source: StatementSource,
    plausible: ExpectedRange | undefined,
  ): { readonly value: Mm; readonly doubtful?: Uncertain } | undefined {
    const read = this.statement(entry, text, source, lengthDimension, unit(this.reading.unit === "inch" ? "in" : "mm"));
    if (read === undefined || this.tooLong(entry, read.value.value, text)) return undefined;
    const value = mm(read.value.value);
    return this.isPlausible(entry, text, value, read.isBare, plausible) ? { value, doubtful: read.value } : undefined;
  }

  private statement(
    entry: string,
    text: string,
    source: StatementSource,
    dimension: Dimension,
    bareUnit: Unit,
  ): { readonly value: Uncertain; readonly isBare: boolean } | undefined {
    const { names } = this.reading;
    const dimensions = names?.dimensions ?? new Map();
    const statement = this.take(entry, parseStatement(text));
    if (statement === undefined) return undefined;
    for (const name of namesOfStatement(statement)) {
      const problem = names?.problemOf(name);
      if (problem) this.refuse(entry, { ...problem, got: text });
    }
    const asTyped = checkStatement(statement, dimensions, { bareUnit });
    const checked = this.take(entry, checkStatement(statement, dimensions, { bareUnit, dimension }));
    const value =
      checked &&
      this.take(
        entry,
        evaluateStatement(checked, names?.values ?? new Map(), { ...source, supposition: this.reading.suppositions.get(source.id) }),
      );
    return value && { value, isBare: asTyped.ok && asTyped.value.isBare };
  }

  /** The half-width of an angle, radians; a bare number is degrees; undefined when empty or unreadable. */
  angleDoubt(entry: string, text: string, most: Radian): Radian | undefined {
    const value = this.sureQuantity(entry, text, unit("deg"));
    if (value === undefined) return undefined;
    if (value >= 0 && value <= most) return radian(value);
    this.refuse(entry, {
      what: "this is no small angle",
      expected: `from 0 to ${Number(((most * 180) / Math.PI).toPrecision(12))} deg`,
      got: text,
    });
    return undefined;
  }

  /** A time, a number or a formula of numbers, with or without `min` behind it; undefined when empty or unreadable. */
  minutes(entry: string, text: string, most: number, least: "0" | "above 0"): number | undefined {
    if (text.trim() === "") return undefined;
    const minutes = this.sureQuantity(entry, text.replace(/(?<=[\d.,)\s])\s*min(utes?)?\s*$/u, ""), plainNumber);
    if (minutes === undefined || ((least === "0" ? minutes >= 0 : minutes > 0) && minutes <= most)) return minutes;
    this.refuse(entry, {
      what: "this time is out of reason",
      expected: least === "0" ? `minutes from 0 to ${most}` : `minutes above 0, at most ${most}`,
      got: text,
    });
    return undefined;
  }

  /** Permitted deviations of an angle, radians; undefined when unreadable. */
  angleTolerance(entry: string, text: string): AngleLimits | undefined {
    return this.take(entry, parseAngleTolerance(text, this.reading.names));
  }

  /** Permitted deviations; undefined when unreadable. A tolerance class needs the size that it is of. */
  tolerance(entry: string, text: string, size?: TolerancedSize): Limits | undefined {
    const limits = this.take(entry, parseTolerance(text, this.reading.unit, this.reading.names, size));
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
    return value === undefined || this.isMagnitude(entry, text, value) ? value : undefined;
  }

  private isMagnitude(entry: string, text: string, value: number): boolean {
    if (value >= 0) return true;
    this.refuse(entry, { what: "this cannot be negative", expected: "a length of 0 or more", got: text });
    return false;
  }

  /** A doubt: 0 when nothing is stated. `0.1 %` is relative to the value whose doubt it is (JCGM 100:2008, 5.1.6), where there is one. */
  doubt(entry: string, text: string, of?: DoubtfulValue): Mm {
    return mm((isShare(text) ? this.share(entry, text, of) : this.magnitude(entry, text)) ?? 0);
  }

  /** A doubt in per cent of a value, in the unit of the value; undefined when unreadable. */
  share(entry: string, text: string, of: DoubtfulValue | undefined): number | undefined {
    const percent = this.sureQuantity(entry, text.replace(/%\s*$/u, ""), plainNumber);
    if (percent === undefined) {
      if (!this.failed) this.refuse(entry, { what: "a number is missing before the sign %", expected: "a share such as 0.1 %", got: text });
      return undefined;
    }
    if (percent < 0) this.refuse(entry, { what: "this cannot be negative", expected: "a share of 0 % or more", got: text });
    else if (of === undefined)
      this.refuse(entry, { what: "this is not the doubt of one value that it could be a share of", expected: "a length", got: text });
    else if (of.value === undefined || of.value === 0)
      this.refuse(entry, {
        what: `${of.words} is ${of.value === 0 ? "0, and a doubt in per cent of nothing says nothing" : "not known, so that nothing can be a share of it"}`,
        got: text,
        remedy: "write the size of the doubt itself, with its unit",
      });
    else return (percent / 100) * Math.abs(of.value);
    return undefined;
  }

  /** A length that must be there; undefined when it is not, or unreadable. */
  required(entry: string, text: string, what: string): Mm | undefined {
    const value = this.length(entry, text);
    if (value === undefined && text.trim() === "") this.refuse(entry, { what: `${what} is missing`, expected: "a length", got: "" });
    return value;
  }
}

/** Reads rows one by one; keeps the good ones and every problem. A name may be used once. */
export function readRows<Entry extends { readonly id: string }, Row>(
  entries: readonly Entry[],
  place: string,
  reading: Reading,
  problems: Problem[],
  read: (entry: Entry, row: RowReader) => Row | undefined,
): Row[] {
  const seen = new Set<string>();
  return entries.flatMap((entry) => {
    const row = new RowReader(`${place}.${entry.id}`, reading);
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

/** What a doubt in per cent is a share of. */
export interface DoubtfulValue {
  readonly value: number | undefined;
  /** As a sentence names it: `the radius`. */
  readonly words: string;
}

/** Whether a doubt is typed in per cent of its value. */
export function isShare(text: string): boolean {
  return text.trimEnd().endsWith("%");
}

/** Whether an entry is more than a formula: it states limits, readings, or a doubt. */
function statesDoubt(text: string): boolean {
  return /[±;|]|\+\/?[-−]\s*\d|\bwithin\b|^\s*from\b|\d\(/u.test(text);
}
