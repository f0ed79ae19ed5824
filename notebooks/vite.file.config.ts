import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { oneFile, oneProgram } from "./build/oneFile.ts";
import { publishedChecksText } from "./build/publishedChecks.ts";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Bytes. What carries it is a memory stick or a mail; both carry more, and growth should be noticed. */
const largest = 800_000;

/** The page as one file that opens by a double click, without a server and without a network. */
export default defineConfig({
  root: at("."),
  base: "./",
  cacheDir: at("../.cache/vite-file"),
  plugins: [oneProgram, publishedChecksText, oneFile(largest)],
  build: {
    target: "es2022",
    outDir: at("../.cache/file"),
    emptyOutDir: true,
    cssCodeSplit: false,
    modulePreload: false,
    chunkSizeWarningLimit: Number.POSITIVE_INFINITY,
    rolldownOptions: {
      // A page from the disk may start no module as a worker, and loads nothing by an address of its own.
      transform: { define: { "import.meta": "{}" } },
      input: { datumbook: at("index.html") },
      output: { format: "iife", codeSplitting: false },
    },
  },
});
