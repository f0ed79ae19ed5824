import { documentSchemaText } from "./documentSchema.ts";
import { exitCodes, runToExit } from "./running.ts";

const usage = `Prints the JSON Schema (draft 2020-12) of a saved setup.

  npm run --silent schema > setupDocument.schema.json

The same text lies in lib/document/setupDocument.schema.json.
`;

await runToExit(async (args) => {
  process.stdout.write(args.includes("--help") ? usage : documentSchemaText());
  return exitCodes.done;
});
