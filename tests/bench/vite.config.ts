import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** The benchmarks as plain JavaScript, since Node 20 cannot run TypeScript; packages stay where they are installed. */
export default defineConfig({
  root: at("../.."),
  cacheDir: at("../../.cache/vite-bench"),
  build: {
    ssr: at("run.ts"),
    target: "node20",
    outDir: at("../../.cache/bench"),
    emptyOutDir: true,
    rolldownOptions: { output: { entryFileNames: "run.mjs", chunkFileNames: "[name].mjs" } },
  },
});
