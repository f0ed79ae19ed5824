// `npm run --silent evaluate -- FILE.json` and `npm run --silent study -- FILE.json`: builds the named command when it is missing or
// older than its sources, then runs it in the folder from which npm was called. Standard output is the command's alone.
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { isOlder } from "./isOlder.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));
const [name] = process.argv.splice(2, 1);
const command = join(root, `.cache/command/${name}.mjs`);

if (isOlder(command)) build();
process.chdir(process.env.INIT_CWD || process.cwd());
process.argv[1] = command;
await import(pathToFileURL(command).href);

/** Built aside and moved into place, so that a second call at the same time never reads half a file. */
function build() {
  mkdirSync(join(root, ".cache/command"), { recursive: true });
  const aside = mkdtempSync(join(root, ".cache/command-"));
  const vite = join(root, "node_modules/vite/bin/vite.js");
  const args = [vite, "build", "--config", "notebooks/vite.command.config.ts", "--mode", name, "--logLevel", "warn", "--outDir", aside];
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { cwd: root, encoding: "utf8" });
  if (status === 0) renameSync(join(aside, `${name}.mjs`), command);
  rmSync(aside, { recursive: true, force: true });
  if (status !== 0) {
    process.stderr.write(`The command line could not be built:\n${stdout}${stderr}`);
    process.exit(1);
  }
}
