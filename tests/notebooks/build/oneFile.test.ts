import { createHash } from "node:crypto";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { build } from "vite";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { oneFile } from "../../../notebooks/build/oneFile.ts";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "datumbook-page-"));
  writeFileSync(
    join(folder, "index.html"),
    '<!doctype html><html><head><title>t</title></head><body><script type="module" src="./main.js"></script></body></html>',
  );
  writeFileSync(join(folder, "main.css"), "body { color: red }");
  // What would end the script, begin a comment, or be taken for a pattern of a replacement.
  writeFileSync(join(folder, "main.js"), 'import "./main.css"; document.title = "</script><!--" + "$& $1" + location.hash;');
});
afterEach(() => rmSync(folder, { recursive: true }));

const make = (limit: number) =>
  build({
    root: folder,
    configFile: false,
    logLevel: "silent",
    plugins: [oneFile(limit)],
    build: { modulePreload: { polyfill: false }, cssCodeSplit: false },
  });

it("oneFile(limit) leaves one page whose policy names its two scripts by the hashes that browsers work out, and nothing that loads", async () => {
  const told = vi.spyOn(console, "log").mockImplementation(() => undefined);
  await make(10_000);
  expect(readdirSync(join(folder, "dist"))).toEqual(["datumbook.html"]);
  const page = readFileSync(join(folder, "dist/datumbook.html"), "utf8");
  expect(told.mock.calls).toEqual([[`datumbook.html: ${Buffer.byteLength(page)} bytes of at most 10000`]]);
  told.mockRestore();
  const scripts = [...page.matchAll(/<script([^>]*)>([\s\S]*?)<\/script>/g)];
  expect(scripts.map(([, attributes]) => attributes)).toEqual([' type="text/plain"', ""]);
  const [packed = "", unpack = ""] = scripts.map(([, , text]) => text);
  const program = gunzipSync(Buffer.from(packed, "base64")).toString("utf8");
  // CSP Level 3, 6.7.3.3: the digest of the text between the tags, whoever has put it there.
  const hashes = [unpack, program].map((text) => `'sha256-${createHash("sha256").update(text, "utf8").digest("base64")}'`);
  expect(page).toContain(`script-src ${hashes.join(" ")} 'wasm-unsafe-eval';`);
  expect(program).toContain("$& $1");
  expect(page).toMatch(/<style>[^<]*color:\s*red/);
  expect(page).not.toMatch(/\b(?:src|href)=|rel="stylesheet"/);
  // The policy comes before all that it is to hold for.
  expect(page.indexOf("Content-Security-Policy")).toBeLessThan(page.indexOf("<style>"));
});

it("oneFile(limit) fails a build that is larger than its limit, and says by how much", async () => {
  await expect(make(300)).rejects.toThrow(/datumbook\.html: \d+ bytes of at most 300/);
});
