import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Serves the gallery for looking: `vite --config tests/gallery/vite.config.ts`. */
export default defineConfig({
  root: at("."),
  cacheDir: at("../../.cache/gallery"),
  server: { host: "127.0.0.1", fs: { allow: [at("../..")] } },
});
