import { readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const sources = ["lib", "notebooks", "package-lock.json"].map((path) => join(root, path));

/**
 * Whether a built file is missing or older than anything that it is built from: `lib`, `notebooks` and the
 * locked packages. Folders count too, because a deleted file leaves its trace only there.
 */
export function isOlder(built) {
  const time = statSync(built, { throwIfNoEntry: false })?.mtimeMs;
  return time === undefined || sources.some((source) => newest(source) > time);
}

function newest(path) {
  const { mtimeMs, isDirectory } = describe(path);
  return isDirectory ? Math.max(mtimeMs, ...readdirSync(path).map((name) => newest(join(path, name)))) : mtimeMs;
}

/** A file that vanishes while it is looked at has just changed. */
function describe(path) {
  const found = statSync(path, { throwIfNoEntry: false });
  return found ? { mtimeMs: found.mtimeMs, isDirectory: found.isDirectory() } : { mtimeMs: Date.now(), isDirectory: false };
}
