import { fileURLToPath } from "node:url";
import { defineConfig, type Plugin } from "vite";
import { atOnceGroup, atOnceLimit } from "./build/atOnce.ts";
import { contentSecurityPolicy } from "./build/contentSecurityPolicy.ts";
import { publishedChecksText } from "./build/publishedChecks.ts";

const root = fileURLToPath(new URL(".", import.meta.url));
const cache = fileURLToPath(new URL("../.cache/", import.meta.url));

/** Builds only: the development server injects scripts of its own, which the policy would stop. */
const pagePolicy: Plugin = {
  name: "page-policy",
  apply: "build",
  transformIndexHtml: () => [
    { tag: "meta", attrs: { "http-equiv": "Content-Security-Policy", content: contentSecurityPolicy("'self'") }, injectTo: "head-prepend" },
  ],
};

/** Bytes. Growth should be noticed: who waits for the page waits for these. */
const mostAtOnce = 400_000;

export default defineConfig({
  root,
  base: "./",
  cacheDir: `${cache}vite`,
  plugins: [pagePolicy, publishedChecksText, atOnceLimit(mostAtOnce)],
  server: { host: "127.0.0.1" },
  preview: { host: "127.0.0.1" },
  build: {
    target: "es2022",
    outDir: `${cache}page`,
    emptyOutDir: true,
    modulePreload: { polyfill: false },
    // What is large is told by `atOnceLimit`.
    chunkSizeWarningLimit: Number.POSITIVE_INFINITY,
    rolldownOptions: { output: { codeSplitting: { groups: [atOnceGroup(`${root}pages/main.ts`)] } } },
  },
});
