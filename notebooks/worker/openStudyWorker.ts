/** A worker for questions about a setup, from a file beside the page's own. The page that is one file has `openOwnWorker` in its place, the element `openInlineWorker`. */
export function openStudyWorker(): Worker {
  return new Worker(new URL("./studyWorker.ts", import.meta.url), { type: "module" });
}
