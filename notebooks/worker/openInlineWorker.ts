import packed from "virtual:packed-worker";
import { decompressSync, strFromU8 } from "fflate";
import { workerOfText } from "./workerOfText.ts";

/** The same worker from a packed text within the program. */
export function openStudyWorker(): Worker {
  return workerOfText(strFromU8(decompressSync(Uint8Array.from(atob(packed), (letter) => letter.charCodeAt(0)))));
}
