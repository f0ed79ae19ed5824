import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateOperations } from "../../lib/evaluateOperations.ts";
import schema from "../../lib/record/operationsResults.schema.json" with { type: "json" };
import { plainOperations } from "../../lib/record/plainOperations.ts";
import { operationsSchemaText } from "../../notebooks/command/resultsSchema.ts";
import { turnedPlate } from "../acceptance/turnedPlate.ts";
import { demoOf } from "../exchange/demoEvaluations.ts";
import { closed, entriesNotNeeded, validator } from "./schemaValidator.ts";

it("the published JSON Schema of the results of operations is the one that the code describes them by (npm run --silent schema -- --operations prints it)", () => {
  expect(readFileSync(new URL("../../lib/record/operationsResults.schema.json", import.meta.url), "utf8")).toBe(operationsSchemaText());
});

const keeps = validator(schema);
const keepsClosed = validator(closed(schema) as object);

/** What a reader of JSON gets. */
function resultsOf(document: SetupDocument) {
  const operated = evaluateOperations(document);
  if (operated === undefined) throw new Error("the part has one operation");
  const results = plainOperations(document.title, operated.operations, operated.finished);
  return JSON.parse(JSON.stringify(results)) as typeof results;
}

const both = demoOf("bothSides");

/** One characteristic whose tolerance is no tolerance, so that it has problems in the place of a result. */
const unread: SetupDocument = {
  ...both,
  part: {
    ...both.part,
    characteristics: both.part.characteristics.map((each, i) => (i === 0 ? { ...each, tolerance: "none of these" } : each)),
  },
};

/** A touch without its reading, so that nothing is known of this part. */
const planned: SetupDocument = { ...both, touches: both.touches.map((touch, i) => (i === 0 ? { ...touch, readings: "" } : touch)) };

const documents: readonly (readonly [string, SetupDocument])[] = [
  ["the demo job", both],
  ["a plate turned over", turnedPlate()],
  ["a tolerance that cannot be read", unread],
  ["a touch that is still planned", planned],
];

describe.each(documents)("the results of the operations of %s", (_, document) => {
  it("are as the published JSON Schema says, and have no entry that it does not name", () => {
    const results = resultsOf(document);
    expect(results.operations.map(({ id }) => id)).toEqual(document.operations.map(({ id }) => id));
    expect(results.finished.batch.characteristics.length).toBeGreaterThan(0);
    expect([keeps(results), keeps.errors]).toEqual([true, null]);
    expect([keepsClosed(results), keepsClosed.errors]).toEqual([true, null]);
  });
});

it("results of operations that have problems in the place of a characteristic are among those", () => {
  expect(resultsOf(unread).finished.batch.characteristics.filter((each) => "problems" in each).length).toBeGreaterThan(0);
  expect(resultsOf(planned).finished.thisPart.chanceOfAll).toHaveProperty("problems");
});

it("results of operations that lack an entry, or have another kind of value in its place, are refused by the JSON Schema", () => {
  const results = resultsOf(both) as unknown as Record<string, unknown>;
  expect(Object.keys(results).length).toBeGreaterThan(3);
  expect(entriesNotNeeded(results, keeps)).toEqual([]);
  const text = JSON.stringify(results);
  for (const [from, to] of [
    ['"chanceOfAll":{"chance"', '"chanceOfAll":{"chances"'],
    ['"operation":', '"operations ":'],
    ['"rootSumSquare":', '"sum":'],
    ['"format":"datumbook results"', '"format":"results"'],
    ['"results":', '"result":'],
  ] as const)
    expect([from, text.includes(from), keeps(JSON.parse(text.replace(from, to)))]).toEqual([from, true, false]);
});
