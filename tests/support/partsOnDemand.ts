import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";

/**
 * What the page loads only when it is asked for, loaded before the first test. Files in jsdom share their modules, so that a part which was on its way
 * when a file ended would stay broken for all files after it.
 */
const notebooks = join(import.meta.dirname, "../../notebooks");

for (const file of readdirSync(notebooks, { recursive: true, encoding: "utf8" }).filter(
  (name) => name.endsWith(".ts") && !name.endsWith(".d.ts"),
)) {
  const path = join(notebooks, file);
  for (const [, part = ""] of readFileSync(path, "utf8").matchAll(/\bimport\("([^"]+)"\)/g))
    await import(part.startsWith(".") ? join(dirname(path), part) : part);
}
