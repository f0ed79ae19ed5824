import { describeProblem, type Problem } from "../../lib/base/outcome.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { obstacles } from "../../lib/record/obstacles.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { type Request, readArguments, usage } from "./readArguments.ts";
import { readText } from "./readText.ts";

/** What the process ends with; 70 is "internal software error" in the BSD list of exit codes (sysexits). */
const exitCodes = { done: 0, unusable: 2, internalError: 70 } as const;

// A reader that has seen enough (`| head`) closes the pipe: that is no error of ours.
process.stdout.on("error", ({ code }: NodeJS.ErrnoException) => process.exit(code === "EPIPE" ? exitCodes.done : exitCodes.internalError));

try {
  process.exitCode = await run(process.argv.slice(2));
} catch (error) {
  process.exitCode = exitCodes.internalError;
  const message = error instanceof Error ? error.message : String(error);
  tell({ at: "", what: `internal error: ${message}`, remedy: "this is a mistake of Datumbook, not of the file; nothing was evaluated" });
}

async function run(args: readonly string[]): Promise<number> {
  const request = readArguments(args);
  if (!request.ok) return refuse(request.problems);
  if (request.value.help) {
    process.stdout.write(usage);
    return exitCodes.done;
  }
  const text = await readText(request.value.file);
  if (!text.ok) return refuse(text.problems);
  const document = parseDocument(text.value);
  if (!document.ok) return refuse(document.problems.map((problem) => inFile(request.value.file, problem)));
  const evaluation = evaluateSetup(document.value);
  const problems = [...obstacles(evaluation), ...unknownStrategy(request.value, evaluation.setup.strategies)];
  if (problems.length > 0) refuse(problems);
  if (problems.length === 0 || request.value.keepGoing) process.stdout.write(show(evaluation, request.value));
  return problems.length === 0 ? exitCodes.done : exitCodes.unusable;
}

/** What is wrong with the text as a whole has no entry for its place. */
function inFile(file: string, problem: Problem): Problem {
  const name = file === "-" ? "standard input" : file;
  return { ...problem, at: problem.at === "" ? name : problem.at.replace(/^line \d+$/, `${name}, $&`) };
}

function unknownStrategy({ strategy }: Request, known: readonly { readonly id: string }[]): Problem[] {
  if (strategy === undefined || known.some(({ id }) => id === strategy)) return [];
  return [
    { at: "--strategy", what: "there is no strategy by this name", expected: known.map(({ id }) => `"${id}"`).join(" or "), got: strategy },
  ];
}

function show(evaluation: ReturnType<typeof evaluateSetup>, { json, unit, strategy }: Request): string {
  if (!json) return summaryText(evaluation, { ...(unit && { unit }), ...(strategy !== undefined && { strategy }) });
  const results = plainResults(evaluation);
  const shown = strategy === undefined ? results : { ...results, strategies: results.strategies.filter(({ id }) => id === strategy) };
  return `${JSON.stringify(shown, undefined, 2)}\n`;
}

/** One line per problem on standard error. */
function refuse(problems: readonly Problem[]): number {
  for (const problem of problems) tell(problem);
  return exitCodes.unusable;
}

function tell(problem: Problem): void {
  process.stderr.write(`${describeProblem(problem)}\n`);
}
