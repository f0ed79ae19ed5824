/** The text of the page's program: in the page that is one file its workers run the same. */
const program = globalThis.document?.currentScript?.textContent ?? "";

/** A worker from the page's own program: where there is one file there is no other to load it from. */
export function openStudyWorker(): Worker {
  const address = URL.createObjectURL(new Blob([program], { type: "text/javascript" }));
  const worker = new Worker(address);
  // Its program is read when it starts, which the first answer shows.
  const forget = () => URL.revokeObjectURL(address);
  worker.addEventListener("message", forget, { once: true });
  worker.addEventListener("error", forget, { once: true });
  return worker;
}
