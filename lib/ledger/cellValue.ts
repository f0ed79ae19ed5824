import type { Outcome } from "../base/outcome.ts";
import type { Dimension } from "../formula/dimension.ts";
import type { Family } from "../uncertainty/source.ts";
import type { Supposition } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";

/** One value with its dimension, in base units (mm, rad, K, and products of them). */
export interface Quantity {
  readonly kind: "quantity";
  readonly value: Uncertain;
  readonly dimension: Dimension;
  /** One step of the last digit, in base units, of a number alone that was typed. */
  readonly step?: number;
}

/** The values of a table's column, row by row; undefined where nothing is typed. */
export interface ColumnValues {
  readonly kind: "column";
  readonly rows: readonly (Outcome<Uncertain> | undefined)[];
  readonly dimension: Dimension;
  /** The least step of the last digits of its rows, in base units; absent where no row is a typed number. */
  readonly step?: number;
  /** Of the doubt that the scatter of its rows tells: what family that belongs to, and what is supposed for the moment, by source. */
  readonly scatter: { readonly family: Family; readonly suppositions: ReadonlyMap<string, Supposition> };
}

/** What a cell of a person's own holds: one value with its dimension, or a column of a table. */
export type CellValue = Quantity | ColumnValues;

/** What the names of formulas stand for; undefined for a name that nothing has. */
export interface CellLookup {
  get(name: string): Outcome<CellValue> | undefined;
  keys(): Iterable<string>;
}

/** Names are looked for in the first, then in the second. */
export function lookupIn(first: CellLookup, second: CellLookup): CellLookup {
  return {
    get: (name) => first.get(name) ?? second.get(name),
    keys: () => new Set([...first.keys(), ...second.keys()]),
  };
}
