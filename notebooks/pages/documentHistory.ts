/**
 * What a document was, is, and could be again. Documents are immutable and share all rows that did not
 * change, so that hundreds of them cost little.
 */
export interface DocumentHistory<D> {
  readonly past: readonly Step<D>[];
  readonly present: D;
  readonly future: readonly Step<D>[];
}

/** One step back or forth: the document at its other end, and what was done, in words. */
export interface Step<D> {
  readonly document: D;
  readonly what: string;
  /** Edits of one session are one step: every letter typed into a cell before it was left. */
  readonly session: object | undefined;
}

export function startHistory<D>(present: D): DocumentHistory<D> {
  return { past: [], present, future: [] };
}

/** How many steps back are kept. */
const longestPast = 1000;

/**
 * The history after an edit. `change` gets the document from before the session's first edit, so that a
 * cell can be typed into letter by letter without each letter building on the one before; an edit that
 * comes back to where its session began leaves no step.
 */
export function recordEdit<D>(history: DocumentHistory<D>, change: (before: D) => D, what: string, session?: object): DocumentHistory<D> {
  const goesOn = session !== undefined && history.past.at(-1)?.session === session;
  const before = goesOn ? (history.past.at(-1) as Step<D>).document : history.present;
  const present = change(before);
  if (present === history.present) return history;
  const past = goesOn ? history.past.slice(0, -1) : history.past;
  if (present === before) return { past, present, future: [] };
  return { past: [...past, { document: before, what, session }].slice(-longestPast), present, future: [] };
}

/** As it was before the session; the same history if it has changed nothing. */
export function abandonSession<D>(history: DocumentHistory<D>, session: object): DocumentHistory<D> {
  const last = history.past.at(-1);
  return last?.session === session ? { past: history.past.slice(0, -1), present: last.document, future: history.future } : history;
}

export function undo<D>({ past, present, future }: DocumentHistory<D>): DocumentHistory<D> | undefined {
  const last = past.at(-1);
  if (last === undefined) return undefined;
  return {
    past: past.slice(0, -1),
    present: last.document,
    future: [{ document: present, what: last.what, session: undefined }, ...future],
  };
}

export function redo<D>({ past, present, future }: DocumentHistory<D>): DocumentHistory<D> | undefined {
  const [next, ...later] = future;
  if (next === undefined) return undefined;
  return { past: [...past, { document: present, what: next.what, session: undefined }], present: next.document, future: later };
}
