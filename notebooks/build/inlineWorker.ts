import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { build, type Plugin } from "vite";

const opener = fileURLToPath(new URL("../worker/openInlineWorker.ts", import.meta.url));
const program = fileURLToPath(new URL("../worker/studyWorker.ts", import.meta.url));
const packed = "virtual:packed-worker";

/** For the element, which is one module: the worker comes from a packed text within it, less than half of what it would be as it is. */
export const inlineWorker: Plugin = {
  name: "inline-worker",
  enforce: "pre",
  resolveId: (source) => (source === packed ? `\0${packed}` : source.endsWith("/openStudyWorker.ts") ? opener : undefined),
  load: async (id) => (id === `\0${packed}` ? `export default "${await packedWorker()}";` : undefined),
};

/** The program of the worker, compressed, in letters. No module: a page from the disk may start none. */
async function packedWorker(): Promise<string> {
  const built = await build({
    configFile: false,
    logLevel: "warn",
    build: {
      target: "es2022",
      write: false,
      lib: { entry: program, formats: ["iife"], name: "studyWorker" },
      rolldownOptions: { output: { codeSplitting: false, minify: true } },
    },
  });
  const [{ output }] = [built].flat() as [Extract<typeof built, { readonly output: unknown }>];
  return gzipSync(output[0].code, { level: 9 }).toString("base64");
}
