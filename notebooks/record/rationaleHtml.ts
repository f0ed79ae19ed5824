import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { rationalePaper } from "../../lib/record/rationalePaper.ts";
import type { SetupRationale } from "../../lib/record/setupRationale.ts";
import { type PaperSize, paperHtml } from "./paperHtml.ts";
import { drawnFigures } from "./recordHtml.ts";

/** The rationale of a setup as a document of HTML for paper. */
export function rationaleHtml(rationale: SetupRationale, evaluation: SetupEvaluation, size: PaperSize): string {
  const shown = { ...evaluation, setup: { ...evaluation.setup, unit: rationale.unit } };
  return paperHtml(rationalePaper(rationale), {
    size,
    figures: drawnFigures(shown, ["stack"]),
    mark: `Rationale ${rationale.checksum.short}`,
  });
}
