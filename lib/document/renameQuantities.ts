import { sourcesOfRow } from "../datum/sourcesOfRow.ts";
import { type QuantityPlace, quantityNamesOf } from "../decision/quantityNames.ts";
import { renameNames } from "./internals/renameNames.ts";
import { mapSources } from "./mapSources.ts";
import { rowsWithQuantities } from "./namesOfSetup.ts";
import { namesOfBlocks } from "./renameBlock.ts";
import type { SetupDocument } from "./setupDocument.ts";

/**
 * The document after a row was given another name, with the new names of its quantities in every formula, and of its sources in what is supposed of
 * them and in what goes together.
 *
 * A name that a cell or column of a person's own has as well is theirs in formulas, and one that another row gives too (`front 1` and `front_1`) may be that
 * row's: neither is renamed with the row. Where the new name is such a one, formulas keep the old one, which nothing has any more: they say so, and read
 * no other quantity than before.
 */
export function renameQuantities(document: SetupDocument, place: QuantityPlace, from: string, to: string): SetupDocument {
  const names = quantityNamesOf(place, to);
  const others = rowsWithQuantities(document).filter((row) => row.place !== place || (row.id !== from && row.id !== to));
  const taken = new Set([...namesOfBlocks(document.ledger), ...others.flatMap((row) => quantityNamesOf(row.place, row.id))]);
  const renames = quantityNamesOf(place, from).flatMap((old, i) => {
    const next = names[i] as string;
    return old === next || taken.has(old) || taken.has(next) ? [] : [[old, next] as const];
  });
  const renamed = renameNames(document, renames);
  const [before, after] = [sourcesOfRow(place, from), sourcesOfRow(place, to)];
  if (before === undefined || after === undefined) return renamed;
  return mapSources(renamed, (source) => (source.startsWith(before) ? `${after}${source.slice(before.length)}` : source));
}
