import { documentSchemaText } from "./documentSchema.ts";
import { operationsSchemaText, resultsSchemaText } from "./resultsSchema.ts";
import { exitCodes, refuse, runAsAsked } from "./running.ts";

const usage = `Prints the JSON Schema (draft 2020-12) of a saved setup, or of its results.

  npm run --silent schema > setupDocument.schema.json
  npm run --silent schema -- --results > setupResults.schema.json
  npm run --silent schema -- --operations > operationsResults.schema.json

  --results     of what evaluate --json and export --format json print of one setup, and of the results of each operation
  --operations  of what evaluate --json prints of a part with several operations: the finished part, and those results
  --help        this text

The same texts lie in lib/document/setupDocument.schema.json, lib/record/setupResults.schema.json and
lib/record/operationsResults.schema.json.
`;

await runAsAsked(usage, { results: { type: "boolean" }, operations: { type: "boolean" } } as const, async ({ values }) => {
  if (values.results === true && values.operations === true)
    return refuse([{ at: "arguments", what: "one schema is printed at a time", expected: "--results or --operations, or neither" }]);
  process.stdout.write(
    values.results === true ? resultsSchemaText() : values.operations === true ? operationsSchemaText() : documentSchemaText(),
  );
  return exitCodes.done;
});
