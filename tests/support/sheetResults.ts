import { lookupQuantities } from "../../lib/decision/setupQuantities.ts";
import { strategyNamed } from "../../lib/decision/strategyNamed.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import type { SheetResults } from "../../notebooks/pages/sheetResults.ts";

/** What a part of the sheet is shown of a document without operations and cells of a person's own. */
export function sheetResultsOf(document: SetupDocument, view: SheetResults["view"]): SheetResults {
  const evaluation = evaluateSetup(document);
  return {
    evaluation,
    chosen: strategyNamed(evaluation.strategies, document.chosen),
    operated: undefined,
    results: [],
    own: new Map(),
    unnamed: [],
    quantities: lookupQuantities(new Map()),
    related: [],
    problems: [],
    view,
  };
}
