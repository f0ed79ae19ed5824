import { currentVersion, type SetupDocument } from "../../lib/document/setupDocument.ts";
import { type Change, changeBetween, changed } from "../../lib/document/stateChange.ts";
import { followRows } from "../inputs/rows.ts";
import { type DocumentHistory, type Step, startHistory } from "./documentHistory.ts";

/** One step of a history as it is kept: what leads from the state before it to the state after it, and back. */
export interface KeptStep {
  /** Counted over the whole life of the setup: a step leads from the state of its number to the next. */
  readonly number: number;
  readonly what: string;
  readonly forth: Change<SetupDocument> | undefined;
  readonly back: Change<SetupDocument> | undefined;
  /** The document's version: states of another are not gone back to. */
  readonly version: number;
}

/** A history laid out flat: state `first + i` is `states[i]`, and the step from it to the next is told by `whats[i]`. */
export interface Timeline {
  readonly first: number;
  readonly states: readonly SetupDocument[];
  readonly whats: readonly string[];
  /** Number of the state that is shown. */
  readonly position: number;
}

/** What must be written so that what is kept becomes this timeline: these steps, and none outside of `from` to before `to`. */
export interface TimelineWrite {
  readonly steps: readonly KeptStep[];
  readonly from: number;
  readonly to: number;
}

/** @param before the timeline from which this history went on, whose numbers stay those of the same states */
export function timelineOf({ past, present, future }: DocumentHistory<SetupDocument>, before: Timeline | undefined): Timeline {
  const states = [...past.map(({ document }) => document), present, ...future.map(({ document }) => document)];
  const whats = [...past, ...future].map(({ what }) => what);
  // The oldest steps may have been let go since; a history that has nothing in common begins behind all that was there.
  const dropped = before === undefined ? 0 : before.states.indexOf(states[0] as SetupDocument);
  const first = before === undefined ? 0 : dropped < 0 ? before.first + before.states.length : before.first + dropped;
  return { first, states, whats, position: first + past.length };
}

/** Only what differs from what is kept already. */
export function writeOf(timeline: Timeline, kept: Timeline | undefined): TimelineWrite {
  const { first, states, whats } = timeline;
  const offset = kept === undefined ? 0 : first - kept.first;
  let same = 0;
  if (kept !== undefined && kept.states[offset] === states[0])
    while (same < whats.length && kept.whats[offset + same] === whats[same] && kept.states[offset + same + 1] === states[same + 1]) same++;
  const steps = whats.slice(same).map((what, i): KeptStep => {
    const [old, next] = [states[same + i] as SetupDocument, states[same + i + 1] as SetupDocument];
    return {
      number: first + same + i,
      what,
      forth: changeBetween(old, next, true),
      back: changeBetween(next, old, true),
      version: currentVersion,
    };
  });
  return { steps, from: first, to: first + whats.length };
}

/**
 * The history about a kept state, as far back and forth as its steps reach without a gap.
 *
 * @param position number of the state that `present` is
 */
export function historyFrom(present: SetupDocument, position: number, steps: readonly KeptStep[]): DocumentHistory<SetupDocument> {
  const byNumber = new Map(steps.map((step) => [step.number, step]));
  const { past, future } = startHistory(present);
  return {
    past: [...past, ...walk(present, (i) => byNumber.get(position - 1 - i), "back").reverse()],
    present,
    future: [...future, ...walk(present, (i) => byNumber.get(position + i), "forth")],
  };
}

function walk(from: SetupDocument, stepAt: (i: number) => KeptStep | undefined, way: "back" | "forth"): Step<SetupDocument>[] {
  const found: Step<SetupDocument>[] = [];
  let document = from;
  for (let step = stepAt(0); step !== undefined && step.version === currentVersion; step = stepAt(found.length)) {
    const next = changed(document, step[way]);
    if (!next.ok) break;
    followLists(document, next.value);
    document = next.value;
    found.push({ document, what: step.what, session: undefined });
  }
  return found;
}

/** What is on the page for a row follows it through states that were read from the store as well. */
function followLists(before: object, after: object): void {
  for (const [key, held] of Object.entries(after)) {
    const was = (before as Record<string, unknown>)[key];
    if (was === held) continue;
    if (Array.isArray(held) && Array.isArray(was)) followRows(was, held);
    else if (typeof held === "object" && held !== null && typeof was === "object" && was !== null) followLists(was, held);
  }
}
