import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it, vi } from "vitest";
import { buildCommand, patience, runCommand } from "../support/runEvaluate.ts";

vi.setConfig({ testTimeout: patience });
const folder = mkdtempSync(join(tmpdir(), "datumbook-"));
afterAll(() => rmSync(folder, { recursive: true }));
const sample = "tests/document/samples/version2/bearingCover.json";
const other = join(folder, "other.json");
beforeAll(() => {
  buildCommand("compare");
  buildCommand("schema");
  const document = JSON.parse(readFileSync(sample, "utf8"));
  document.touches[0].readings = "-290.388";
  writeFileSync(other, JSON.stringify(document));
}, patience);

it("compare A B tells what changed and what that does, and ends with 0", () => {
  const { status, output, errors } = runCommand("compare", [sample, other]);
  expect({ status, errors }).toEqual({ status: 0, errors: [] });
  expect(output).toContain('readings of touch "b1" from "-290.398 -290.396" to "-290.388" (mean +0.009 mm)');
  // The middle of two opposite touches follows one of them by half: 0.0045.
  expect(output).toMatch(/What that does\n {2}- zero X moved \+0\.0045 mm/);
  const { entries, results } = JSON.parse(runCommand("compare", [sample, other, "--json"]).output);
  expect(entries).toEqual([{ at: "touches.b1", sentence: expect.stringContaining("readings of touch") }]);
  expect(results.length).toBeGreaterThan(1);
});

it("compare A A tells that nothing differs", () => {
  expect(runCommand("compare", [sample, sample])).toEqual({ status: 0, output: "Nothing differs.\n", errors: [] });
});

it("compare A --revision N tells the way from that revision to what is stated now", () => {
  expect(runCommand("compare", [sample, "--revision", "2"]).output).toBe("Nothing differs.\n");
  expect(runCommand("compare", [sample, "--revision", "1"]).output).toContain('from "-290.388 -290.391" to "-290.398 -290.396"');
});

it.each([
  [["A.json"], "arguments: two setups are compared at a time"],
  [[sample, "missing.json"], "missing.json: there is no such file"],
  [[sample, "--revision", "3"], '--revision: there is no such revision; expected 1 to 2, got "3".'],
  [[sample, "package.json"], "package.json: format: this is not a Datumbook setup"],
])("compare %j is refused", (args, told) => {
  const { status, output, errors } = runCommand("compare", args);
  expect({ status, output, lines: errors.length }).toEqual({ status: 2, output: "", lines: 1 });
  expect(errors[0]).toContain(told);
});

it("schema prints the published JSON Schemas", () => {
  expect(runCommand("schema", []).output).toBe(readFileSync("lib/document/setupDocument.schema.json", "utf8"));
  expect(runCommand("schema", ["--results"]).output).toBe(readFileSync("lib/record/setupResults.schema.json", "utf8"));
  expect(runCommand("schema", ["--operations"]).output).toBe(readFileSync("lib/record/operationsResults.schema.json", "utf8"));
  expect(runCommand("schema", ["--help"]).output).toContain("--operations");
  expect(runCommand("schema", ["--results", "--operations"])).toMatchObject({ status: 2, output: "" });
  expect(runCommand("schema", ["--result"])).toMatchObject({ status: 2, output: "" });
});
