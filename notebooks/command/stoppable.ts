import { setImmediate } from "node:timers/promises";

/** Signals that ask a program to come to an end; Control+C sends the first. */
const asking = ["SIGINT", "SIGTERM"] as const;
/** A signal is looked for so often, ms. */
const lookEvery = 50;

/** How far steps have come: the last one, and whether somebody stopped them before their end. */
export interface Stoppable<T> {
  /** Undefined where they were stopped before the first. */
  readonly last: T | undefined;
  readonly isStopped: boolean;
}

/**
 * Runs steps to their end, or until the process is asked to stop: what has been done until then is not lost. A second signal ends the process as
 * usual.
 */
export async function runUnlessStopped<T>(steps: Generator<T, T>, tell: (step: T) => void): Promise<Stoppable<T>> {
  let isStopped = false;
  const stop = () => {
    isStopped = true;
    forget();
  };
  const forget = () => {
    for (const signal of asking) process.off(signal, stop);
  };
  for (const signal of asking) process.on(signal, stop);
  let last: T | undefined;
  let looked = performance.now();
  try {
    for (;;) {
      const { value, done } = steps.next();
      last = value;
      if (done) return { last, isStopped: false };
      tell(value);
      if (performance.now() - looked < lookEvery) continue;
      await setImmediate();
      if (isStopped) return { last, isStopped };
      looked = performance.now();
    }
  } finally {
    forget();
  }
}
