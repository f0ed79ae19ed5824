// Programs of the machine that tests use, and their installation where that is nobody else's business: on Debian, and only as root.
import { spawnSync } from "node:child_process";
import { accessSync, constants, existsSync, statSync } from "node:fs";
import { delimiter, join } from "node:path";

/** The path of the first of these names that is a program; undefined where none is. */
export function programNamed(names) {
  const folders = (process.env.PATH ?? "").split(delimiter).filter(Boolean);
  return names.flatMap((name) => ["/usr/bin", ...folders].map((folder) => join(folder, name))).find(isProgram);
}

export function isProgram(file) {
  try {
    accessSync(file, constants.X_OK);
    return statSync(file).isFile();
  } catch {
    return false;
  }
}

export function mayInstall() {
  return process.getuid?.() === 0 && existsSync("/etc/debian_version") && existsSync("/usr/bin/apt-get");
}

/** Installs a package of Debian's; what goes wrong is told on standard error. */
export function installDebian(name) {
  console.error(`No ${name} was found; installing Debian's ...`);
  const options = { stdio: ["ignore", 2, 2], env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" } };
  for (const args of [["update"], ["install", "--yes", "--no-install-recommends", name]]) {
    const { status } = spawnSync("/usr/bin/apt-get", ["-qq", ...args], options);
    if (status === 0) continue;
    console.error(`apt-get ${args[0]} failed, so ${name} could not be installed.`);
    return;
  }
}
