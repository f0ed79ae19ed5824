import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { newDocument } from "../../lib/document/newDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateOperations } from "../../lib/evaluateOperations.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import schema from "../../lib/record/setupResults.schema.json" with { type: "json" };
import { resultsSchemaText } from "../../notebooks/command/resultsSchema.ts";
import { openJob } from "../documents/openJob.ts";
import { demoNames, demoOf, documentOf, fewRepeats } from "../exchange/demoEvaluations.ts";
import { closed, entriesNotNeeded, validator } from "./schemaValidator.ts";

it("the published JSON Schema of the results is the one that the code describes them by (npm run --silent schema -- --results prints it)", () => {
  expect(readFileSync(new URL("../../lib/record/setupResults.schema.json", import.meta.url), "utf8")).toBe(resultsSchemaText());
});

const keeps = validator(schema);
const keepsClosed = validator(closed(schema) as object);

/** What a reader of JSON gets, of every operation where there are several. */
function resultsOf(document: SetupDocument): object[] {
  const evaluations = evaluateOperations(document)?.operations ?? [evaluateSetup(document)];
  return evaluations.map((evaluation) => JSON.parse(JSON.stringify(plainResults(evaluation))));
}

const jobs = readdirSync(new URL("../documents/", import.meta.url)).filter((name) => name.endsWith(".json"));
const read = (name: string) => documentOf(JSON.parse(readFileSync(new URL(`../documents/${name}`, import.meta.url), "utf8")));

/** With one of everything that the jobs do not state. */
const furnished = documentOf({
  ...openJob("pinBlock"),
  version: 2,
  ledger: [
    { kind: "cell", id: "shim", entry: "12.5 mm ± 0.004 mm" },
    { kind: "cell", id: "bent", entry: "(shim - 12.5 mm)^2" },
    { kind: "cell", id: "heights", entry: "20.012; 20.014 | 20.019; 20.018 mm" },
    { kind: "cell", id: "wrong", entry: "shim +" },
    { kind: "table", id: "gauge", columns: [{ id: "length" }], rows: [["5 mm ± 0.001 mm"], [""]] },
  ],
});

const documents: readonly (readonly [string, () => SetupDocument])[] = [
  ...demoNames.map((name) => [name, () => demoOf(name)] as const),
  ...jobs.map((name) => [name, () => read(name)] as const),
  ["few repeats", () => fewRepeats],
  ["cells of a person's own", () => furnished],
  ["nothing but a title", newDocument],
];

describe.each(documents)("the results of %s", (_, open) => {
  it("are as the published JSON Schema says, and have no entry that it does not name", () => {
    const all = resultsOf(open());
    expect(all.length).toBeGreaterThan(0);
    for (const results of all) {
      expect([keeps(results), keeps.errors]).toEqual([true, null]);
      expect([keepsClosed(results), keepsClosed.errors]).toEqual([true, null]);
    }
  });
});

it("results that lack an entry, or have another kind of value in its place, are refused by the JSON Schema", () => {
  const [results = {}] = resultsOf(fewRepeats) as Record<string, unknown>[];
  expect(Object.keys(results).length).toBeGreaterThan(3);
  expect(entriesNotNeeded(results, keeps)).toEqual([]);
  const text = JSON.stringify(results);
  for (const [from, to] of [
    ['"standardUncertainty":', '"standardUncertainty":"'],
    ['"coverageFactor":', '"coverage":'],
    ['"sensitivity":', '"sensitivities":'],
    ['"shape":"normal"', '"shape":"gaussian"'],
    ['"line":', '"lines":'],
  ] as const) {
    const spoilt = text.replace(from, to).replace(/"standardUncertainty":"([^,}]*)/, '"standardUncertainty":"$1"');
    expect([from, spoilt === text, keeps(JSON.parse(spoilt))]).toEqual([from, false, false]);
  }
});
