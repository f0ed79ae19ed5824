import type { Names } from "../formula/names.ts";
import type { Supposition } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";

/** What the entries of a document are read with, and what is noted while they are. */
export interface Reading {
  /** Which bare numbers take. */
  readonly unit: "mm" | "inch";
  /** What names in formulas stand for. */
  readonly names: Names | undefined;
  /** By source: values that an entry gives together with their doubt. */
  readonly given: Map<string, Uncertain>;
  /** By source: what is supposed for the moment. */
  readonly suppositions: ReadonlyMap<string, Supposition>;
}

export function newReading(unit: "mm" | "inch", names?: Names, suppositions: ReadonlyMap<string, Supposition> = new Map()): Reading {
  return { unit, names, given: new Map(), suppositions };
}
