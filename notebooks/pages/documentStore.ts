import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { abandonSession, type DocumentHistory, recordEdit, redo, undo } from "./documentHistory.ts";

/** The one document of the page, its history, and whoever wants to know when it changes. */
export class DocumentStore {
  private history: DocumentHistory<SetupDocument>;
  private readonly onChange: (document: SetupDocument, before: SetupDocument) => void;

  /** @param history the document with what could be undone and done again from the start */
  constructor(history: DocumentHistory<SetupDocument>, onChange: (document: SetupDocument, before: SetupDocument) => void) {
    this.history = history;
    this.onChange = onChange;
  }

  get whole(): DocumentHistory<SetupDocument> {
    return this.history;
  }

  get document(): SetupDocument {
    return this.history.present;
  }

  /** What undo would take back, and redo bring back, in words. */
  get next(): { readonly undo: string | undefined; readonly redo: string | undefined } {
    return { undo: this.history.past.at(-1)?.what, redo: this.history.future[0]?.what };
  }

  /** `change` gets the document from before the session's first edit. */
  edit(change: (before: SetupDocument) => SetupDocument, what: string, session?: object): void {
    this.become(recordEdit(this.history, change, what, session));
  }

  abandon(session: object): void {
    this.become(abandonSession(this.history, session));
  }

  undo(): string | undefined {
    const what = this.next.undo;
    this.become(undo(this.history) ?? this.history);
    return what;
  }

  redo(): string | undefined {
    const what = this.next.redo;
    this.become(redo(this.history) ?? this.history);
    return what;
  }

  private become(history: DocumentHistory<SetupDocument>): void {
    const before = this.history;
    this.history = history;
    if (history !== before) this.onChange(history.present, before.present);
  }
}
