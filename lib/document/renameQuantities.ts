import { sourcesOfRow } from "../datum/sourcesOfRow.ts";
import { type QuantityPlace, quantityNamesOf } from "../decision/quantityNames.ts";
import { renameInText } from "../formula/renameInText.ts";
import { isClassEntry } from "./internals/isClassEntry.ts";
import { mapFormulas } from "./mapFormulas.ts";
import { mapSources } from "./mapSources.ts";
import type { SetupDocument } from "./setupDocument.ts";

/**
 * The document after a row was given another name, with the new names of its quantities in every formula, and of its sources in what is supposed of
 * them and in what goes together.
 */
export function renameQuantities(document: SetupDocument, place: QuantityPlace, from: string, to: string): SetupDocument {
  const names = quantityNamesOf(place, to);
  const renames = quantityNamesOf(place, from).flatMap((old, i) => (old === names[i] ? [] : [[old, names[i] as string] as const]));
  const renamed = mapFormulas(document, (text, place) =>
    isClassEntry(text, place)
      ? text
      : renames.reduce((changed, [old, next]) => (changed.includes(old) ? renameInText(changed, old, next) : changed), text),
  );
  const [before, after] = [sourcesOfRow(place, from), sourcesOfRow(place, to)];
  if (before === undefined || after === undefined) return renamed;
  return mapSources(renamed, (source) => (source.startsWith(before) ? `${after}${source.slice(before.length)}` : source));
}
