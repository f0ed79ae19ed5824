import { rationaleOf } from "../../lib/rationaleOf.ts";
import { rationalePaper } from "../../lib/record/rationalePaper.ts";
import { rationaleHtml } from "../record/rationaleHtml.ts";
import { printSheet, sheetOptionsHelp } from "./printSheet.ts";

const usage = `The rationale of a saved setup: the alternatives side by side, why the strategy in use, what it rests on, what is assumed, what
would change the choice, and what stays open; with its author's own paragraphs.

  npm run --silent rationale -- FILE.json [options]

FILE.json is a setup that Datumbook saved; - reads it from standard input.

${sheetOptionsHelp}`;

await printSheet(usage, (document, evaluation, unit) => {
  const rationale = rationaleOf(document, evaluation, unit);
  return { data: rationale, paper: rationalePaper(rationale), html: (size) => rationaleHtml(rationale, evaluation, size) };
});
