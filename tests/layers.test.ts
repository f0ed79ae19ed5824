import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, posix, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

/** The way through the house: a module imports from its own stage and from earlier ones. Files of lib itself come last. */
const stages = [
  "base",
  "uncertainty",
  "drift",
  "run",
  "formula",
  "ledger",
  "part",
  "equipment",
  "readings",
  "contacts",
  "frame",
  "datum",
  "fixture",
  "offsets",
  "tolerance",
  "decision",
  "slips",
  "record",
  "document",
  "exchange",
];

const root = fileURLToPath(new URL("..", import.meta.url));

it("lib/ holds only the folders of the known stages", () => {
  const folders = sourcesIn("lib").map(stageOf);
  expect(folders.filter((stage) => stage !== undefined && !stages.includes(stage))).toEqual([]);
});

it("every module of lib/ imports only from its own stage and earlier ones, and nothing from outside lib/", () => {
  const wrong = sourcesIn("lib").flatMap((file) =>
    importsOf(file)
      .filter((imported) => !imported.startsWith("lib/") || order(imported) > order(file))
      .map((imported) => `${file} imports ${imported}`),
  );
  expect(wrong).toEqual([]);
});

it("every relative import names the real file, with its suffix", () => {
  const vague = ["lib", "notebooks"].flatMap((folder) =>
    sourcesIn(folder).flatMap((file) =>
      importsOf(file)
        .filter((imported) => !/\.(ts|mjs|css|json)(\?[\w&]+)?$/.test(imported))
        .map((imported) => `${file} imports ${imported}`),
    ),
  );
  expect(vague).toEqual([]);
});

// What the page and Node offer besides is already a compile error: lib/tsconfig.json knows no such names.
it("lib/ has no chance, clock or global object of its own", () => {
  const impure = sourcesIn("lib").flatMap((file) =>
    withoutComments(read(file))
      .split("\n")
      .flatMap((line, index) =>
        /\bMath\.random\b|\bnew Date\b|\bDate[.(]|\bperformance\.|\bglobalThis\b/.test(line) ? [`${file}:${index + 1}`] : [],
      ),
  );
  expect(impure).toEqual([]);
});

it("what a stage offers is offered by lib/index.ts, and by an entry of the package that bears its name", () => {
  const indexes = stages.map((stage) => `lib/${stage}/index.ts`).filter((file) => existsSync(join(root, file)));
  const { exports } = JSON.parse(read("package.json")) as { exports: Readonly<Record<string, string>> };
  expect(indexes.length).toBeGreaterThan(10);
  expect(
    importsOf("lib/index.ts")
      .filter((file) => file.endsWith("/index.ts"))
      .sort(),
  ).toEqual([...indexes].sort());
  expect(
    Object.entries(exports)
      .filter(([, file]) => /^\.\/lib\/\w+\/index\.ts$/.test(file))
      .sort(),
  ).toEqual(indexes.map((file) => [`./${stageOf(file)}`, `./${file}`]).sort());
});

function sourcesIn(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(".ts"))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).split(sep).join("/"));
}

/** The folder of lib that a file lies in; undefined for a file of lib itself. */
function stageOf(file: string): string | undefined {
  return /^lib\/([^/]+)\//.exec(file)?.[1];
}

function order(file: string): number {
  const stage = stageOf(file);
  return stage === undefined ? stages.length : stages.indexOf(stage);
}

function read(file: string): string {
  return readFileSync(join(root, file), "utf8");
}

/** The files that a module imports by a relative path, as paths from the top. */
function importsOf(file: string): string[] {
  const paths = withoutComments(read(file)).matchAll(/(?:\bfrom|\bimport\s*\(?)\s*"(\.[^"]*)"/g);
  return Array.from(paths, ([, path]) => posix.join(dirname(file), path as string));
}

/** Block comments and line comments blanked, lines kept; a `//` inside a text cuts only the rest of that text. */
function withoutComments(source: string): string {
  return source.replace(/\/\*[\s\S]*?\*\//g, (comment) => comment.replace(/[^\n]/g, " ")).replace(/(^|\s)\/\/.*$/gm, "$1");
}
