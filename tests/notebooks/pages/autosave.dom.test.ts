import { afterEach, beforeEach, expect, it, vi } from "vitest";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { Autosave } from "../../../notebooks/pages/autosave.ts";
import { type DocumentHistory, recordEdit, startHistory } from "../../../notebooks/pages/documentHistory.ts";
import type { Keeper, Writing, WritingOutcome } from "../../../notebooks/pages/keeper.ts";
import { cover } from "../../gallery/documents.ts";

/** What is written takes until the test says that it is done. */
class SlowKeeper implements Pick<Keeper, "write"> {
  readonly titles: string[] = [];
  readonly steps: string[][] = [];
  private readonly waiting: ((outcome: WritingOutcome) => void)[] = [];

  write({ setup, steps }: Writing): Promise<WritingOutcome> {
    this.titles.push(setup.title);
    this.steps.push(steps.map(({ what }) => what));
    return new Promise((resolve) => this.waiting.push(resolve));
  }

  async done(): Promise<void> {
    this.waiting.shift()?.({ kind: "kept", madeRoom: 0 });
    await vi.advanceTimersByTimeAsync(0);
  }
}

let keeper: SlowKeeper;
let autosave: Autosave;
let history: DocumentHistory<SetupDocument>;

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal("requestIdleCallback", (work: () => void) => work());
  keeper = new SlowKeeper();
  autosave = new Autosave(keeper as unknown as Keeper, { id: "a" }, { onId: () => {}, onTrouble: () => {} });
  history = startHistory(cover);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

function type(title: string): void {
  history = recordEdit(history, (before) => ({ ...before, title }), `title ${title}`);
  autosave.changed(history);
}

it("letters are written down together, in a pause", async () => {
  for (const title of ["b", "bo", "bor", "bore"]) {
    type(title);
    vi.advanceTimersByTime(60);
  }
  expect(keeper.titles).toEqual([]);
  expect(autosave.unwritten()?.setup.title).toBe("bore");
  vi.advanceTimersByTime(150);
  expect(keeper.titles).toEqual(["bore"]);
  await keeper.done();
  expect(autosave.unwritten()).toBeUndefined();
  expect(keeper.steps).toEqual([["title b", "title bo", "title bor", "title bore"]]);
});

it("who types without a pause is written down every half second", async () => {
  const letters = Array.from({ length: 24 }, (_, i) => `letter ${i}`);
  for (const title of letters) {
    type(title);
    await vi.advanceTimersByTimeAsync(50);
    await keeper.done();
  }
  expect(keeper.titles).toEqual(["letter 9", "letter 19"]);
  await vi.advanceTimersByTimeAsync(150);
  expect(keeper.titles).toEqual(["letter 9", "letter 19", "letter 23"]);
});

it("a letter that comes while another is written waits for its own pause, and is not forgotten", async () => {
  type("first");
  vi.advanceTimersByTime(150);
  type("second");
  // Its pause ends while the first is still being written.
  vi.advanceTimersByTime(150);
  expect(keeper.titles).toEqual(["first"]);
  await keeper.done();
  expect(keeper.titles).toEqual(["first"]);
  vi.advanceTimersByTime(150);
  expect(keeper.titles).toEqual(["first", "second"]);
  await keeper.done();
  expect(autosave.unwritten()).toBeUndefined();
});

it("who must have all of it written waits for no pause, also while something is being written", async () => {
  type("first");
  vi.advanceTimersByTime(150);
  type("second");
  let isDone = false;
  void autosave.flush().then(() => {
    isDone = true;
  });
  await keeper.done();
  expect(keeper.titles).toEqual(["first", "second"]);
  expect(isDone).toBe(false);
  await keeper.done();
  expect(isDone).toBe(true);
  // What the timer of the second would have written is written.
  await vi.advanceTimersByTimeAsync(1000);
  expect(keeper.titles).toEqual(["first", "second"]);
});
