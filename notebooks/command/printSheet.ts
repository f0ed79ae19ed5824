import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { failure, type Outcome, success } from "../../lib/base/outcome.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup, type SetupEvaluation } from "../../lib/evaluateSetup.ts";
import { obstacles } from "../../lib/record/obstacles.ts";
import type { Paper } from "../../lib/record/paper/paper.ts";
import { paperCsv } from "../../lib/record/paper/paperCsv.ts";
import { paperText } from "../../lib/record/paper/paperText.ts";
import type { PaperSize } from "../record/paperHtml.ts";
import { printedFigure } from "../record/printedFigure.ts";
import { setupFigures } from "../record/setupFigures.ts";
import { seeHelp } from "./parseOptions.ts";
import { readOneSetup } from "./readOneSetup.ts";
import { exitCodes, refuse, runAsAsked } from "./running.ts";

const forms = ["text", "html", "json", "csv"] as const;
type Form = (typeof forms)[number];

/** A sheet of one setup, in the forms that it can be printed in. */
export interface SheetOfSetup {
  readonly data: object;
  readonly paper: Paper;
  html(size: PaperSize): string;
}

/** What every sheet's help says of its options. */
export const sheetOptionsHelp = `  --text             plain text, at most 100 columns; the form unless another is given
  --html             one document for paper, with its figures; it needs nothing else
  --json             plain data, in millimetres and radians, with the digits as they are printed
  --csv              section, row, column and text of all that is printed
  --paper a4|letter  with --html: the paper, a4 unless given
  --unit mm|inch     unit of the lengths that are printed; the document's own unless given
  --operation NAME   of a part with several operations: the one that is told, the one looked at unless given
  --figures DIR      writes the figures as SVG files into this folder as well
  --keep-going       print the sheet although something is open: it says what; the exit status stays 2
  --help             this text

Exit status 0 when everything that the document asks could be worked out; 2 when the file, an entry or the arguments cannot
be used, with one line per problem on standard error and (without --keep-going) nothing on standard output; 70 for a
mistake of the program itself.
`;

const options = {
  text: { type: "boolean" },
  html: { type: "boolean" },
  json: { type: "boolean" },
  csv: { type: "boolean" },
  paper: { type: "string" },
  unit: { type: "string" },
  operation: { type: "string" },
  figures: { type: "string" },
  "keep-going": { type: "boolean" },
} as const;

/** Prints one sheet of a saved setup, as the arguments ask. */
export function printSheet(
  usage: string,
  make: (document: SetupDocument, evaluation: SetupEvaluation, unit: "mm" | "inch") => SheetOfSetup,
): Promise<void> {
  return runAsAsked(usage, options, async ({ values, positionals }) => {
    const form = formOf(forms.filter((each) => values[each] === true));
    const size = paperSizeOf(values.paper, values.html === true);
    const unit = unitOf(values.unit);
    if (!form.ok || !size.ok || !unit.ok) return refuse([form, size, unit].flatMap((each) => (each.ok ? [] : each.problems)));
    const saved = await readOneSetup(positionals);
    if (!saved.ok) return refuse(saved.problems);
    const document = inOperation(saved.value, values.operation);
    if (!document.ok) return refuse(document.problems);
    const evaluation = evaluateSetup(document.value);
    const problems = obstacles(evaluation);
    if (problems.length > 0) refuse(problems);
    if (problems.length > 0 && values["keep-going"] !== true) return exitCodes.unusable;
    const shownIn = unit.value ?? document.value.unit;
    const sheet = make(document.value, evaluation, shownIn);
    if (values.figures !== undefined) {
      const figures = setupFigures({ ...evaluation, setup: { ...evaluation.setup, unit: shownIn } });
      const written = await writeFigures(values.figures, figures);
      if (!written.ok) return refuse(written.problems);
    }
    const write: Readonly<Record<Form, () => string>> = {
      text: () => paperText(sheet.paper),
      html: () => sheet.html(size.value),
      json: () => `${JSON.stringify(sheet.data, undefined, 2)}\n`,
      csv: () => paperCsv(sheet.paper),
    };
    process.stdout.write(write[form.value]());
    return problems.length > 0 ? exitCodes.unusable : exitCodes.done;
  });
}

/** The one form that is asked for; text where none is. */
function formOf([first = "text", ...others]: readonly Form[]): Outcome<Form> {
  if (others.length === 0) return success(first);
  return failure({
    at: "arguments",
    what: "a sheet has one form at a time",
    expected: forms.map((form) => `--${form}`).join(" or "),
    got: [first, ...others].map((form) => `--${form}`).join(" "),
    remedy: seeHelp,
  });
}

function paperSizeOf(text: string | undefined, isHtml: boolean): Outcome<PaperSize> {
  if (text === undefined) return success("a4");
  if (!isHtml) return failure({ at: "--paper", what: "only --html is laid out for paper", got: text, remedy: seeHelp });
  const size = text.toLowerCase();
  return size === "a4" || size === "letter"
    ? success(size)
    : failure({ at: "--paper", what: "there is no such paper", expected: "a4 or letter", got: text });
}

function unitOf(text: string | undefined): Outcome<"mm" | "inch" | undefined> {
  if (text === undefined || text === "mm" || text === "inch") return success(text);
  return failure({ at: "--unit", what: "there is no such unit", expected: "mm or inch", got: text });
}

/** The document with this operation looked at; as it is where none is named. */
function inOperation(document: SetupDocument, name: string | undefined): Outcome<SetupDocument> {
  if (name === undefined) return success(document);
  const known = document.operations.map(({ id }) => id);
  if (known.includes(name)) return success({ ...document, operation: name });
  const expected = known.length === 0 ? "nothing: this part has one operation" : known.map((id) => `"${id}"`).join(" or ");
  return failure({ at: "--operation", what: "there is no operation by this name", expected, got: name });
}

async function writeFigures(folder: string, figures: ReturnType<typeof setupFigures>): Promise<Outcome<undefined>> {
  try {
    await mkdir(folder, { recursive: true });
    for (const figure of figures) await writeFile(join(folder, `${figure.name}.svg`), printedFigure(figure));
    return success(undefined);
  } catch (error) {
    const reason = error instanceof Error ? ((error as NodeJS.ErrnoException).code ?? error.message) : String(error);
    return failure({
      at: "--figures",
      what: `the figures cannot be written there (${reason})`,
      got: folder,
      remedy: "name a folder that can be written",
    });
  }
}
