import { spawn, spawnSync } from "node:child_process";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import type { NotRun, SelfTimed } from "./benchmark.ts";
import type { ModelDescription } from "./models.ts";

export type NumpyRequest = {
  readonly model: ModelDescription;
  /** How many, or at most. */
  readonly trials: number;
} & ({ readonly do: "trials" } | { readonly do: "until steady" /** Of the numerical tolerance. */; readonly share: number });

/** Numpy in a fresh process with one thread, which times its own work; not run where there is no python3 with numpy. */
export function numpySide(request: NumpyRequest): SelfTimed | NotRun {
  if (spawnSync("python3", ["-c", "import numpy"]).status !== 0) return { notRun: "no python3 with numpy" };
  // Built, the benchmarks run from `.cache/bench`; the root is where npm starts them.
  const program = fileURLToPath(new URL("tests/bench/numpyTrials.py", `file://${process.cwd()}/`));
  const env = { ...process.env, OMP_NUM_THREADS: "1", OPENBLAS_NUM_THREADS: "1", MKL_NUM_THREADS: "1" };
  const child = spawn("python3", [program], { env, stdio: ["pipe", "pipe", "inherit"] });
  const answers = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  let seed = 0;
  let told = "";
  return {
    async measure() {
      seed += 1;
      child.stdin.write(`${JSON.stringify({ ...request, seed })}\n`);
      const { value, done } = await answers.next();
      if (done) throw new Error("numpyTrials.py: expected an answer, got the end of the process");
      const { ms, trials } = JSON.parse(value) as { readonly ms: number; readonly trials?: number };
      if (trials !== undefined) told = `${trials.toExponential(2)} trials in the last round`;
      return ms;
    },
    note: () => told,
    close: () => void child.stdin.end(),
  };
}
