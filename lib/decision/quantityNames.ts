import { nameOf } from "../ledger/cellNames.ts";

/** What the names of quantities end in that belong to a row, by the row's place in a document. */
export const quantityEndings = {
  touches: ["face"],
  tools: ["radius", "length"],
  spacers: ["thickness"],
  strategies: ["zero_X", "zero_Y", "zero_Z", "turn"],
  "part.elements": ["diameter_size"],
  "part.dimensions": ["size"],
  "part.characteristics": ["deviation", "deviation_X", "deviation_Y"].flatMap((name) => [name, `${name}_in_the_batch`]),
} as const satisfies Readonly<Record<string, readonly string[]>>;

export type QuantityPlace = keyof typeof quantityEndings;

/** Whether formulas know quantities of the rows at a place. */
export function hasQuantities(place: string): place is QuantityPlace {
  return Object.hasOwn(quantityEndings, place);
}

/** Every name that formulas can know a quantity of a row by, in a fixed order. */
export function quantityNamesOf(place: QuantityPlace, row: string): string[] {
  return quantityEndings[place].map((ending) => nameOf(row, ending));
}
