import { gzipSync } from "node:zlib";
import type { Plugin, Rolldown } from "vite";

/**
 * For `codeSplitting`: everything that the page needs before it can be used is one file, because a dozen files that are all awaited come no earlier. What is
 * imported when it is asked for stays apart.
 *
 * @param entry the module that the page begins with
 */
export function atOnceGroup(entry: string): Rolldown.CodeSplittingGroup {
  const reached = new Set<string>();
  const reach = (id: string, modules: Rolldown.ChunkingContext) => {
    const waiting = [id];
    for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
      if (reached.has(next)) continue;
      reached.add(next);
      waiting.push(...(modules.getModuleInfo(next)?.importedIds ?? []));
    }
  };
  return {
    debugName: "page",
    name: (id, modules) => {
      if (reached.size === 0) reach(entry, modules);
      return reached.has(id) ? "page" : null;
    },
  };
}

/**
 * Tells how much is loaded before the page can be used, packed as servers pack it, and how much comes later.
 *
 * @param limit the most packed bytes before the page can be used; a build that exceeds it fails
 */
export function atOnceLimit(limit: number): Plugin {
  return {
    name: "at-once-limit",
    enforce: "post",
    generateBundle: {
      order: "post",
      handler(_, bundle) {
        const files = Object.values(bundle);
        const atOnce = new Set<string>();
        const add = (name: string) => {
          const file = bundle[name];
          if (file === undefined || atOnce.has(name)) return;
          atOnce.add(name);
          if (file.type === "chunk") for (const imported of file.imports) add(imported);
        };
        for (const file of files.filter(({ fileName }) => fileName.endsWith(".html"))) {
          add(file.fileName);
          for (const { fileName } of files) if (file.type === "asset" && String(file.source).includes(fileName)) add(fileName);
        }
        const packed = (chosen: typeof files) =>
          chosen.reduce((sum, file) => sum + gzipSync(file.type === "chunk" ? file.code : file.source).length, 0);
        const size = packed(files.filter(({ fileName }) => atOnce.has(fileName)));
        const later = packed(files.filter((file) => file.type === "chunk" && !atOnce.has(file.fileName)));
        const told = `page: ${size} bytes packed until it can be used, of at most ${limit}; ${later} more when they are asked for`;
        if (size > limit) throw new Error(told);
        console.log(told);
      },
    },
  };
}
