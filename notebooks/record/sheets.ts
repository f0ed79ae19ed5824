import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { recordOf } from "../../lib/recordOf.ts";
import type { PaperSize } from "./paperHtml.ts";
import { recordHtml } from "./recordHtml.ts";

// What the page needs for paper, in one part that is loaded when a sheet is asked for.
export { rationaleHtml } from "./rationaleHtml.ts";

/** The record of what is on the sheet. */
export function recordSheet(document: SetupDocument, evaluation: SetupEvaluation, size: PaperSize): string {
  return recordHtml(recordOf(document, evaluation, evaluation.setup.unit), evaluation, size);
}
