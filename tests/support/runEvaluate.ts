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

/** Builds the command line where it is older than its sources, as `npm run evaluate` does. */
export function buildEvaluate(): void {
  const { status, stderr } = spawnSync(process.execPath, [`${root}.ci/evaluate.mjs`, "--help"], { encoding: "utf8" });
  if (status !== 0) throw new Error(stderr);
}

/** Runs the built command line in a process of its own. */
export function runEvaluate(args: readonly string[], input: string | Buffer = ""): CommandResult {
  const { status, stdout, stderr } = spawnSync(process.execPath, [`${root}.cache/command/evaluate.mjs`, ...args], {
    encoding: "utf8",
    input,
    maxBuffer: 64_000_000,
  });
  return { status, output: stdout, errors: stderr.split("\n").filter((line) => line !== "") };
}
