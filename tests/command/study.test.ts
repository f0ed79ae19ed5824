import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, it, vi } from "vitest";
import { buildCommand, patience, runCommand } from "../support/runEvaluate.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const rail = join(root, "tests/documents/skewedRail.json");
const folder = mkdtempSync(join(tmpdir(), "datumbook-study-"));

vi.setConfig({ testTimeout: patience });
beforeAll(() => buildCommand("study"), patience);
afterAll(() => rmSync(folder, { recursive: true }));

const study = (...args: string[]) => runCommand("study", args);

it("study FILE tells the corrected results of the chosen strategy and whether first order holds, and ends with 0", () => {
  const { status, output, errors } = study(rail);
  expect({ status, errors }).toEqual({ status: 0, errors: [] });
  expect(output).toMatch(/zero X +-?\d/);
  expect(output).toMatch(/first order (holds|does not hold)/);
});

it("study FILE --trials N --json agrees with the corrected answer within five standard errors", () => {
  const corrected = JSON.parse(study(rail, "--json").output);
  const tried = JSON.parse(study(rail, "--json", "--trials", "20000").output);
  expect(tried.trials).toBe(20480);
  expect(tried.results.map(({ name }: { name: string }) => name)).toEqual(corrected.results.map(({ name }: { name: string }) => name));
  tried.results.forEach((result: Result, i: number) => {
    const { mean, standardDeviation } = corrected.results[i] as Result;
    expect(Math.abs(result.mean - mean)).toBeLessThan((5 * result.standardDeviation) / Math.sqrt(20480));
    expect(result.trials).toMatchObject({ count: 20480, failed: 0 });
    // Few degrees of freedom make the trials' standard deviation larger than the GUM's u, never smaller.
    expect(result.standardDeviation).toBeGreaterThan(0.95 * standardDeviation);
  });
});

interface Result {
  readonly mean: number;
  readonly standardDeviation: number;
  readonly trials: unknown;
}

it("shards under GNU parallel (xargs where it is not installed), put together, are one run to the last digit", () => {
  const whole = study(rail, "--trials", "8192", "--json");
  const command = `"${process.execPath}" "${root}.cache/command/study.mjs" "${rail}" --trials 8192 --shard {}/4 > "${folder}/part{}.json"`;
  const shards = "1\n2\n3\n4\n";
  const under =
    spawnSync("parallel", ["--version"]).status === 0
      ? ["parallel", "-j", "2", command]
      : ["xargs", "-P", "2", "-I{}", "sh", "-c", command];
  const [engine, ...rest] = under as [string, ...string[]];
  const ran = spawnSync(engine, rest, { input: shards, encoding: "utf8" });
  expect(ran.status).toBe(0);
  const parts = [3, 1, 4, 2].map((k) => join(folder, `part${k}.json`));
  const merged = study(rail, "--merge", "--json", ...parts);
  expect(merged).toEqual(whole);
});

it("parts of another setup, the same part twice and a file that is none are refused by name", () => {
  const part = join(folder, "one.json");
  writeFileSync(part, study(rail, "--trials", "2048", "--shard", "1/2").output);
  const other = study(join(root, "notebooks/demo/bearingCover.json"), "--merge", part);
  expect(other).toMatchObject({ status: 2, output: "" });
  expect(other.errors[0]).toContain(part);
  expect(study(rail, "--merge", part, part).errors[0]).toContain("not counted yet");
  expect(study(rail, "--merge", rail).errors[0]).toContain("not a file of trials");
});

it.each([
  [["--trials", "0"], "--trials"],
  [["--trials", "ten"], "--trials"],
  [["--shard", "1/2"], "--shard"],
  [["--trials", "1024", "--shard", "1/2"], "--shard"],
  [["--trials", "4096", "--shard", "3/2"], "--shard"],
  [["--until-steady", "--shard", "1/2"], "--shard"],
  [["--view", "side"], "--view"],
  [["--seed", "-1"], "--seed"],
  [["--strategy", "nobody"], "chosen"],
])("study FILE %j is refused with one line and status 2", (args, told) => {
  const { status, output, errors } = study(rail, ...args);
  expect({ status, output, count: errors.length }).toEqual({ status: 2, output: "", count: 1 });
  expect(errors[0]).toContain(told);
});

it("study --help tells the options, and ends with 0", () => {
  const { status, output } = study("--help");
  expect(status).toBe(0);
  expect(output).toContain("--until-steady");
});

it("study --trials that is asked to stop tells of the trials that it has counted, and a shard of them can be put together", async () => {
  // Before its first trials a signal ends it as usual: on a busy machine that may take a while.
  let [status, output, errors] = await stoppedAfter(3000);
  if (status === null) [status, output, errors] = await stoppedAfter(15_000);
  expect(status).toBe(0);
  const trials = Number(/rests on the (\d+) trials/.exec(errors)?.[1]);
  expect(trials).toBeGreaterThan(0);
  const part = join(folder, "stopped.json");
  writeFileSync(part, output);
  const merged = JSON.parse(study(rail, "--merge", "--json", part).output);
  expect(merged.trials).toBe(trials);
  // The same as so many trials that nobody stopped.
  expect(merged.results).toEqual(JSON.parse(study(rail, "--trials", String(trials), "--json").output).results);
});

function stoppedAfter(milliseconds: number): Promise<[status: number | null, output: string, errors: string]> {
  const run = spawn(process.execPath, [join(root, ".cache/command/study.mjs"), rail, "--trials", "2000000000", "--shard", "1/1"]);
  const [output, errors]: [string[], string[]] = [[], []];
  run.stdout.on("data", (chunk) => output.push(String(chunk)));
  run.stderr.on("data", (chunk) => errors.push(String(chunk)));
  setTimeout(() => run.kill("SIGINT"), milliseconds);
  return new Promise((resolve) => run.on("close", (status) => resolve([status, output.join(""), errors.join("")])));
}
