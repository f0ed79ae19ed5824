import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { documentSchemaText } from "../../notebooks/command/documentSchema.ts";

it("the published JSON Schema is the one that the code reads by (npm run --silent schema prints it)", () => {
  expect(readFileSync(new URL("../../lib/document/setupDocument.schema.json", import.meta.url), "utf8")).toBe(documentSchemaText());
});
