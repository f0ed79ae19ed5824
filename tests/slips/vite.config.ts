import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** The measurement as plain JavaScript, since Node 20 cannot run TypeScript. */
export default defineConfig({
  root: at("../.."),
  cacheDir: at("../../.cache/vite-slips"),
  build: {
    ssr: at("run.ts"),
    target: "node20",
    outDir: at("../../.cache/slips"),
    emptyOutDir: true,
    rolldownOptions: { output: { entryFileNames: "run.mjs", chunkFileNames: "[name].mjs" } },
  },
});
