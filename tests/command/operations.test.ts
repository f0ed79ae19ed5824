import { beforeAll, expect, it, vi } from "vitest";
import { documentText } from "../../lib/document/documentText.ts";
import schema from "../../lib/record/operationsResults.schema.json" with { type: "json" };
import { turnedPlate } from "../acceptance/turnedPlate.ts";
import { validator } from "../record/schemaValidator.ts";
import { buildEvaluate, patience, runEvaluate } from "../support/runEvaluate.ts";

vi.setConfig({ testTimeout: patience });
beforeAll(buildEvaluate, patience);

const plate = documentText(turnedPlate());

it("a part with several operations is told finished first, then operation by operation", () => {
  const { status, output, errors } = runEvaluate(["-"], plate);
  expect(errors).toEqual([]);
  expect(status).toBe(0);
  expect(output.indexOf("The finished part: operation 10")).toBeGreaterThanOrEqual(0);
  expect(output).toMatch(/hole on bore\s+20/);
  for (const operation of ["Operation 10", "Operation 20"]) expect(output).toContain(operation);
});

it("as JSON, with every operation's results", () => {
  const { output } = runEvaluate(["-", "--json"], plate);
  const results = JSON.parse(output);
  expect(results.format).toBe("datumbook results of operations");
  expect(validator(schema)(results)).toBe(true);
  expect(results.operations.map(({ id }: { id: string }) => id)).toEqual(["10", "20"]);
  expect(results.finished.batch.characteristics.map(({ operation }: { operation: string }) => operation)).toEqual([
    "10",
    "20",
    "20",
    "20",
    "20",
  ]);
});

it("many at once, a line for each", () => {
  const { output } = runEvaluate(["--each", "-"], JSON.stringify(JSON.parse(plate)));
  const [line] = output.split("\n");
  expect(Object.keys(JSON.parse(line ?? "").finished.thisPart.chances)).toHaveLength(5);
});

it("what cannot be used is told once, at its place", () => {
  const document = turnedPlate();
  const lost = { ...document, touches: document.touches.map((each) => (each.id === "left 10" ? { ...each, operation: "11" } : each)) };
  const { status, errors } = runEvaluate(["-"], documentText(lost));
  expect(status).toBe(2);
  expect(errors.filter((line) => line.includes("touches.left 10.operation"))).toHaveLength(1);
});
