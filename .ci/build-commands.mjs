// Builds every command line that package.json runs by `.ci/command.mjs`, in one process: most of a build's time is its start.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "vite";

const at = (path) => fileURLToPath(new URL(`../${path}`, import.meta.url));
const { scripts } = JSON.parse(readFileSync(at("package.json"), "utf8"));
const names = Object.values(scripts).flatMap((script) => /^node \.ci\/command\.mjs (\w+)$/.exec(script)?.slice(1) ?? []);

for (const mode of names) await build({ configFile: at("notebooks/vite.command.config.ts"), mode, logLevel: "warn" });
