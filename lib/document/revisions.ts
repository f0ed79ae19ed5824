import { failure, type Outcome, success, within } from "../base/outcome.ts";
import { newDocument } from "./newDocument.ts";
import type { RevisionEntry } from "./revisionEntry.ts";
import type { SetupDocument } from "./setupDocument.ts";
import { changeBetween, changed } from "./stateChange.ts";

/** What a revision remembers: everything that a person stated. */
type Stated = Omit<SetupDocument, "format" | "version" | "revisions">;

/**
 * The document with its present state noted as a revision.
 *
 * @param when date and time of ISO 8601: this library has no clock
 * @returns a problem at a revision that is there and cannot be restored
 */
export function noteRevision(document: SetupDocument, { who, when, why }: Omit<RevisionEntry<Stated>, "change">): Outcome<SetupDocument> {
  const before = stateAt(document, document.revisions.length - 1);
  if (!before.ok) return before;
  const change = changeBetween(before.value, statedIn(document)) ?? {};
  return success({ ...document, revisions: [...document.revisions, { who, when, why, change }] });
}

/**
 * The document as it was at a revision, counted from 0. All revisions stay, the later ones as well, so that going back loses nothing.
 *
 * @throws RangeError if there is no such revision
 */
export function documentAtRevision(document: SetupDocument, revision: number): Outcome<SetupDocument> {
  const state = stateAt(document, revision);
  return state.ok ? success({ ...document, ...state.value }) : state;
}

/** Whether anything was stated since the last revision. */
export function differsFromLastRevision(document: SetupDocument): boolean {
  const last = stateAt(document, document.revisions.length - 1);
  return !last.ok || changeBetween(last.value, statedIn(document)) !== undefined;
}

function stateAt({ revisions }: SetupDocument, revision: number): Outcome<Stated> {
  if (!(revision < revisions.length)) throw new RangeError(`revision: expected less than ${revisions.length}, got ${revision}`);
  let state: Outcome<Stated> = success(statedIn(newDocument()));
  for (let i = 0; i <= revision && state.ok; i++) {
    const next: Outcome<Stated> = changed(state.value, revisions[i]?.change);
    state = next.ok ? next : failure(...next.problems.map((problem) => within(`revisions.${i}.change`, problem)));
  }
  return state;
}

function statedIn({ format: _format, version: _version, revisions: _revisions, ...stated }: SetupDocument): Stated {
  return stated;
}
