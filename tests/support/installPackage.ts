import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { isOlder } from "../../.ci/isOlder.mjs";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** A folder of somebody else's, in which the package is installed. */
export interface Consumer {
  readonly folder: string;
  /** @param path within the folder */
  write(path: string, text: string): string;
  /** Runs a script in a process of its own. @throws Error with what it said, if it fails */
  node(script: string, ...args: readonly string[]): string;
  remove(): void;
}

/**
 * Packs the built package as npm does, and unpacks it where npm would put it. Its dependencies, and the types of Node, are those of this project, so that
 * nothing is fetched; beside them stands `host-runtime`, a second, separate copy of the runtime, for hosts that bring their own.
 */
export function installPackage(): Consumer {
  const built = join(root, ".cache/package");
  if (isOlder(join(built, "package.json"))) run(process.execPath, [join(root, ".ci/build-package.mjs")], root);
  const folder = mkdtempSync(join(tmpdir(), "datumbook-consumer-"));
  const [{ filename }] = JSON.parse(run("npm", ["pack", "--json", "--silent", "--pack-destination", folder], built)) as [
    { filename: string },
  ];
  const installed = join(folder, "node_modules/datumbook");
  mkdirSync(installed, { recursive: true });
  run("tar", ["-xzf", join(folder, filename), "-C", installed, "--strip-components", "1"], folder);
  const { dependencies } = JSON.parse(readFileSync(join(installed, "package.json"), "utf8")) as { dependencies: Record<string, string> };
  for (const name of [...Object.keys(dependencies), "@types/node"]) {
    const place = join(folder, "node_modules", name);
    mkdirSync(dirname(place), { recursive: true });
    symlinkSync(join(root, "node_modules", name), place, "dir");
  }
  cpSync(join(root, "node_modules/@observablehq/runtime"), join(folder, "node_modules/host-runtime"), { recursive: true });
  const write = (path: string, text: string) => {
    const file = join(folder, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
    return file;
  };
  write("package.json", JSON.stringify({ name: "consumer", private: true, type: "module" }));
  return {
    folder,
    write,
    node: (script, ...args) => run(process.execPath, [script, ...args], folder),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

function run(command: string, args: readonly string[], cwd: string): string {
  // npm is a script of the shell on some systems.
  const options = { cwd, encoding: "utf8", shell: command === "npm" && process.platform === "win32" } as const;
  const { status, stdout, stderr } = spawnSync(command, args, options);
  if (status !== 0) throw new Error(`${command} ${args.join(" ")}: ${stdout}${stderr}`);
  return stdout;
}

export const typescript = fileURLToPath(new URL("../../node_modules/typescript/bin/tsc", import.meta.url));
