import { plainResults } from "../record/plainResults.ts";
import { budgetWorkbook } from "./budgetWorkbook.ts";
import { csvText } from "./csvText.ts";
import { dsiText } from "./dsiText.ts";
import type { Exchanged } from "./exchangedResults.ts";
import { markdownText } from "./markdownText.ts";
import { type ExchangedTable, exchangedTables } from "./resultTables.ts";

/** Open formats in which results leave, in the order in which they are offered. */
export const exchangeFormats = {
  csv: { mediaType: "text/csv;charset=utf-8", ending: "csv" },
  xlsx: { mediaType: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", ending: "xlsx" },
  markdown: { mediaType: "text/markdown;charset=utf-8", ending: "md" },
  dsi: { mediaType: "application/xml", ending: "xml" },
  json: { mediaType: "application/json", ending: "json" },
} as const;

/** In what results leave. */
export type ExchangeFormat = keyof typeof exchangeFormats;

/** How results are written. */
export interface TakeOutOptions {
  /** Of CSV; a point unless given. */
  readonly decimalMark?: "." | ",";
  /** The one table of a file of CSV, `results` unless given; of Markdown all unless given. */
  readonly table?: ExchangedTable;
}

/** What an evaluation found as a file: text, or the bytes of a workbook. */
export function takeOut(
  evaluation: Exchanged,
  format: ExchangeFormat,
  { decimalMark = ".", table }: TakeOutOptions = {},
): string | Uint8Array {
  switch (format) {
    case "csv":
      return csvText(exchangedTables[table ?? "results"](evaluation), { decimalMark });
    case "xlsx":
      return budgetWorkbook(evaluation);
    case "markdown":
      return markdownText(
        (table === undefined ? Object.values(exchangedTables) : [exchangedTables[table]]).map((make) => make(evaluation)),
      );
    case "dsi":
      return dsiText(evaluation);
    case "json":
      return `${JSON.stringify(plainResults(evaluation), undefined, 2)}\n`;
  }
}
