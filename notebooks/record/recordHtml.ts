import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { recordPaper } from "../../lib/record/recordPaper.ts";
import type { SetupRecord } from "../../lib/record/setupRecord.ts";
import { miniDocument } from "../figures/miniDocument.ts";
import { type PaperSize, paperHtml } from "./paperHtml.ts";
import { setupFigures } from "./setupFigures.ts";

/** The record of a setup as a document of HTML, one to three sides of paper. */
export function recordHtml(record: SetupRecord, evaluation: SetupEvaluation, size: PaperSize): string {
  const shown = { ...evaluation, setup: { ...evaluation.setup, unit: record.unit } };
  return paperHtml(recordPaper(record), {
    size,
    figures: drawnFigures(shown, ["setup"]),
    mark: `Setup record ${record.checksum.short}`,
  });
}

/** Those of a setup's figures that a sheet shows. */
export function drawnFigures(evaluation: SetupEvaluation, names: readonly string[]): ReadonlyMap<string, SVGSVGElement> {
  const wanted = setupFigures(evaluation).filter(({ name }) => names.includes(name));
  return new Map(wanted.map(({ name, draw }) => [name, draw({ document: miniDocument() })]));
}
