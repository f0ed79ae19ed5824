import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));

export interface CommandResult {
  readonly status: number | null;
  readonly output: string;
  /** Lines on standard error. */
  readonly errors: readonly string[];
}

/** `node .ci/evaluate.mjs` with these arguments, as `npm run evaluate` starts it; built when it is older than its sources. */
export function runEvaluate(args: readonly string[], input: string | Buffer = ""): CommandResult {
  const { status, stdout, stderr } = spawnSync(process.execPath, [`${root}.ci/evaluate.mjs`, ...args], {
    encoding: "utf8",
    input,
    env: { ...process.env, INIT_CWD: root },
    maxBuffer: 64_000_000,
  });
  return { status, output: stdout, errors: stderr.split("\n").filter((line) => line !== "") };
}
