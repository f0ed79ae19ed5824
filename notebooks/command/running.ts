import type { ParseArgsConfig } from "node:util";
import { messageOf } from "../../lib/base/messageOf.ts";
import { describeProblem, type Outcome, type Problem } from "../../lib/base/outcome.ts";
import { parseOptions } from "./parseOptions.ts";

/** What the process ends with; 70 is "internal software error" in the BSD list of exit codes (sysexits). */
export const exitCodes = { done: 0, unusable: 2, internalError: 70 } as const;

/** Runs a command to its exit status. A reader that has seen enough (`| head`) closes the pipe: that is no error of ours. */
export async function runToExit(run: (args: readonly string[]) => Promise<number>): Promise<void> {
  process.stdout.on("error", ({ code }: NodeJS.ErrnoException) =>
    process.exit(code === "EPIPE" ? exitCodes.done : exitCodes.internalError),
  );
  try {
    process.exitCode = await run(process.argv.slice(2));
  } catch (error) {
    process.exitCode = exitCodes.internalError;
    const message = messageOf(error);
    tell({ at: "", what: `internal error: ${message}`, remedy: "this is a mistake of Datumbook, not of the file; nothing was evaluated" });
  }
}

type Options = NonNullable<ParseArgsConfig["options"]>;
type Asked<O extends Options> = Extract<ReturnType<typeof parseOptions<O & typeof help>>, { readonly ok: true }>["value"];

const help = { help: { type: "boolean" } } as const;

/** The same for a command with options: `--help` prints its usage, and arguments that cannot be used are refused. */
export function runAsAsked<const O extends Options>(usage: string, options: O, run: (asked: Asked<O>) => Promise<number>): Promise<void> {
  return runToExit(async (args) => {
    const parsed: Outcome<Asked<O>> = parseOptions(args, { ...options, ...help });
    if (!parsed.ok) return refuse(parsed.problems);
    if (!(parsed.value.values as { readonly help?: boolean }).help) return run(parsed.value);
    process.stdout.write(usage);
    return exitCodes.done;
  });
}

/** One line per problem on standard error. */
export function refuse(problems: readonly Problem[]): number {
  for (const problem of problems) tell(problem);
  return exitCodes.unusable;
}

/** What is wrong with the text as a whole has no entry for its place. */
export function inFile(file: string, problem: Problem): Problem {
  const name = file === "-" ? "standard input" : file;
  return { ...problem, at: problem.at === "" ? name : problem.at.replace(/^line \d+$/, `${name}, $&`) };
}

function tell(problem: Problem): void {
  process.stderr.write(`${describeProblem(problem)}\n`);
}
