import { createHash } from "node:crypto";
import type { Plugin, Rolldown } from "vite";
import { contentSecurityPolicy } from "./contentSecurityPolicy.ts";

/** What the page is called that is one file. */
const name = "datumbook.html";

/**
 * Puts the script and the styles into the page itself, under a policy that names the script by its hash.
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
      // Nothing within a script may end it or begin a comment of the page.
      const code = script.code.replaceAll("</script", "<\\/script").replaceAll("<!--", "<\\!--");
      const hash = createHash("sha256").update(code, "utf8").digest("base64");
      const policy = contentSecurityPolicy(`'sha256-${hash}'`);
      const source = String(page.source)
        .replace(/<script\b[^>]*\bsrc=[^>]*><\/script>/g, "")
        .replace(/<link\b[^>]*\brel="stylesheet"[^>]*>/g, "")
        .replace("<head>", () => `<head>\n    <meta http-equiv="Content-Security-Policy" content="${policy}">`)
        .replace("</head>", () => `<style>${styles.map(({ source: css }) => String(css)).join("\n")}</style>\n  </head>`)
        .replace("</body>", () => `<script type="module">${code}</script>\n  </body>`);
      for (const { fileName } of [page, script, ...styles]) delete bundle[fileName];
      this.emitFile({ type: "asset", fileName: name, source });
      const size = Buffer.byteLength(source);
      const told = `${name}: ${size} bytes of at most ${limit}`;
      if (size > limit) throw new Error(`one file: ${told}`);
      console.log(told);
    },
  };
}
