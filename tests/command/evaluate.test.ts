import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, it, vi } from "vitest";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { evaluateJob, openJob } from "../documents/openJob.ts";
import { buildEvaluate, patience, runEvaluate } from "../support/runEvaluate.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const rail = join(root, "tests/documents/skewedRail.json");
const folder = mkdtempSync(join(tmpdir(), "datumbook-command-"));

vi.setConfig({ testTimeout: patience });
beforeAll(buildEvaluate, patience);
afterAll(() => rmSync(folder, { recursive: true }));

it("evaluate FILE prints the summary of the library and ends with 0", () => {
  const { status, output, errors } = runEvaluate([rail]);
  expect({ status, errors }).toEqual({ status: 0, errors: [] });
  expect(output).toBe(summaryText(evaluateJob(openJob("skewedRail"))));
});

it("evaluate FILE --json prints the results of the library and nothing else", () => {
  const { status, output, errors } = runEvaluate([rail, "--json"]);
  expect({ status, errors }).toEqual({ status: 0, errors: [] });
  expect(JSON.parse(output)).toEqual(plainResults(evaluateJob(openJob("skewedRail"))));
});

it("npm run --silent evaluate -- FILE --json leaves standard output to the results", () => {
  const npm = process.platform === "win32" ? "npm.cmd" : "npm";
  const { status, stdout } = spawnSync(npm, ["run", "--silent", "evaluate", "--", rail, "--json"], { cwd: root, encoding: "utf8" });
  expect(status).toBe(0);
  expect(JSON.parse(stdout)).toMatchObject({ format: "datumbook results", version: 1 });
});

it("evaluate - reads standard input, with or without a byte order mark", () => {
  const text = JSON.stringify(openJob("skewedRail"));
  const plain = runEvaluate(["-"], text);
  expect(plain.status).toBe(0);
  expect(runEvaluate(["-"], `\uFEFF${text}`)).toEqual(plain);
});

it("evaluate FILE --strategy NAME tells of that strategy alone, in the summary and in JSON", () => {
  const { output } = runEvaluate([rail, "--strategy", "as it lies"]);
  expect(output).toContain('Zero by "as it lies"');
  expect(output).not.toContain('Zero by "turned"');
  const { strategies } = JSON.parse(runEvaluate([rail, "--strategy", "as it lies", "--json"]).output);
  expect(strategies.map(({ id }: { id: string }) => id)).toEqual(["as it lies"]);
});

it("evaluate FILE --unit mm shows an inch job in millimetres", () => {
  // The far touch finds its face one radius further: (-6.9970 + 0.1) in · 25.4 mm/in = -175.18380 mm (NIST SP 811: 1 in = 25.4 mm).
  expect(runEvaluate([rail, "--unit", "mm"]).output).toMatch(/far +long edge +Y +-175\.1838 /);
  expect(runEvaluate([rail]).output).toMatch(/far +long edge +Y +-6\.89700 /);
});

it("evaluate --help tells the options and exit statuses, and ends with 0", () => {
  const { status, output, errors } = runEvaluate(["--help"]);
  expect({ status, errors }).toEqual({ status: 0, errors: [] });
  for (const told of ["--json", "--strategy", "--unit", "--keep-going", "Exit status 0", "2", "70"]) expect(output).toContain(told);
});

it("evaluate FILE --keep-going prints what is known beside the problems, and still ends with 2", () => {
  const job = openJob("skewedRail");
  job["chosen"] = "";
  job["strategies"][0].touches = ["near", "nowhere"];
  const file = join(folder, "partly.json");
  writeFileSync(file, JSON.stringify(job));
  const silent = runEvaluate([file]);
  expect(silent).toEqual({ status: 2, output: "", errors: ['strategies.as it lies.touches: there is no such touch; got "nowhere".'] });
  const { status, output, errors } = runEvaluate([file, "--keep-going"]);
  expect({ status, errors }).toEqual({ status: 2, errors: silent.errors });
  expect(output).toContain('Zero by "turned"');
  const results = JSON.parse(runEvaluate([file, "--keep-going", "--json"]).output);
  expect(results.problems.map(({ line }: { line: string }) => line)).toEqual(silent.errors);
});

it("evaluate FILE ends quietly when the reader of its output has seen enough", () => {
  const { stderr } = spawnSync("sh", ["-c", `"${process.execPath}" "${root}.ci/command.mjs" evaluate "${rail}" --json | head -c 10`], {
    encoding: "utf8",
  });
  expect(stderr).toBe("");
});

it.each([
  [["--nonsense", rail], "arguments: Unknown option '--nonsense'. See --help."],
  [["--strategy"], "arguments: Option '--strategy <value>' argument missing. See --help."],
  [
    [],
    "arguments: one file is evaluated at a time, or many with --each; expected the path of a saved setup, or -, got nothing. See --help.",
  ],
  [[rail, rail], "arguments: one file is evaluated at a time"],
  [[rail, "--unit", "furlong"], '--unit: there is no such unit; expected mm or inch, got "furlong".'],
  [[rail, "--strategy", "nobody's"], '--strategy: there is no strategy by this name; expected "as it lies" or "turned", got "nobody\'s".'],
])("evaluate %j is refused with one line, and ends with 2", (args, line) => {
  const { status, output, errors } = runEvaluate(args);
  expect({ status, output, count: errors.length }).toEqual({ status: 2, output: "", count: 1 });
  expect(errors[0]).toContain(line);
});

it("evaluate --each FILES prints a line of JSON per document, and goes on after one that cannot be used", () => {
  const missing = join(folder, "missing.json");
  const { status, output } = runEvaluate(["--each", rail, missing, rail]);
  const lines = output
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line));
  expect(status).toBe(2);
  expect(lines.map(({ document }) => document)).toEqual([rail, missing, rail]);
  expect(lines[1].problems).toEqual([`${missing}: there is no such file; expected a file that can be read.`]);
  const whole = plainResults(evaluateJob(openJob("skewedRail")));
  expect(lines[0].strategies.map(({ id }: { id: string }) => id)).toEqual(whole.ranking);
  const [brief, full] = [lines[0].strategies[0], whole.strategies[0]] as [Plain, Plain];
  expect(brief.zero.X.value).toBe(full.zero.X.value);
  expect(lines[2]).toEqual(lines[0]);
});

interface Plain {
  readonly zero: { readonly X: { readonly value: number } };
}

it("evaluate --each - reads one document per line of standard input, and gives equal ones equal results", () => {
  const line = `${JSON.stringify(openJob("skewedRail"))}\n`;
  const { status, output, errors } = runEvaluate(["--each", "-"], line.repeat(300));
  expect({ status, errors }).toEqual({ status: 0, errors: [] });
  const lines = output.trimEnd().split("\n");
  expect(lines).toHaveLength(300);
  const results = lines.map((text) => ({ ...JSON.parse(text), document: "" }));
  expect(new Set(results.map((result) => JSON.stringify(result))).size).toBe(1);
});

it("evaluate --each - takes the memory of one document, however many come", () => {
  // Each is a million characters long: together more than the memory that the process gets.
  const job = openJob("skewedRail");
  job["touches"][0].note = "x".repeat(1_000_000);
  const command = ["--max-old-space-size=40", `${root}.cache/command/evaluate.mjs`, "--each", "-"];
  const { status, stdout } = spawnSync(process.execPath, command, {
    input: `${JSON.stringify({ ...job, sampling: { trials: 64, seed: 1 } })}\n`.repeat(80),
    encoding: "utf8",
    maxBuffer: 64_000_000,
  });
  expect(status).toBe(0);
  expect(stdout.trimEnd().split("\n")).toHaveLength(80);
});
