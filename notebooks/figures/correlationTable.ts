import type { ResultCorrelation } from "../../lib/decision/correlationsOfResult.ts";
import { correlationText } from "../../lib/record/correlationText.ts";
import type { FigureTable } from "./figureTable.ts";

/** The table behind `correlationBars`: every other result, the strongest first. */
export function correlationTable(correlations: readonly ResultCorrelation[], { title }: { readonly title: string }): FigureTable {
  return {
    caption: `What errs together with ${title}: 1 for a result that errs just as far, −1 for one that errs as far the other way, 0 for one that shares no doubt with it`,
    columns: ["result", "correlation coefficient"],
    rows: correlations.map(({ id, coefficient }) => [id, correlationCell(coefficient)]),
  };
}

/** With a sign, as a coefficient is read. */
export function correlationCell(coefficient: number): string {
  const text = correlationText(coefficient)
    .replace("-", "−")
    .replace(/^([<>])/, "$1\u202f");
  return /[1-9]/.test(text) && coefficient > 0 && !text.startsWith(">") ? `+${text}` : text;
}
