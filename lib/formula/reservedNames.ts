import { functionNames } from "./expression.ts";
import { unitSpellings } from "./units.ts";

/** Names with a value of their own in every formula. */
export const constants: ReadonlyMap<string, number> = new Map([
  ["pi", Math.PI],
  ["π", Math.PI],
]);

/**
 * Whether a name means something else already and so cannot be given to a cell:
 * units, functions, constants, and the words that mathjs reads as operators or
 * values. A cell of the runtime goes by another name than the cell of a person
 * that it holds, so that names of the runtime are free: `width` above all.
 */
export function isReservedName(name: string): boolean {
  return reserved.has(name);
}

/** The words refused inside a formula, because elsewhere they are operators or values. */
export const refusedWords: ReadonlySet<string> = new Set([
  ...["from", "to", "within", "mod", "and", "or", "xor", "not"],
  ...["true", "false", "null", "undefined", "NaN", "Infinity"],
]);

const reserved: ReadonlySet<string> = new Set([...unitSpellings(), ...functionNames, ...constants.keys(), ...refusedWords]);
