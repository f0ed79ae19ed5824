// Makes sure of the Chromium that the browser tests drive: on a Debian machine without one, and only as root,
// it is installed. `--print` writes its path, the only line on standard output.
import { spawnSync } from "node:child_process";
import { accessSync, constants, existsSync, statSync } from "node:fs";
import { delimiter, join } from "node:path";

const names = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const variable = "DATUMBOOK_CHROMIUM";

const named = process.env[variable];
if (named && !executable(named)) stop(`${variable} is "${named}", which is not a program that can be run.`);

let browser = named || find();
if (!browser && mayInstall()) {
  install();
  browser = find();
}
if (!browser) {
  stop(`No Chromium was found under the names ${names.join(", ")}. Install one, or set ${variable} to the path of its program.`);
}
if (process.argv.includes("--print")) console.log(browser);

function find() {
  const folders = (process.env.PATH ?? "").split(delimiter).filter(Boolean);
  const candidates = ["/usr/bin/chromium", ...names.flatMap((name) => folders.map((folder) => join(folder, name)))];
  return candidates.find(executable);
}

function executable(file) {
  try {
    accessSync(file, constants.X_OK);
    return statSync(file).isFile();
  } catch {
    return false;
  }
}

function mayInstall() {
  return process.getuid?.() === 0 && existsSync("/etc/debian_version") && existsSync("/usr/bin/apt-get");
}

function install() {
  console.error("No Chromium was found; installing Debian's ...");
  const options = { stdio: ["ignore", 2, 2], env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" } };
  for (const args of [["update"], ["install", "--yes", "--no-install-recommends", "chromium"]]) {
    const { status } = spawnSync("/usr/bin/apt-get", ["-qq", ...args], options);
    if (status !== 0) stop(`apt-get ${args[0]} failed, so Chromium could not be installed.`);
  }
}

function stop(message) {
  console.error(message);
  process.exit(1);
}
