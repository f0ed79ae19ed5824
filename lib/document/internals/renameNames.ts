import { renameInText } from "../../formula/renameInText.ts";
import { mapFormulas } from "../mapFormulas.ts";
import type { SetupDocument } from "../setupDocument.ts";
import { isClassEntry } from "./isClassEntry.ts";

/**
 * Every formula of a document with names in the place of others. A formula of the rows of a table, in which the columns go by their short names, keeps a name
 * that is one of them: that column is what it means.
 */
export function renameNames(document: SetupDocument, renames: readonly (readonly [from: string, to: string])[]): SetupDocument {
  const short = shortNames(document.ledger);
  return mapFormulas(document, (text, place) =>
    isClassEntry(text, place)
      ? text
      : renames.reduce((changed, [from, to]) => {
          const isColumn = short.get(place)?.has(from) || short.get(place)?.has(to);
          return isColumn || !changed.includes(from) ? changed : renameInText(changed, from, to);
        }, text),
  );
}

/** By the place of the formula of a column: the short names of the columns beside it. */
function shortNames(ledger: SetupDocument["ledger"]): ReadonlyMap<string, ReadonlySet<string>> {
  return new Map(
    ledger.flatMap((block) => {
      if (block.kind !== "table") return [];
      const names = new Set(block.columns.map(({ id }) => id));
      return block.columns.map(({ id }) => [`ledger.${block.id}.${id}.formula`, names] as const);
    }),
  );
}

/** Whether a formula names this, also one that is not yet sound. */
export function namesInText(text: string, name: string): boolean {
  return text.includes(name) && renameInText(text, name, `${name}_`) !== text;
}
