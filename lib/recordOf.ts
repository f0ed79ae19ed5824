import type { SetupEvaluation } from "./decision/setupEvaluation.ts";
import { checksumScheme, inputsChecksum } from "./document/inputsChecksum.ts";
import type { SetupDocument } from "./document/setupDocument.ts";
import { setupInputs, usualEntries } from "./document/setupInputs.ts";
import { type RecordHead, type SetupRecord, setupRecord } from "./record/setupRecord.ts";

export type { SetupRecord };

/**
 * The record of a setup: of the operation that is looked at, where the part has several.
 *
 * @param evaluation of this document, as `evaluateSetup` gives it
 * @param unit of the lengths that are printed; the document's own unless given
 */
export function recordOf(document: SetupDocument, evaluation: SetupEvaluation, unit?: "mm" | "inch"): SetupRecord {
  return setupRecord(recordHead(document), evaluation, unit);
}

/** What the sheets say of a document beside its results. */
export function recordHead(document: SetupDocument): RecordHead {
  const { title, note, part, revision, record, revisions, touches, tools, strategies } = document;
  return {
    title,
    note,
    part: part.name,
    revision,
    preparedBy: record.preparedBy,
    checkedBy: record.checkedBy,
    date: record.date,
    revisions: revisions.map(({ who, when, why }) => ({ who, when, why })),
    checksum: inputsChecksum(document),
    checksumScheme,
    inputs: setupInputs(document),
    usual: usualEntries(),
    readings: new Map(touches.map(({ id, readings }) => [id, readings.trim()])),
    totals: new Map(
      touches.map(({ id, total }) => [
        id,
        [
          ["X", total.x.trim()],
          ["Y", total.y.trim()],
        ]
          .filter(([, text]) => text !== "")
          .map(([axis, text]) => `${axis} ${text}`)
          .join(", "),
      ]),
    ),
    toolNotes: notesOf(tools),
    strategyNotes: notesOf(strategies),
  };
}

function notesOf(rows: readonly { readonly id: string; readonly note: string }[]): ReadonlyMap<string, string> {
  return new Map(rows.map(({ id, note }) => [id, note.trim()]));
}
