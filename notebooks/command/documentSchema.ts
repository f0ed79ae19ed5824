import { toJsonSchema } from "@valibot/to-json-schema";
import { compactJson } from "../../lib/document/compactJson.ts";
import { strictSchema } from "../../lib/document/strictSchema.ts";

/**
 * The JSON Schema (draft 2020-12) of a saved setup, made from the schema that reads one, as text. What it cannot say: a name has no blanks at its
 * ends; what is left out takes its default. What every entry means says `lib/document/setupDocument.ts`.
 */
export function documentSchemaText(): string {
  const { $schema, ...schema } = toJsonSchema(strictSchema, {
    target: "draft-2020-12",
    typeMode: "input",
    ignoreActions: ["trim", "finite"],
  });
  return compactJson({ $schema, title: "A setup saved by Datumbook", ...schema });
}
