import type { Outcome } from "../../lib/base/outcome.ts";
import type { FormulaPlace } from "./formulaPlace.ts";

/** What a cell knows of the rest of the document while it is drawn: names that can be chosen, the unit of bare numbers. */
export interface CellContext {
  readonly unit: "mm" | "inch";
  /** Names in use, by kind: `elements`, `tools`. */
  readonly names: Readonly<Record<string, readonly string[]>>;
}

/** An entry of a row: what a person types or chooses, always a text. */
export interface EntryColumn<Row extends object> {
  readonly kind: "text" | "choice" | "long";
  /** Path of the entry in its row, as problems name it: `readings`, `zero.x`. */
  readonly key: string;
  readonly label: string;
  /** What the column means, in a sentence. */
  readonly hint?: string;
  readonly read: (row: Row) => string;
  /** The row with this text entered; undefined for a text that the entry cannot hold. */
  readonly write: (row: Row, text: string) => Row | undefined;
  /** Why a row takes no edits any more, as a sentence; undefined where it takes them. */
  readonly closed?: (row: Row) => string | undefined;
  /** Choices in the order shown; a row may hold another text, which is then shown as well. */
  readonly choices?: (context: CellContext) => readonly string[];
  /** How a text was understood, in words: `6 mm / 2 = 3 mm`. Nothing for an entry that is only a name or a note. */
  readonly understand?: (text: string, row: Row, context: CellContext) => Outcome<string>;
  /** Hidden while no row uses it: while all hold nothing, or this text. */
  readonly usual?: string;
  /** Whether the rest of the document gives a reason to show it although no row uses it yet. */
  readonly isWanted?: (context: CellContext) => boolean;
  /** What names can be completed in its entries; nothing for a column that takes no formulas. */
  readonly formula?: FormulaPlace;
  /** Numbers and formulas are set in even figures. */
  readonly figures?: boolean;
  /** What the first row of a block that is pasted may call it besides. */
  readonly names?: readonly string[];
  /** What the entry of a row comes to, for rows to be put in order by; where nothing says so, its text is read for it. */
  readonly rank?: (row: Row) => number | undefined;
  /** Widest text that is usual, in characters. */
  readonly width: number;
}

/** A result beside the entries of a row. */
export interface ResultColumn<Row extends object, Results> {
  readonly kind: "result";
  readonly key: string;
  readonly label: string;
  readonly hint?: string;
  /** Undefined where there is nothing to say. */
  readonly show: (row: Row, results: Results) => ShownResult | undefined;
  /** As of an entry. */
  readonly rank?: (row: Row) => number | undefined;
  readonly width: number;
  /** Numbers of a column stand with their decimal points above each other, unless false. */
  readonly isAligned?: boolean;
}

export interface ShownResult {
  readonly text: string;
  /** A second line, smaller: the uncertainty of the first. */
  readonly below?: string;
  readonly tone?: "bad" | "soft" | "strong";
  /** Length of the whisker drawn beside it, to a scale common to the column: 0 to 1. */
  readonly whisker?: number;
  readonly title?: string;
}

export type Column<Row extends object, Results> = EntryColumn<Row> | ResultColumn<Row, Results>;
