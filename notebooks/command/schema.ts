import { documentSchemaText } from "./documentSchema.ts";
import { resultsSchemaText } from "./resultsSchema.ts";
import { exitCodes, runAsAsked } from "./running.ts";

const usage = `Prints the JSON Schema (draft 2020-12) of a saved setup, or of its results.

  npm run --silent schema > setupDocument.schema.json
  npm run --silent schema -- --results > setupResults.schema.json

  --results  of what evaluate --json and export --format json print of one setup, and of the results of each operation
  --help     this text

The same texts lie in lib/document/setupDocument.schema.json and lib/record/setupResults.schema.json.
`;

await runAsAsked(usage, { results: { type: "boolean" } } as const, async ({ values }) => {
  process.stdout.write(values.results === true ? resultsSchemaText() : documentSchemaText());
  return exitCodes.done;
});
