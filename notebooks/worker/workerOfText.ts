/** A worker whose program is at hand as a text: where a page or a module is one file there is no other to load it from. */
export function workerOfText(program: string): Worker {
  const address = URL.createObjectURL(new Blob([program], { type: "text/javascript" }));
  const worker = new Worker(address);
  // Its program is read when it starts, which the first answer shows.
  const forget = () => URL.revokeObjectURL(address);
  worker.addEventListener("message", forget, { once: true });
  worker.addEventListener("error", forget, { once: true });
  return worker;
}
