import { createHash } from "node:crypto";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import type { Plugin, Rolldown } from "vite";
import { contentSecurityPolicy } from "./contentSecurityPolicy.ts";

/** What the page is called that is one file. */
const name = "datumbook.html";

const worker = fileURLToPath(new URL("../worker/openOwnWorker.ts", import.meta.url));
const start = fileURLToPath(new URL("../pages/oneFileMain.ts", import.meta.url));

/** For the page that is one file: one program for the page and for its workers, so that it is not in the file twice. */
export const oneProgram: Plugin = {
  name: "one-program",
  enforce: "pre",
  resolveId: (source) => (source.endsWith("/openStudyWorker.ts") ? worker : source.endsWith("/pages/main.ts") ? start : undefined),
};

/**
 * Puts the program and the styles into the page itself, the program packed as letters, under a policy that names it by its hash. What unpacks it are the few
 * lines of another script; a page whose program was changed on its way does not run.
 *
 * @param limit the most bytes that the page may have; a build that exceeds it fails
 */
export function oneFile(limit: number): Plugin {
  return {
    name: "one-file",
    enforce: "post",
    generateBundle(_, bundle) {
      const files = Object.values(bundle);
      const page = files.find((file): file is Rolldown.OutputAsset => file.type === "asset" && file.fileName.endsWith(".html"));
      const [script, ...others] = files.filter((file): file is Rolldown.OutputChunk => file.type === "chunk");
      const styles = files.filter((file): file is Rolldown.OutputAsset => file.type === "asset" && file.fileName.endsWith(".css"));
      if (page === undefined || script === undefined || others.length > 0 || files.length !== 2 + styles.length) {
        throw new Error(`one file: expected a page, one script and styles, got ${files.map(({ fileName }) => fileName).join(", ")}`);
      }
      const packed = gzipSync(script.code, { level: 9 }).toString("base64");
      const source = String(page.source)
        .replace(/<script\b[^>]*\bsrc=[^>]*><\/script>/g, "")
        .replace(/<link\b[^>]*\brel="stylesheet"[^>]*>/g, "")
        .replace("<head>", () => `<head>\n    <meta http-equiv="Content-Security-Policy" content="${policyFor(unpack, script.code)}">`)
        .replace("</head>", () => `<style>${styles.map(({ source: css }) => String(css)).join("\n")}</style>\n  </head>`)
        .replace("</body>", () => `<script type="text/plain">${packed}</script><script>${unpack}</script>\n  </body>`);
      for (const { fileName } of [page, script, ...styles]) delete bundle[fileName];
      this.emitFile({ type: "asset", fileName: name, source });
      const size = Buffer.byteLength(source);
      const told = `${name}: ${size} bytes of at most ${limit}`;
      if (size > limit) throw new Error(`one file: ${told}`);
      console.log(told);
    },
  };
}

/** In the page: makes a script of the packed one before it, which takes its place. */
const unpack = `(async () => {
const packed = document.currentScript.previousElementSibling;
try {
const bytes = Uint8Array.from(atob(packed.textContent), (letter) => letter.charCodeAt(0));
const script = document.createElement("script");
script.textContent = await new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"))).text();
packed.replaceWith(script);
} catch (error) {
document.body.append("The page could not be unpacked: the file is damaged, or this browser is too old for it. " + error);
}
})()`;

function policyFor(...scripts: readonly string[]): string {
  return contentSecurityPolicy(scripts.map((code) => `'sha256-${createHash("sha256").update(code, "utf8").digest("base64")}'`).join(" "));
}
