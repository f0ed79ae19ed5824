import { renameInText } from "../formula/renameInText.ts";
import { mapFormulas } from "./mapFormulas.ts";
import type { SetupDocument } from "./setupDocument.ts";

/** A name that no entry has, in the place of one that is looked for. */
const another = "_another_name_";

/**
 * Entries of the setup in whose formulas cells of a person's own stand, by the cells' names: `ring` -> `tools.probe.radius`. What the ledger's
 * cells need is known to the cells themselves.
 */
export function entriesNaming(
  document: SetupDocument,
  cells: { readonly has: (name: string) => boolean },
): ReadonlyMap<string, readonly string[]> {
  const places = new Map<string, string[]>();
  mapFormulas({ ...document, ledger: [] }, (text, place) => {
    for (const name of wordsIn(text)) {
      // A word is not yet a name: it may be a unit, or in a text that is no formula.
      if (!cells.has(name) || renameInText(text, name, another) === text) continue;
      places.set(name, [...(places.get(name) ?? []), place]);
    }
    return text;
  });
  return places;
}

/** Most entries are readings: digits, and not a word. */
function wordsIn(text: string): ReadonlySet<string> {
  return digitsOnly.test(text) ? noWords : new Set(text.normalize("NFKC").match(/[\p{L}_][\p{L}\p{M}\d_]*/gu) ?? []);
}

const digitsOnly = /^[-+\d., ]*$/;
const noWords: ReadonlySet<string> = new Set();
