import { fileURLToPath } from "node:url";
import { build } from "vite";

const at = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url));

/** A module of this folder as one script that leaves its exports in `library`, a value of the page that it is handed to. */
export async function codeForPage(file: string): Promise<string> {
  const built = await build({
    configFile: false,
    root: at("."),
    logLevel: "error",
    build: { write: false, target: "es2022", lib: { entry: at(`tests/bench/${file}`), formats: ["iife"], name: "library" } },
  });
  const [output] = Array.isArray(built) ? built : [built];
  const chunk = output && "output" in output ? output.output.find((each) => each.type === "chunk") : undefined;
  if (chunk?.type !== "chunk") throw new Error(`codeForPage: ${file} was not built`);
  return `${chunk.code}\nglobalThis.library = library;`;
}
