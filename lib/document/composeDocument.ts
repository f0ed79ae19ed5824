import { currentVersion, type SetupDocument } from "./setupDocument.ts";

/** What a person states: a document without the words that only a file needs, and without its past. */
export type DocumentSections = Omit<SetupDocument, "format" | "version" | "revisions">;

/** The document that consists of these sections, without revisions: they are nobody's input. Its text has an order of its own (`documentText`). */
export function composeDocument(sections: DocumentSections): SetupDocument {
  return { format: "datumbook", version: currentVersion, ...sections, revisions: [] };
}
