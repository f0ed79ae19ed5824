import packed from "virtual:packed-worker";
import { decompressSync, strFromU8 } from "fflate";

/** The same worker from a packed text within the program: where there is one module there is no other to load it from. */
export function openStudyWorker(): Worker {
  const program = strFromU8(decompressSync(Uint8Array.from(atob(packed), (letter) => letter.charCodeAt(0))));
  const address = URL.createObjectURL(new Blob([program], { type: "text/javascript" }));
  const worker = new Worker(address);
  // Its program is read when it starts, which the first answer shows.
  const forget = () => URL.revokeObjectURL(address);
  worker.addEventListener("message", forget, { once: true });
  worker.addEventListener("error", forget, { once: true });
  return worker;
}
