import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { inlineWorker } from "./build/inlineWorker.ts";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** The custom element as one module with all that it needs: a page loads it by one `<script type="module">`. */
export default defineConfig({
  root: at("."),
  cacheDir: at("../.cache/vite-element"),
  plugins: [inlineWorker],
  build: {
    target: "es2022",
    outDir: at("../.cache/element"),
    emptyOutDir: true,
    lib: { entry: at("element.ts"), formats: ["es"], fileName: () => "element.js" },
    // By itself a library keeps its white space.
    rolldownOptions: { output: { codeSplitting: false, minify: true } },
  },
});
