import { type QuantityPlace, quantityNamesOf } from "../decision/quantityNames.ts";
import { renameInText } from "../formula/renameInText.ts";
import { isClassEntry } from "./internals/isClassEntry.ts";
import { mapFormulas } from "./mapFormulas.ts";
import type { SetupDocument } from "./setupDocument.ts";

/** What the sources of a row's own are called before its name. */
const sourceWords: Readonly<Record<string, string>> = {
  touches: "touch",
  tools: "tool",
  spacers: "spacer",
  "part.elements": "element",
  "part.dimensions": "dimension",
};

/** The document after a row was given another name, with the new names of its quantities in every formula, and of its sources in what is supposed. */
export function renameQuantities(document: SetupDocument, place: QuantityPlace, from: string, to: string): SetupDocument {
  const names = quantityNamesOf(place, to);
  const renames = quantityNamesOf(place, from).flatMap((old, i) => (old === names[i] ? [] : [[old, names[i] as string] as const]));
  const renamed = mapFormulas(document, (text, place) =>
    isClassEntry(text, place)
      ? text
      : renames.reduce((changed, [old, next]) => (changed.includes(old) ? renameInText(changed, old, next) : changed), text),
  );
  const prefix = `${sourceWords[place]} ${from}, `;
  if (!renamed.whatIf.some(({ source }) => source.startsWith(prefix))) return renamed;
  const whatIf = renamed.whatIf.map((entry) =>
    entry.source.startsWith(prefix) ? { ...entry, source: `${sourceWords[place]} ${to}, ${entry.source.slice(prefix.length)}` } : entry,
  );
  return { ...renamed, whatIf };
}
