import { toJsonSchema } from "@valibot/to-json-schema";
import type * as v from "valibot";
import { compactJson } from "../../lib/document/compactJson.ts";
import { operationsDefinitions, operationsSchema, resultsDefinitions, resultsSchema } from "../../lib/record/resultsSchema.ts";

/** The JSON Schema (draft 2020-12) of the results of one setup, or of one operation, as text: of what `plainResults` gives. */
export function resultsSchemaText(): string {
  return schemaText("Results of a setup by Datumbook", resultsSchema, resultsDefinitions);
}

/** The same of the results of a part with several operations, the finished part first: of what `plainOperations` gives. */
export function operationsSchemaText(): string {
  return schemaText("Results of a part with several operations by Datumbook", operationsSchema, operationsDefinitions);
}

function schemaText(title: string, of: v.GenericSchema, definitions: Readonly<Record<string, v.GenericSchema>>): string {
  const { $schema, ...schema } = toJsonSchema(of, { target: "draft-2020-12", definitions });
  const description =
    "Lengths in mm and angles in rad unless a unit stands beside the number. Where a result is not known its place holds the problems. A number without end is a text, what does not apply is null. Entries may be added within a version.";
  return compactJson({ $schema, title, description, ...schema });
}
