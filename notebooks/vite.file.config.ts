import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { inlineWorker } from "./build/inlineWorker.ts";
import { oneFile } from "./build/oneFile.ts";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Bytes. What carries it is a memory stick or a mail; both carry more, and growth should be noticed. */
const largest = 2_100_000;

/** The page as one file that opens by a double click, without a server and without a network. */
export default defineConfig({
  root: at("."),
  base: "./",
  cacheDir: at("../.cache/vite-file"),
  plugins: [inlineWorker, oneFile(largest)],
  build: {
    target: "es2022",
    outDir: at("../.cache/file"),
    emptyOutDir: true,
    cssCodeSplit: false,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: Number.POSITIVE_INFINITY,
    rolldownOptions: { input: { datumbook: at("index.html") }, output: { codeSplitting: false } },
  },
});
