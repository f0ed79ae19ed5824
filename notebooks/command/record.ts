import { recordPaper } from "../../lib/record/recordPaper.ts";
import { recordOf } from "../../lib/recordOf.ts";
import { recordHtml } from "../record/recordHtml.ts";
import { printSheet, sheetOptionsHelp } from "./printSheet.ts";

const usage = `The record of a saved setup: what the next shift needs to use its zero and to check it, and every entry from which it can be
worked out again; one to three sides of paper.

  npm run --silent record -- FILE.json [options]

FILE.json is a setup that Datumbook saved; - reads it from standard input.

${sheetOptionsHelp}`;

await printSheet(usage, (document, evaluation, unit) => {
  const record = recordOf(document, evaluation, unit);
  return { data: record, paper: recordPaper(record), html: (size) => recordHtml(record, evaluation, size) };
});
