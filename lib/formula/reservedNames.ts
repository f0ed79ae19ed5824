import { functionNames } from "./expression.ts";
import { unitSpellings } from "./units.ts";

/** Names with a value of their own in every formula. */
export const constants: ReadonlyMap<string, number> = new Map([
  ["pi", Math.PI],
  ["π", Math.PI],
]);

/**
 * Whether a name means something else already and so cannot be given to a cell:
 * units, functions, constants, the words that mathjs reads as operators or
 * values, and the names that the reactive runtime keeps for itself.
 */
export function isReservedName(name: string): boolean {
  return reserved.has(name);
}

/** The words refused inside a formula, because elsewhere they are operators or values. */
export const refusedWords: ReadonlySet<string> = new Set([
  ...["from", "to", "within", "mod", "and", "or", "xor", "not"],
  ...["true", "false", "null", "undefined", "NaN", "Infinity"],
]);

const reserved: ReadonlySet<string> = new Set([
  ...unitSpellings(),
  ...functionNames,
  ...constants.keys(),
  ...refusedWords,
  ...["invalidation", "visibility", "width", "now", "end"],
]);
