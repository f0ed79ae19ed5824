// `npm run build:package`: the package as it is published, in `.cache/package`. Every module of the library and of the notebook as an ES module with
// its declarations, the custom element as one module that needs nothing else, and the package.json that follows from the one of the project:
// its `exports` name the sources, and here what was made of them. What no export leads to is left out. The reference is written from the doc-comments.
import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { publint } from "publint";
import { formatMessage } from "publint/utils";
import { publishedChecks } from "./publishedChecks.mjs";
import { writeReference } from "./reference.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));
const parts = join(root, ".cache/package-parts");
const built = join(root, ".cache/package");
const project = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
/** The module that is bundled with all that it needs, because a page loads it without a bundler; loading it defines the element. */
const alone = "notebooks/element.ts";

for (const folder of [parts, built]) rmSync(folder, { recursive: true, force: true });
run("node_modules/typescript/bin/tsc", "-p", "notebooks/tsconfig.package.json");
run("node_modules/vite/bin/vite.js", "build", "--config", "notebooks/vite.element.config.ts", "--logLevel", "warn");

const published = { ...project, exports: {} };
for (const key of ["private", "scripts", "devDependencies"]) delete published[key];
published.sideEffects = [`./${toScript(alone)}`];
/** Packages that the modules name; what went into the element is no dependency. */
const named = new Set();
for (const [entry, source] of Object.entries(project.exports)) published.exports[entry] = exported(source.slice(2));
published.dependencies = Object.fromEntries(Object.entries(project.dependencies).filter(([name]) => named.has(name)));
writeFileSync(join(built, "package.json"), `${JSON.stringify(published, undefined, 2)}\n`);
for (const file of ["README.md", "LICENSE"]) cpSync(join(root, file), join(built, file));
for (const file of readdirSync(join(root, "notebooks/guide")))
  if (file.endsWith(".md")) copy(join(root, "notebooks/guide", file), `guide/${file}`);
writeFileSync(join(built, "guide/published-checks.md"), publishedChecks());

const bare = writeReference(built);
for (const name of bare) console.error(`${name}: a public name without a doc-comment`);
const { messages, pkg } = await publint({ pkgDir: built, strict: true, pack: false });
for (const message of messages) console.error(formatMessage(message, pkg));
if (messages.length > 0 || bare.length > 0) process.exitCode = 1;

/** Copies what an export needs, and says where it is. */
function exported(source) {
  if (!source.endsWith(".ts")) {
    copy(join(root, source), source);
    return `./${source}`;
  }
  copyReached(toTypes(source));
  if (source === alone) copy(join(root, ".cache/element/element.js"), toScript(source));
  else copyReached(toScript(source));
  return { types: `./${toTypes(source)}`, default: `./${toScript(source)}` };
}

/** A file and all that it imports by a relative path. */
function copyReached(file) {
  if (existsSync(join(built, file))) return;
  // Declarations keep the suffix of the sources.
  const text = readFileSync(join(parts, file), "utf8").replace(/((?:from|import\()\s*"\.{1,2}\/[^"]*)\.ts"/g, '$1.js"');
  mkdirSync(dirname(join(built, file)), { recursive: true });
  writeFileSync(join(built, file), text);
  for (const [, name] of text.matchAll(/^(?:import|export)\b[^;]*?"((?:@[\w-]+\/)?[\w-]+)(?:\/[^"]*)?";$/gm)) named.add(name);
  for (const [, path] of text.matchAll(/(?:\bfrom|\bimport\s*\(?)\s*"(\.[^"]*\.js)"/g)) {
    const reached = relative(built, join(built, dirname(file), path));
    copyReached(file.endsWith(".d.ts") ? reached.replace(/\.js$/, ".d.ts") : reached);
  }
}

function copy(from, to) {
  mkdirSync(dirname(join(built, to)), { recursive: true });
  cpSync(from, join(built, to));
}

function toScript(source) {
  return source.replace(/\.ts$/, ".js");
}

function toTypes(source) {
  return source.replace(/\.ts$/, ".d.ts");
}

function run(script, ...args) {
  const { status } = spawnSync(process.execPath, [join(root, script), ...args], { cwd: root, stdio: ["ignore", "inherit", "inherit"] });
  if (status !== 0) process.exit(status ?? 1);
}
