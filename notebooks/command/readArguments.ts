import { failure, type Outcome, success } from "../../lib/base/outcome.ts";
import { parseOptions, seeHelp } from "./parseOptions.ts";

/** What the command line was asked for. */
export interface Request {
  readonly help: boolean;
  /** A path, or `-` for standard input. */
  readonly file: string;
  /** Many documents, a line of JSON for each: these files, or one document per line of standard input. */
  readonly each: readonly string[] | undefined;
  readonly json: boolean;
  /** Print what could be worked out although something could not. */
  readonly keepGoing: boolean;
  readonly strategy: string | undefined;
  readonly unit: "mm" | "inch" | undefined;
}

export const usage = `Evaluates a saved setup: the part zero of every strategy with its uncertainty, and what each does to
the drawing.

  npm run --silent evaluate -- FILE.json [options]
  npm run --silent evaluate -- --each FILES ...
  npm run --silent evaluate -- --each -  < documents, one per line

FILE.json is a setup that Datumbook saved; - reads it from standard input. At most 20 MB.

  --json             every result as JSON, in millimetres and radians whatever --unit says: values, standard
                     uncertainties, sensitivities by source, problems at their place; without it a summary to read.
                     schema --results prints the JSON Schema of it, schema --operations that of several operations
  --strategy NAME    tell of this strategy alone
  --unit mm|inch     unit of the summary; the document's own unless given
  --each             many documents, one after the other in the memory of one: for each a line of JSON with its
                     zeros, chances and problems, as soon as it is worked out; one that cannot be used gets a line that
                     says so, and the others go on
  --keep-going       print the results that there are although some are missing; the exit status stays 2
  --help             this text

A part with several operations gets the finished part first, judged by the strategies in use, then every
operation.

Exit status 0 when everything that the document asks could be worked out; 2 when the file, an entry or the
arguments cannot be used, with one line per problem on standard error and (without --keep-going) nothing on
standard output; 70 for a mistake of the program itself.
`;

/** The request that the arguments make, or what is wrong with them. */
export function readArguments(args: readonly string[]): Outcome<Request> {
  const parsed = parseOptions(args, options);
  if (!parsed.ok) return parsed;
  const { values, positionals } = parsed.value;
  const { help = false, json = false, each = false, "keep-going": keepGoing = false, strategy, unit } = values;
  if (unit !== undefined && unit !== "mm" && unit !== "inch")
    return failure({ at: "--unit", what: "there is no such unit", expected: "mm or inch", got: unit });
  const [file = "", ...more] = positionals;
  if (!help && (file === "" || (more.length > 0 && !each))) {
    return failure({
      at: "arguments",
      what: each ? "there is nothing to evaluate" : "one file is evaluated at a time, or many with --each",
      expected: each ? "the paths of saved setups, or -" : "the path of a saved setup, or -",
      got: positionals.join(" "),
      remedy: seeHelp,
    });
  }
  return success({ help, file, each: each ? positionals : undefined, json, keepGoing, strategy, unit });
}

const options = {
  help: { type: "boolean" },
  json: { type: "boolean" },
  each: { type: "boolean" },
  "keep-going": { type: "boolean" },
  strategy: { type: "string" },
  unit: { type: "string" },
} as const;
