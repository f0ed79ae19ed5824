import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { type SetupCells, sections } from "../setup.ts";
import type { OpenNotebook } from "../wiring/openNotebook.ts";

/** Fills the entries of a notebook with a document; only the sections that differ from what was there, so that only what depends on them is computed again. */
export function fillSections(notebook: Pick<OpenNotebook<SetupCells>, "set">, document: SetupDocument, before?: SetupDocument): void {
  for (const section of sections) {
    if (document[section] !== before?.[section]) notebook.set(section, document[section]);
  }
}
