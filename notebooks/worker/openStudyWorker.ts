/** A worker for questions about a setup, from a file beside the page's own. Builds that are one file put `openInlineWorker` in its place. */
export function openStudyWorker(): Worker {
  return new Worker(new URL("./studyWorker.ts", import.meta.url), { type: "module" });
}
