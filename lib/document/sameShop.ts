import { newDocument } from "./newDocument.ts";
import type { SetupDocument } from "./setupDocument.ts";

/**
 * A blank setup for another job in the same shop: unit, tools, spacers, machine and decision rule of this one, and what the doubts of these have in
 * common; neither its part nor its touches.
 */
export function sameShop({ unit, tools, spacers, machine, decision, correlations }: SetupDocument): SetupDocument {
  const kept = correlations.filter(({ one, other }) => isOfShop(one) && isOfShop(other));
  return { ...newDocument(unit), tools, spacers, machine, decision, correlations: kept };
}

/** Whether a source belongs to the machine, a tool or a spacer. */
function isOfShop(source: string): boolean {
  return /^(?:machine,|tool |spacer )/.test(source);
}
