import { writeFileSync } from "node:fs";
import { failure, type Outcome, success } from "../../lib/base/outcome.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { type ExchangedTable, exchangedTables } from "../../lib/exchange/resultTables.ts";
import { type ExchangeFormat, exchangeFormats, takeOut } from "../../lib/exchange/takeOut.ts";
import { obstacles } from "../../lib/record/obstacles.ts";
import { readOneSetup } from "./readOneSetup.ts";
import { exitCodes, refuse, runAsAsked } from "./running.ts";

const formats = Object.keys(exchangeFormats).join("|");
const tables = Object.keys(exchangedTables).join("|");

const usage = `The results of a saved setup in an open format, by the strategy in use; lengths in millimetres, angles in radians.

  npm run --silent export -- FILE.json --format ${formats} [options]

FILE.json is a setup that Datumbook saved; - reads it from standard input.

  --format csv       one table as cells (RFC 4180), numbers with all their digits; text that a spreadsheet program would
                     take for a formula gets an apostrophe in front
  --format xlsx      every budget as a workbook with formulas: change a source, and all results follow
  --format markdown  the tables to read, rounded by their uncertainties
  --format dsi       values with expanded uncertainties as D-SI quantities in XML
  --format json      everything that was found; schema --results prints the JSON Schema of it
  --table NAME       ${tables}: of CSV (results unless given), or alone of Markdown
  --decimal comma    of CSV: a comma in numbers, semicolons between cells
  --out FILE         into this file, which must not be there yet; standard output unless given
  --replace          with --out: takes the place of a file that is there
  --keep-going       writes the results that there are although some are missing; the exit status stays 2
  --help             this text

Exit status 0; 2 when the file, an entry or the arguments cannot be used, with one line per problem on standard error and (without
--keep-going) nothing written; 70 for a mistake of the program itself.
`;

const options = {
  format: { type: "string" },
  table: { type: "string" },
  decimal: { type: "string" },
  out: { type: "string" },
  replace: { type: "boolean" },
  "keep-going": { type: "boolean" },
} as const;

await runAsAsked(usage, options, async ({ values, positionals }) => {
  const format = oneOf<ExchangeFormat>("--format", values.format, exchangeFormats);
  const table = values.table === undefined ? success(undefined) : oneOf<ExchangedTable>("--table", values.table, exchangedTables);
  const decimal = oneOf<"point" | "comma">("--decimal", values.decimal ?? "point", { point: ".", comma: "," });
  if (!format.ok || !table.ok || !decimal.ok) return refuse([format, table, decimal].flatMap((each) => (each.ok ? [] : each.problems)));
  const document = await readOneSetup(positionals);
  if (!document.ok) return refuse(document.problems);
  const evaluation = evaluateSetup(document.value);
  const problems = obstacles(evaluation);
  if (problems.length > 0) refuse(problems);
  const status = problems.length > 0 ? exitCodes.unusable : exitCodes.done;
  if (status !== exitCodes.done && values["keep-going"] !== true) return status;
  const file = takeOut(evaluation, format.value, {
    decimalMark: decimal.value === "comma" ? "," : ".",
    ...(table.value !== undefined && { table: table.value }),
  });
  const written = write(file, values.out, values.replace ?? false);
  return written.ok ? status : refuse(written.problems);
});

function oneOf<T extends string>(at: string, got: string | undefined, known: Readonly<Record<T, unknown>>): Outcome<T> {
  if (got !== undefined && Object.hasOwn(known, got)) return success(got as T);
  const expected = Object.keys(known).join(", ");
  return failure(got === undefined ? { at, what: "this is not stated", expected } : { at, what: "there is no such choice", expected, got });
}

function write(file: string | Uint8Array, path: string | undefined, mayReplace: boolean): Outcome<undefined> {
  if (path === undefined) {
    process.stdout.write(file);
    return success(undefined);
  }
  try {
    writeFileSync(path, file, { flag: mayReplace ? "w" : "wx" });
    return success(undefined);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    return failure(
      code === "EEXIST"
        ? { at: path, what: "there is such a file already", remedy: "choose another name, or add --replace" }
        : { at: path, what: `it cannot be written (${code ?? String(error)})` },
    );
  }
}
