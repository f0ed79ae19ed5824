import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { budgetWorkbook } from "../../lib/exchange/budgetWorkbook.ts";
import { csvText } from "../../lib/exchange/csvText.ts";
import { dsiText } from "../../lib/exchange/dsiText.ts";
import { exchangedTables } from "../../lib/exchange/resultTables.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { demoEvaluation, demoFile } from "../exchange/demoEvaluations.ts";
import { buildCommand, patience, runCommand } from "../support/runEvaluate.ts";

const folder = mkdtempSync(join(tmpdir(), "export-"));
beforeAll(() => buildCommand("export"), patience);
afterAll(() => rmSync(folder, { recursive: true }));

const plate = demoFile("sawnPlate");
const run = (...args: string[]) => runCommand("export", args);

it("export writes what the library writes, in every format", () => {
  const evaluation = demoEvaluation("sawnPlate");
  expect(run(plate, "--format", "csv")).toEqual({ status: 0, errors: [], output: csvText(exchangedTables.results(evaluation)) });
  const comma = csvText(exchangedTables.budget(evaluation), { decimalMark: "," });
  expect(run(plate, "--format", "csv", "--table", "budget", "--decimal", "comma").output).toBe(comma);
  expect(run(plate, "--format", "dsi").output).toBe(dsiText(evaluation));
  expect(run(plate, "--format", "markdown").output.match(/^## /gm)).toHaveLength(4);
  expect(JSON.parse(run(plate, "--format", "json").output)).toEqual(JSON.parse(JSON.stringify(plainResults(evaluation))));
  const file = join(folder, "plate.xlsx");
  expect(run(plate, "--format", "xlsx", "--out", file)).toEqual({ status: 0, errors: [], output: "" });
  expect(new Uint8Array(readFileSync(file))).toEqual(budgetWorkbook(evaluation));
});

it("export writes over no file unless it is told to", () => {
  const file = join(folder, "there.csv");
  writeFileSync(file, "mine");
  expect(run(plate, "--format", "csv", "--out", file)).toMatchObject({
    status: 2,
    errors: [expect.stringContaining("there is such a file already")],
  });
  expect(readFileSync(file, "utf8")).toBe("mine");
  expect(run(plate, "--format", "csv", "--out", file, "--replace").status).toBe(0);
  expect(readFileSync(file, "utf8")).toMatch(/^result,unit,/);
});

it("export refuses what it does not know, at its place, and writes nothing", () => {
  const file = join(folder, "none.csv");
  expect(run(plate, "--out", file)).toMatchObject({ status: 2, errors: [expect.stringContaining("--format: this is not stated")] });
  expect(run(plate, "--format", "toString")).toMatchObject({ status: 2, errors: [expect.stringContaining("there is no such choice")] });
  const broken = join(folder, "broken.json");
  writeFileSync(broken, readFileSync(plate, "utf8").replace(/"readings": "[^"]*"/, '"readings": "far"'));
  expect(run(broken, "--format", "csv", "--out", file)).toMatchObject({
    status: 2,
    output: "",
    errors: [expect.stringContaining("readings"), ...[]],
  });
  expect(existsSync(file)).toBe(false);
});
