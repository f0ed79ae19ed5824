import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));

/** Where a run of the tests leaves its list of published checks. */
export const publishedChecksFile = join(root, ".cache/published-checks.md");

/**
 * Which sources the published checks speak of: the calculation, the checks themselves and the locked packages. The same sources have the same checksum, wherever and
 * whenever they are.
 */
export function checkedSources() {
  const hash = createHash("sha256");
  for (const file of ["lib", "tests/published", "package-lock.json"].flatMap((path) => filesIn(join(root, path))).sort()) {
    hash
      .update(`${relative(root, file).split(sep).join("/")}\0`)
      .update(readFileSync(file))
      .update("\0");
  }
  return hash.digest("hex").slice(0, 12);
}

function filesIn(path) {
  if (!path.endsWith(".json") && existsSync(path)) {
    return readdirSync(path, { withFileTypes: true, recursive: true }).flatMap((entry) =>
      entry.isFile() ? [join(entry.parentPath, entry.name)] : [],
    );
  }
  return [path];
}

/** The list as the last run of the tests wrote it, for whoever reads the project; where that run was of other sources, or there was none, this is said in its place. */
export function publishedChecks(list = lastList()) {
  const sources = checkedSources();
  if (list.includes(`sources ${sources}`)) return list;
  const why =
    list === ""
      ? "No run of its tests was made before this was built"
      : "The last run of its tests before this was built was of other sources, and says nothing of these";
  return `# Published checks\n\n${why}: \`npm test\` makes the list of what was compared with published documents, and the next build takes it in. These are the sources ${sources}.\n`;
}

function lastList() {
  return existsSync(publishedChecksFile) ? readFileSync(publishedChecksFile, "utf8") : "";
}
