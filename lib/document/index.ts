// The saved setup: its text, the door from text, and the states that it remembers.

export { documentText } from "./documentText.ts";
export { newDocument } from "./newDocument.ts";
export { checkDocument, parseDocument } from "./parseDocument.ts";
export { documentAtRevision, noteRevision } from "./revisions.ts";
export type { SetupDocument } from "./setupDocument.ts";
