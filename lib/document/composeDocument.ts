import { currentVersion, type SetupDocument } from "./setupDocument.ts";

/** What a person states: a document without the words that only a file needs, and without its past. */
export type DocumentSections = Omit<SetupDocument, "format" | "version" | "revisions">;

/** The document that consists of these sections, its keys in the order in which it is saved, without revisions: they are nobody's input. */
export function composeDocument(sections: DocumentSections): SetupDocument {
  const {
    title,
    note,
    revision,
    unit,
    part,
    tools,
    spacers,
    machine,
    workFrames,
    touches,
    strategies,
    chosen,
    decision,
    ledger,
    whatIf,
    sampling,
  } = sections;
  return {
    format: "datumbook",
    version: currentVersion,
    title,
    note,
    revision,
    unit,
    part,
    tools,
    spacers,
    machine,
    workFrames,
    touches,
    strategies,
    chosen,
    decision,
    ledger,
    whatIf,
    sampling,
    revisions: [],
  };
}
