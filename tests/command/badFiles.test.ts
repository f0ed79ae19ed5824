import { closeSync, ftruncateSync, mkdtempSync, openSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it, vi } from "vitest";
import { openJob } from "../documents/openJob.ts";
import { buildEvaluate, patience, runEvaluate } from "../support/runEvaluate.ts";

const folder = mkdtempSync(join(tmpdir(), "datumbook-files-"));

vi.setConfig({ testTimeout: patience });
beforeAll(buildEvaluate, patience);
afterAll(() => rmSync(folder, { recursive: true }));

function written(name: string, content: string | Buffer): string {
  const file = join(folder, name);
  writeFileSync(file, content);
  return file;
}

function expectRefused(file: string, told: string, input: string | Buffer = ""): void {
  const { status, output, errors } = runEvaluate([file], input);
  expect({ status, output, count: errors.length }).toEqual({ status: 2, output: "", count: 1 });
  expect(errors[0]).toContain(told);
}

it("a file that is not there is refused by name", () => {
  expectRefused(join(folder, "missing.json"), `${join(folder, "missing.json")}: there is no such file`);
});

it("a folder is refused", () => {
  expectRefused(folder, "this is a folder");
});

it("a file of 50 MB is refused unread", () => {
  const file = join(folder, "large.json");
  const descriptor = openSync(file, "w");
  ftruncateSync(descriptor, 50_000_000);
  closeSync(descriptor);
  expectRefused(file, 'this is longer than any setup; expected at most 20000000 bytes, got "50000000 bytes"');
});

it("standard input of more than 20 MB is refused", () => {
  expectRefused("-", "standard input: this is longer than any setup", Buffer.alloc(20_000_001, " "));
});

it.each([
  ["an empty file", "", "the file is empty"],
  ["blanks", "  \n", "the file is empty"],
  ["a text", "left edge -412.607\n", "the text is not JSON"],
  ["half a document", JSON.stringify(openJob("pinBlock")).slice(0, 700), "the text is not JSON"],
  ["a list that is not closed", '{ "format": "datumbook",\n"touches": [1 }', "line 2: the text is not JSON"],
  ["NaN where JSON has no such word", '{ "format": "datumbook",\n"version": NaN }', "the text is not JSON"],
  ["a list", "[1, 2]", "this is not a setup; expected a JSON object with format and version"],
  ["null", "null", "this is not a setup"],
  ["text that is not UTF-8", Buffer.from([0x7b, 0xff, 0x7d]), "this is not text in UTF-8"],
  ["UTF-16", Buffer.from("\uFEFF{}", "utf16le"), "this is not text in UTF-8"],
  ["brackets without end", "[".repeat(200_000), "the text is not JSON"],
])("%s is refused with one line that names the file", (name, content, told) => {
  const file = written(`${name}.json`, content);
  const { status, output, errors } = runEvaluate([file]);
  expect({ status, output, count: errors.length }).toEqual({ status: 2, output: "", count: 1 });
  expect(errors[0]?.startsWith(file)).toBe(true);
  expect(errors[0]).toContain(told);
});
