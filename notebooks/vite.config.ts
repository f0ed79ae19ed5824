import { fileURLToPath } from "node:url";
import { defineConfig, type Plugin } from "vite";

const root = fileURLToPath(new URL(".", import.meta.url));
const cache = fileURLToPath(new URL("../.cache/", import.meta.url));

/**
 * What the built page may do: run its own scripts and nothing else. It cannot reach a network, so
 * that readings cannot leave the machine on which they were typed.
 *
 * Inline styles are allowed because figures carry theirs in their SVG; `blob:` workers because the
 * page that is one file has no other place to keep a worker.
 */
const contentSecurityPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "img-src data: blob:",
  "connect-src 'none'",
  "worker-src blob: 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

/** Builds only: the development server injects scripts of its own, which the policy would stop. */
const pagePolicy: Plugin = {
  name: "page-policy",
  apply: "build",
  transformIndexHtml: () => [
    { tag: "meta", attrs: { "http-equiv": "Content-Security-Policy", content: contentSecurityPolicy }, injectTo: "head-prepend" },
  ],
};

export default defineConfig({
  root,
  base: "./",
  cacheDir: `${cache}vite`,
  plugins: [pagePolicy],
  server: { host: "127.0.0.1" },
  preview: { host: "127.0.0.1" },
  build: {
    target: "es2022",
    outDir: `${cache}page`,
    emptyOutDir: true,
    modulePreload: { polyfill: false },
  },
});
