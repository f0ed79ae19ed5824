import { toJsonSchema } from "@valibot/to-json-schema";
import { compactJson } from "../../lib/document/compactJson.ts";
import { resultsDefinitions, resultsSchema } from "../../lib/record/resultsSchema.ts";

/** The JSON Schema (draft 2020-12) of the results of one setup, or of one operation, as text: of what `plainResults` gives. */
export function resultsSchemaText(): string {
  const { $schema, ...schema } = toJsonSchema(resultsSchema, { target: "draft-2020-12", definitions: resultsDefinitions });
  const description =
    "Lengths in mm and angles in rad unless a unit stands beside the number. Where a result is not known its place holds the problems. A number without end is a text, what does not apply is null. Entries may be added within a version.";
  return compactJson({ $schema, title: "Results of a setup by Datumbook", description, ...schema });
}
