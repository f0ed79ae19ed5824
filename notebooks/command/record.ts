import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { failure, type Outcome, success } from "../../lib/base/outcome.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { obstacles } from "../../lib/record/obstacles.ts";
import { paperCsv } from "../../lib/record/paper/paperCsv.ts";
import { paperText } from "../../lib/record/paper/paperText.ts";
import { recordPaper } from "../../lib/record/recordPaper.ts";
import { recordOf } from "../../lib/recordOf.ts";
import { figureFile } from "../record/figureFile.ts";
import { recordHtml } from "../record/recordHtml.ts";
import { setupFigures } from "../record/setupFigures.ts";
import { parseOptions } from "./parseOptions.ts";
import { readOneSetup } from "./readOneSetup.ts";
import { exitCodes, refuse, runToExit } from "./running.ts";
import { inOperation, paperSize, type SheetForm, sheetForm } from "./sheetRequest.ts";

const usage = `The record of a saved setup: what the next shift needs to use its zero and to check it, and every entry from which it can be
worked out again.

  npm run --silent record -- FILE.json [options]

FILE.json is a setup that Datumbook saved; - reads it from standard input.

  --text             plain text, at most 100 columns; the form unless another is given
  --html             one document for paper, one to three sides, with its figures; it needs nothing else
  --json             plain data, in millimetres and radians, with the digits as they are printed
  --csv              section, row, column and text of all that is printed
  --paper a4|letter  with --html: the paper, a4 unless given
  --unit mm|inch     unit of the lengths that are printed; the document's own unless given
  --operation NAME   of a part with several operations: the one that is recorded, the one looked at unless given
  --figures DIR      writes the figures as SVG files into this folder as well
  --keep-going       print the record although something is open: it says what; the exit status stays 2
  --help             this text

Exit status 0 when everything that the document asks could be worked out; 2 when the file, an entry or the arguments cannot
be used, with one line per problem on standard error and (without --keep-going) nothing on standard output; 70 for a
mistake of the program itself.
`;

const options = {
  help: { type: "boolean" },
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

await runToExit(async (args) => {
  const parsed = parseOptions(args, options);
  if (!parsed.ok) return refuse(parsed.problems);
  const { values, positionals } = parsed.value;
  if (values.help) {
    process.stdout.write(usage);
    return exitCodes.done;
  }
  const form = sheetForm(values, ["text", "html", "json", "csv"]);
  const size = paperSize(values.paper, values.html === true);
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
  const record = recordOf(document.value, evaluation, unit.value);
  const written: Readonly<Record<SheetForm, () => string>> = {
    text: () => paperText(recordPaper(record)),
    html: () => recordHtml(record, evaluation, size.value),
    json: () => `${JSON.stringify(record, undefined, 2)}\n`,
    csv: () => paperCsv(recordPaper(record)),
  };
  process.stdout.write(written[form.value]());
  if (values.figures !== undefined) {
    const shown = { ...evaluation, setup: { ...evaluation.setup, unit: record.unit } };
    const failed = await writeFigures(values.figures, setupFigures(shown));
    if (!failed.ok) return refuse(failed.problems);
  }
  return problems.length > 0 ? exitCodes.unusable : exitCodes.done;
});

function unitOf(text: string | undefined): Outcome<"mm" | "inch" | undefined> {
  if (text === undefined || text === "mm" || text === "inch") return success(text);
  return failure({ at: "--unit", what: "there is no such unit", expected: "mm or inch", got: text });
}

async function writeFigures(folder: string, figures: ReturnType<typeof setupFigures>): Promise<Outcome<undefined>> {
  try {
    await mkdir(folder, { recursive: true });
    for (const figure of figures) await writeFile(join(folder, `${figure.name}.svg`), figureFile(figure));
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
