import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";

/** For builds that are one file: the worker comes from a text within it. */
export const inlineWorker: Plugin = {
  name: "inline-worker",
  enforce: "pre",
  resolveId: (source) =>
    source.endsWith("/openStudyWorker.ts") ? fileURLToPath(new URL("../worker/openInlineWorker.ts", import.meta.url)) : undefined,
};
