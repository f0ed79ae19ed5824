import { newDocument } from "./newDocument.ts";
import type { SetupDocument } from "./setupDocument.ts";

/** A blank setup for another job in the same shop: unit, tools, spacers, machine and decision rule of this one, neither its part nor its touches. */
export function sameShop({ unit, tools, spacers, machine, decision }: SetupDocument): SetupDocument {
  return { ...newDocument(unit), tools, spacers, machine, decision };
}
