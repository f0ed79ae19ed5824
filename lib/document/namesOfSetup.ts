import { type QuantityPlace, quantityEndings, quantityNamesOf } from "../decision/quantityNames.ts";
import { rowWords } from "./internals/entryWords.ts";
import type { SetupDocument } from "./setupDocument.ts";

/**
 * Every name that formulas know a quantity of the setup by, with what it belongs to. Also those that have nothing behind them yet, because an entry is still to
 * be typed: a cell that is called so would come to share its name when it is.
 */
export function namesOfSetup(document: SetupDocument): ReadonlyMap<string, string> {
  const ofRows = rowsWithQuantities(document).flatMap(({ place, id }) =>
    quantityNamesOf(place, id).map((name) => [name, `a quantity of the ${rowWords[place]} "${id}"`] as const),
  );
  return new Map([...quantityEndings.strategies.map((name) => [name, "a quantity of the chosen strategy"] as const), ...ofRows]);
}

/** Every row of which formulas know quantities. */
export function rowsWithQuantities({ part, tools, spacers, touches, strategies }: SetupDocument): {
  readonly place: QuantityPlace;
  readonly id: string;
}[] {
  const rows: Readonly<Record<QuantityPlace, readonly { readonly id: string }[]>> = {
    tools,
    spacers,
    touches,
    strategies,
    "part.elements": part.elements,
    "part.dimensions": part.dimensions,
    "part.characteristics": part.characteristics,
  };
  return (Object.keys(rows) as QuantityPlace[]).flatMap((place) => rows[place].map(({ id }) => ({ place, id })));
}
