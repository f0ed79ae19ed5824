import { Runtime, RuntimeError } from "@observablehq/runtime";
import type { RuntimeLike } from "./hosting.ts";

/**
 * A runtime in which a name that no cell defines is an error, and which goes on computing in a hidden tab.
 *
 * By itself the runtime reads unknown names from the page's window, so that a cell which asks for a
 * missing `origin`, `name` or `top` would silently get the window's; and it waits for animation frames,
 * which a hidden tab never gets.
 *
 * @param nextTick when to compute what has been edited; once per batch of edits
 * @throws Error if the installed runtime is not built as version 6.0.1 is
 */
export function createRuntime(nextTick: () => Promise<void> = nextFrame): RuntimeLike {
  const runtime = new Runtime(null, (name) => {
    throw new RuntimeError(`${name} is not a cell of this notebook`, name);
  });
  scheduleWith(nextTick, runtime);
  return runtime;
}

/** How long a visible page waits for its next frame before it computes without one, ms: the tab may have been hidden meanwhile. */
const longestFrame = 100;

/** The next animation frame; in a hidden tab, or without frames at all (Node), the next turn of the event loop. */
export function nextFrame(): Promise<void> {
  return new Promise((resolve) => {
    if (typeof requestAnimationFrame !== "function") setImmediate(resolve);
    else if (document.visibilityState === "hidden") setTimeout(resolve, 0);
    else {
      const timer = setTimeout(resolve, longestFrame);
      requestAnimationFrame(() => {
        clearTimeout(timer);
        resolve();
      });
    }
  });
}

/** The parts of @observablehq/runtime 6.0.1 that are not public; package.json pins that version for their sake. */
interface RuntimeInternals {
  _computeSoon(): Promise<void>;
  _computeNow(): Promise<void>;
  readonly _disposed: boolean;
}

function scheduleWith(nextTick: () => Promise<void>, runtime: Runtime): void {
  const internals = runtime as unknown as RuntimeInternals;
  if (typeof internals._computeSoon !== "function" || typeof internals._computeNow !== "function") {
    throw new Error("createRuntime: expected @observablehq/runtime 6.0.1, got one that computes in another way");
  }
  const computeSoon = async () => {
    await nextTick();
    if (!internals._disposed) await internals._computeNow();
  };
  Object.defineProperty(runtime, "_computeSoon", { value: computeSoon });
}
