// What a benchmark runs inside a page: built as one script, its exports are values of the page.
export { parseDocument } from "../../lib/document/parseDocument.ts";
export { evaluateSetup } from "../../lib/evaluateSetup.ts";
export { Draws } from "../../lib/uncertainty/draws.ts";
export { nothingBusy, settledNext } from "./waitInPage.ts";
