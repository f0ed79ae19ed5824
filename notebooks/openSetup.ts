import type { ReadLedger } from "../lib/document/readLedger.ts";
import type { SetupDocument } from "../lib/document/setupDocument.ts";
import { fillSections } from "./fillSections.ts";
import { LedgerCells } from "./ledgerCells.ts";
import setup, { type SetupCells } from "./setup.ts";
import type { RuntimeLike } from "./wiring/hosting.ts";
import { type OpenNotebook, openNotebook } from "./wiring/openNotebook.ts";

/** The notebook of a setup, which documents are put into: one after the other, each as a whole. */
export interface OpenSetup {
  readonly notebook: OpenNotebook<SetupCells>;
  /** What the entries hold; undefined before the first document. */
  readonly document: SetupDocument | undefined;
  /** Cells of a person's own, as the document has them. */
  readonly own: ReadLedger | undefined;
  /** Only what differs from the document before is worked out again. */
  fill(document: SetupDocument): void;
}

/**
 * Opens the notebook of a setup, empty, in any runtime.
 *
 * @param runtime one of this project's own unless given: in a host's, the cells are those of `runtime.module(setup)`, so that the host can
 *   import and override them as it does its own
 */
export function openSetup(runtime?: RuntimeLike): OpenSetup {
  const notebook = runtime === undefined ? openNotebook(setup) : openNotebook(setup, runtime);
  const own = new LedgerCells(notebook);
  let document: SetupDocument | undefined;
  return {
    notebook,
    get document() {
      return document;
    },
    get own() {
      return own.read;
    },
    fill: (next) => {
      fillSections(notebook, own, next, document);
      document = next;
    },
  };
}
