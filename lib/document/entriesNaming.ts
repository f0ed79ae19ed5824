import { renameInText } from "../formula/renameInText.ts";
import { mapFormulas } from "./mapFormulas.ts";
import type { SetupDocument } from "./setupDocument.ts";

/** A name that no entry has, in the place of one that is looked for. */
const another = "_another_name_";

/** Places of the entries whose formulas name this cell or quantity: `tools.probe.radius`, `ledger.wall.entry`. */
export function entriesNaming(document: SetupDocument, name: string): readonly string[] {
  const places: string[] = [];
  mapFormulas(document, (text, place) => {
    // Most texts do not even hold its letters.
    if (text.includes(name) && renameInText(text, name, another) !== text) places.push(place);
    return text;
  });
  return places;
}
