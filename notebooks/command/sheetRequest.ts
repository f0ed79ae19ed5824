import { failure, type Outcome, success } from "../../lib/base/outcome.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import type { PaperSize } from "../record/paperHtml.ts";
import { seeHelp } from "./parseOptions.ts";

export type SheetForm = "text" | "html" | "json" | "csv";

/** The one form that is asked for; text where none is. */
export function sheetForm(values: { readonly [F in SheetForm]?: boolean | undefined }, forms: readonly SheetForm[]): Outcome<SheetForm> {
  const wanted = forms.filter((form) => values[form] === true);
  const [first = "text", ...others] = wanted;
  if (others.length === 0) return success(first);
  return failure({
    at: "arguments",
    what: "a sheet has one form at a time",
    expected: forms.map((form) => `--${form}`).join(" or "),
    got: wanted.map((form) => `--${form}`).join(" "),
    remedy: seeHelp,
  });
}

export function paperSize(text: string | undefined, isHtml: boolean): Outcome<PaperSize> {
  if (text === undefined) return success("a4");
  if (!isHtml) return failure({ at: "--paper", what: "only --html is laid out for paper", got: text, remedy: seeHelp });
  const size = text.toLowerCase();
  return size === "a4" || size === "letter"
    ? success(size)
    : failure({ at: "--paper", what: "there is no such paper", expected: "a4 or letter", got: text });
}

/** The document with this operation looked at; as it is where none is named. */
export function inOperation(document: SetupDocument, name: string | undefined): Outcome<SetupDocument> {
  if (name === undefined) return success(document);
  const known = document.operations.map(({ id }) => id);
  if (known.includes(name)) return success({ ...document, operation: name });
  const expected = known.length === 0 ? "nothing: this part has one operation" : known.map((id) => `"${id}"`).join(" or ");
  return failure({ at: "--operation", what: "there is no operation by this name", expected, got: name });
}
