import { workerOfText } from "./workerOfText.ts";

/** The text of the page's program: in the page that is one file its workers run the same. */
const program = globalThis.document?.currentScript?.textContent ?? "";

/** A worker from the page's own program. */
export function openStudyWorker(): Worker {
  return workerOfText(program);
}
