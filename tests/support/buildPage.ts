import { fileURLToPath } from "node:url";
import { build } from "vite";
import { isOlder } from "../../.ci/isOlder.mjs";

const at = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url));

/** Builds the page when it is missing or older than its sources, so that a browser is never shown yesterday's. */
export default async function buildPage(): Promise<void> {
  if (isOlder(at(".cache/page/index.html"))) await build({ configFile: at("notebooks/vite.config.ts"), logLevel: "warn" });
}

/** The page as one file, built likewise. @returns its path */
export async function buildFile(): Promise<string> {
  const file = at(".cache/file/datumbook.html");
  if (isOlder(file)) await build({ configFile: at("notebooks/vite.file.config.ts"), logLevel: "warn" });
  return file;
}
