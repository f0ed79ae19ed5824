import * as v from "valibot";
import { currentVersion, type SetupDocument, setupDocumentSchema } from "./setupDocument.ts";

/** A setup in which nothing is stated yet. */
export function newDocument(unit: SetupDocument["unit"] = "mm"): SetupDocument {
  return v.parse(setupDocumentSchema, {
    format: "datumbook",
    version: currentVersion,
    unit,
    part: { elements: [] },
    tools: [],
    touches: [],
    strategies: [],
  });
}
