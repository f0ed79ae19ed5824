import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { Pace } from "../../../notebooks/pages/pace.ts";

let frames: FrameRequestCallback[] = [];

beforeEach(() => {
  frames = [];
  vi.useFakeTimers({ toFake: ["performance"] });
  vi.stubGlobal("requestAnimationFrame", (frame: FrameRequestCallback) => frames.push(frame));
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const takes = (ms: number) => vi.advanceTimersByTime(ms);

/** An edit that takes so long to enter and to work out, ms; the frames that were waited for. */
async function edited(pace: Pace, entering: number, workingOut: number): Promise<number> {
  const before = frames.length;
  let turn = Promise.resolve();
  pace.edit(() => {
    turn = pace.turn();
    takes(entering);
  });
  const waited = frames.length - before;
  // How long the browser draws does not count.
  takes(waited * 1000);
  for (const frame of frames.slice(before)) frame(0);
  await turn;
  takes(workingOut);
  pace.isSettled();
  return waited;
}

it("an edit is worked out at once; one after an edit that took longer than a frame is drawn first", async () => {
  const pace = new Pace(() => {});
  expect(await edited(pace, 3, 12)).toBe(0);
  expect(await edited(pace, 6, 12)).toBe(0);
  expect(await edited(pace, 6, 12)).toBe(1);
  expect(await edited(pace, 3, 12)).toBe(1);
  expect(await edited(pace, 3, 12)).toBe(0);
});

it("an edit of a page that is not drawn waits for no frame", async () => {
  const pace = new Pace(() => {});
  await edited(pace, 20, 200);
  vi.spyOn(document, "visibilityState", "get").mockReturnValue("hidden");
  expect(await edited(pace, 20, 200)).toBe(0);
  vi.restoreAllMocks();
  expect(await edited(pace, 20, 200)).toBe(1);
});

it("what is worked out without an edit waits for nothing, however long the last one took", async () => {
  const pace = new Pace(() => {});
  await edited(pace, 20, 200);
  // An edit that changes nothing in the notebook, such as one of a heading, asks for no turn.
  pace.edit(() => {});
  await pace.turn();
  expect(frames).toEqual([]);
});

it("an edit that waits for the browser is worked out at once where it is needed, as before printing", async () => {
  const seen: string[] = [];
  const pace = new Pace((isWaiting) => seen.push(isWaiting ? "drawn first" : "in turn"));
  await edited(pace, 20, 200);
  pace.edit(() => {
    void pace.turn().then(() => seen.push("worked out"));
  });
  await Promise.resolve();
  expect(seen).toEqual(["drawn first"]);
  pace.hurry();
  for (let i = 0; i < 9; i++) await Promise.resolve();
  expect(seen).toEqual(["drawn first", "in turn", "worked out"]);
  // Its frame comes afterwards, and changes nothing.
  for (const frame of frames) frame(0);
  expect(seen).toHaveLength(3);
});

it("an edit that fails while it is entered counts with the time that it took", async () => {
  const pace = new Pace(() => {});
  const fails = () => {
    takes(20);
    throw new Error("no room");
  };
  expect(() => pace.edit(fails)).toThrow("no room");
  await pace.turn();
  pace.isSettled();
  expect(await edited(pace, 1, 1)).toBe(1);
});
