import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** A process under a busy machine; what is tested here takes a fifth of a second. */
export const patience = 60_000;

export interface CommandResult {
  readonly status: number | null;
  readonly output: string;
  /** Lines on standard error. */
  readonly errors: readonly string[];
}

/** Builds a command where it is older than its sources, as `npm run evaluate` and `npm run study` do. */
export function buildCommand(name: CommandName): void {
  const { status, stderr } = spawnSync(process.execPath, [`${root}.ci/command.mjs`, name, "--help"], { encoding: "utf8" });
  if (status !== 0) throw new Error(stderr);
}

export function buildEvaluate(): void {
  buildCommand("evaluate");
}

export function runEvaluate(args: readonly string[], input: string | Buffer = ""): CommandResult {
  return runCommand("evaluate", args, input);
}

type CommandName = "evaluate" | "study" | "compare" | "improve" | "offsets" | "export" | "import" | "record" | "rationale" | "schema";

/** Runs a built command in a process of its own. */
export function runCommand(name: CommandName, args: readonly string[], input: string | Buffer = ""): CommandResult {
  const { status, stdout, stderr } = spawnSync(process.execPath, [`${root}.cache/command/${name}.mjs`, ...args], {
    encoding: "utf8",
    input,
    maxBuffer: 64_000_000,
  });
  return { status, output: stdout, errors: stderr.split("\n").filter((line) => line !== "") };
}
