import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { build } from "vite";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { atOnceGroup, atOnceLimit } from "../../../notebooks/build/atOnce.ts";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "datumbook-page-"));
  const write = (name: string, text: string) => writeFileSync(join(folder, name), text);
  write("index.html", '<!doctype html><html><head></head><body><script type="module" src="./main.js"></script></body></html>');
  write("main.css", "body { color: red }");
  write(
    "main.js",
    'import "./main.css"; import { shared } from "./shared.js"; document.title = shared("now"); document.onclick = () => import("./later.js");',
  );
  // Both need it, so that a bundler left to itself makes it a file of its own.
  write("shared.js", 'export const shared = (when) => ["shared", when]; export const others = (when) => ["others", when];');
  write("later.js", 'import { others, shared } from "./shared.js"; document.body.append(others("later"), shared("later"), "asked for");');
});
afterEach(() => rmSync(folder, { recursive: true }));

const make = (limit: number) =>
  build({
    root: folder,
    configFile: false,
    logLevel: "silent",
    plugins: [atOnceLimit(limit)],
    build: {
      modulePreload: { polyfill: false },
      rolldownOptions: { output: { codeSplitting: { groups: [atOnceGroup(join(folder, "main.js"))] } } },
    },
  });

it("what the page begins with is one script, what is asked for another, and both are told packed", async () => {
  const told = vi.spyOn(console, "log").mockImplementation(() => undefined);
  await make(10_000);
  const [line] = told.mock.calls;
  told.mockRestore();
  const assets = readdirSync(join(folder, "dist/assets")).map((name) => join(folder, "dist/assets", name));
  const scripts = assets.filter((name) => name.endsWith(".js"));
  expect(scripts).toHaveLength(2);
  const size = (files: readonly string[]) => files.reduce((sum, file) => sum + gzipSync(readFileSync(file)).length, 0);
  const later = scripts.filter((file) => readFileSync(file, "utf8").includes("asked for"));
  expect(later).toHaveLength(1);
  const atOnce = [join(folder, "dist/index.html"), ...assets.filter((file) => !later.includes(file))];
  expect(line).toEqual([
    `page: ${size(atOnce)} bytes packed until it can be used, of at most 10000; ${size(later)} more when they are asked for`,
  ]);
});

it("a build that needs more at once than its limit fails and says by how much", async () => {
  await expect(make(100)).rejects.toThrow(/page: \d+ bytes packed until it can be used, of at most 100;/);
});
