import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { type DocumentHistory, recordEdit, redo, startHistory, undo } from "../../../notebooks/pages/documentHistory.ts";
import { demoDocument } from "../../../notebooks/pages/firstJob.ts";
import { historyFrom, type KeptStep, type Timeline, timelineOf, writeOf } from "../../../notebooks/pages/historyRecord.ts";

type History = DocumentHistory<SetupDocument>;

const retitled = (title: string) => (document: SetupDocument) => (document.title === title ? document : { ...document, title });
const swapped = ({ touches: [first, second, ...others], ...rest }: SetupDocument): SetupDocument => ({
  ...rest,
  touches: [second, first, ...others].filter((row) => row !== undefined),
});

/** A store of one setup, as the writings leave it. */
class Store {
  private timeline: Timeline | undefined;
  private written: Timeline | undefined;
  private steps = new Map<number, KeptStep>();
  private present: SetupDocument | undefined;
  sizes: number[] = [];

  edited(history: History): void {
    this.timeline = timelineOf(history, this.timeline);
  }

  write(history: History): void {
    this.edited(history);
    const timeline = this.timeline as Timeline;
    const { steps, from, to } = writeOf(timeline, this.written);
    for (const number of [...this.steps.keys()]) if (number < from || number >= to) this.steps.delete(number);
    for (const step of steps) this.steps.set(step.number, JSON.parse(JSON.stringify(step)));
    this.sizes.push(steps.length);
    [this.written, this.present] = [timeline, JSON.parse(JSON.stringify(history.present))];
  }

  read(): History {
    return historyFrom(this.present as SetupDocument, (this.written as Timeline).position, [...this.steps.values()]);
  }

  lose(number: number): void {
    this.steps.delete(number);
  }
}

const flat = ({ past, present, future }: History) => ({
  past: past.map(({ document, what }) => [what, document]),
  present,
  future: future.map(({ document, what }) => [what, document]),
});

describe("what is written of a history, read again", () => {
  const session = {};
  const acts = fc.array(
    fc.oneof(
      fc.record({ act: fc.constant("type" as const), text: fc.constantFrom("a", "b", "c") }),
      fc.record({
        act: fc.constantFrom("letter" as const, "swap" as const, "undo" as const, "redo" as const, "write" as const),
        text: fc.string(),
      }),
    ),
    { maxLength: 30 },
  );

  it("is that history, whatever was done and however seldom it was written", () => {
    fc.assert(
      fc.property(acts, (list) => {
        const store = new Store();
        let history: History = startHistory(demoDocument());
        for (const { act, text } of list) {
          if (act === "type") history = recordEdit(history, retitled(text), `title ${text}`);
          else if (act === "letter") history = recordEdit(history, retitled(text), "letters", session);
          else if (act === "swap") history = recordEdit(history, swapped, "order");
          else if (act === "undo") history = undo(history) ?? history;
          else if (act === "redo") history = redo(history) ?? history;
          else store.write(history);
          store.edited(history);
        }
        store.write(history);
        expect(flat(store.read())).toEqual(flat(history));
      }),
      { numRuns: 300 },
    );
  });

  it("costs a step for an edit, and none for undo and redo", () => {
    const store = new Store();
    let history = recordEdit(startHistory(demoDocument()), retitled("a"), "a");
    store.write(history);
    history = recordEdit(history, retitled("b"), "b");
    store.write(history);
    history = undo(history) as History;
    store.write(history);
    history = redo(history) as History;
    store.write(history);
    expect(store.sizes).toEqual([1, 1, 0, 0]);
  });

  it("keeps its numbers where the oldest steps were let go in the page", () => {
    const store = new Store();
    let history: History = startHistory(demoDocument());
    for (let i = 0; i < 1010; i++) {
      history = recordEdit(history, retitled(`${i}`), `${i}`);
      if (i % 100 === 0) store.write(history);
    }
    store.write(history);
    expect(store.read().past.map(({ what }) => what)).toEqual(history.past.map(({ what }) => what));
    expect(Math.max(...store.sizes)).toBeLessThan(101);
  });

  it("goes back as far as there is no gap, and not to states of another version", () => {
    const store = new Store();
    let history: History = startHistory(demoDocument());
    for (const title of ["a", "b", "c", "d"]) history = recordEdit(history, retitled(title), title);
    store.write(history);
    store.lose(1);
    expect(store.read().past.map(({ what }) => what)).toEqual(["c", "d"]);
    const step: KeptStep = { number: 0, what: "old", forth: {}, back: {}, version: 1 };
    expect(historyFrom(demoDocument(), 1, [step]).past).toEqual([]);
  });
});
