import { entriesNaming } from "../lib/document/entriesNaming.ts";
import { readLedger } from "../lib/document/readLedger.ts";
import type { SetupDocument } from "../lib/document/setupDocument.ts";
import type { LedgerCells } from "./ledgerCells.ts";
import { type SetupCells, sections } from "./setup.ts";
import type { OpenNotebook } from "./wiring/openNotebook.ts";

/** What the cells of a person's own are made of. */
const ledgerSections = ["ledger", "unit", "whatIf", "correlations"] as const satisfies readonly (keyof SetupDocument)[];

/** Fills the entries of a notebook with a document; only the sections that differ from what was there, so that only what depends on them is computed again. */
export function fillSections(
  notebook: Pick<OpenNotebook<SetupCells>, "set">,
  own: LedgerCells,
  document: SetupDocument,
  before?: SetupDocument,
): void {
  const isSame = ledgerSections.every((section) => document[section] === before?.[section]);
  const read = isSame && own.read ? own.read : readLedger(document);
  own.fill(read, new Set(read.ledger.cells.size > 0 ? entriesNaming(document, read.ledger.cells).keys() : []));
  for (const section of sections) {
    if (document[section] !== before?.[section]) notebook.set(section, document[section]);
  }
}
