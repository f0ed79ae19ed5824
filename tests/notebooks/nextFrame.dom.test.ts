import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { nextFrame } from "../../notebooks/wiring/createRuntime.ts";

let frames: FrameRequestCallback[] = [];
let visibility: DocumentVisibilityState = "visible";

beforeEach(() => {
  frames = [];
  vi.useFakeTimers();
  vi.stubGlobal("requestAnimationFrame", (frame: FrameRequestCallback) => frames.push(frame));
  vi.spyOn(document, "visibilityState", "get").mockImplementation(() => visibility);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

/** Whether nextFrame() is kept after `advance`. */
async function keptAfter(advance: () => void): Promise<boolean> {
  let kept = false;
  const waiting = nextFrame().then(() => {
    kept = true;
  });
  advance();
  await Promise.race([waiting, Promise.resolve().then(() => Promise.resolve())]);
  return kept;
}

it("nextFrame() waits for the next animation frame of a visible page", async () => {
  visibility = "visible";
  expect(await keptAfter(() => {})).toBe(false);
  expect(await keptAfter(() => frames.at(-1)?.(0))).toBe(true);
});

it("nextFrame() needs no frame in a hidden page", async () => {
  visibility = "hidden";
  expect(await keptAfter(() => vi.advanceTimersByTime(0))).toBe(true);
  expect(frames).toEqual([]);
});

it("nextFrame() goes on after 100 ms if the page was hidden before its frame came", async () => {
  visibility = "visible";
  expect(await keptAfter(() => vi.advanceTimersByTime(99))).toBe(false);
  expect(await keptAfter(() => vi.advanceTimersByTime(100))).toBe(true);
});
