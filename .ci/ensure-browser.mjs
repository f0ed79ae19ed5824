// Makes sure of the Chromium that the browser tests drive: on a Debian machine without one, and only as root,
// it is installed. Debian's chromium-headless-shell, the same engine without a window, comes first: the whole
// browser takes almost as much of the processor for its own window as for the page. Under continuous integration
// (CI is set) it is installed beside a whole browser too. `--print` writes the path of the program, the only line
// on standard output.
import { spawnSync } from "node:child_process";
import { accessSync, constants, existsSync, statSync } from "node:fs";
import { delimiter, join } from "node:path";

const names = ["chromium-headless-shell", "chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const variable = "DATUMBOOK_CHROMIUM";

const named = process.env[variable];
if (named && !executable(named)) stop(`${variable} is "${named}", which is not a program that can be run.`);

let browser = named || find();
const lighter = Boolean(process.env.CI) && !named && !browser?.endsWith(names[0]);
if ((!browser || lighter) && mayInstall()) {
  install();
  browser = find();
}
if (!browser) {
  stop(`No Chromium was found under the names ${names.join(", ")}. Install one, or set ${variable} to the path of its program.`);
}
if (process.argv.includes("--print")) console.log(browser);

function find() {
  const folders = (process.env.PATH ?? "").split(delimiter).filter(Boolean);
  const candidates = names.flatMap((name) => ["/usr/bin", ...folders].map((folder) => join(folder, name)));
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
  console.error(`No ${names[0]} was found; installing Debian's ...`);
  const options = { stdio: ["ignore", 2, 2], env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" } };
  for (const args of [["update"], ["install", "--yes", "--no-install-recommends", names[0]]]) {
    const { status } = spawnSync("/usr/bin/apt-get", ["-qq", ...args], options);
    if (status === 0) continue;
    console.error(`apt-get ${args[0]} failed, so Chromium could not be installed.`);
    return;
  }
}

function stop(message) {
  console.error(message);
  process.exit(1);
}
