import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { beforeAll, expect, it } from "vitest";
import { buildCommand, patience, runCommand } from "../support/runEvaluate.ts";

const demo = fileURLToPath(new URL("../../notebooks/demo/bearingCover.json", import.meta.url));

beforeAll(() => buildCommand("improve"), patience);

it("`improve FILE` prints what would help; `--json` the same as data", { timeout: patience }, () => {
  const text = runCommand("improve", [demo, "--strategy", "bore"]);
  expect([text.status, text.errors]).toEqual([0, []]);
  expect(text.output).toContain('What would help "bore" for this part');
  const { status, output } = runCommand("improve", [demo, "--view", "batch", "--chance", "95 %", "--json"]);
  expect(status).toBe(0);
  const found = JSON.parse(output);
  expect(found).toMatchObject({ strategy: "bore, turned to front", view: "batch", wantedChance: 0.95 });
  expect(found.strategies.determined).toBeLessThanOrEqual(found.strategies.candidates);
});

it("`improve` refuses what it cannot use, with one line and status 2", { timeout: patience }, () => {
  const refused = (...args: string[]) => {
    const { status, output, errors } = runCommand("improve", args);
    expect([status, output, errors.length]).toEqual([2, "", 1]);
    return errors[0] as string;
  };
  expect(refused(demo, "--chance", "40")).toContain("per cent above 50 and below 100");
  expect(refused(demo, "--view", "tomorrow")).toContain("this-part or batch");
  expect(refused(demo, "--strategy", "none")).toContain('"bore"');
  expect(refused()).toContain("one setup is looked at at a time");
  const half = JSON.parse(readFileSync(demo, "utf8"));
  half.touches[0].readings = "a lot";
  const { status, output, errors } = runCommand("improve", ["-"], JSON.stringify(half));
  expect([status, output]).toEqual([2, ""]);
  expect(errors.join("\n")).toContain(`touches.${half.touches[0].id}.readings`);
  expect(refused("/no/such/file.json")).toContain("/no/such/file.json");
});
