// Installs the locked packages when node_modules does not match package-lock.json.
// Node built-ins only: it runs before anything is installed. It speaks on stderr, so that a
// command whose standard output is data (`npm run --silent evaluate`) may run it first.
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));

refuseOldNode();
if (installed(join(root, "node_modules/.package-lock.json")) !== installed(join(root, "package-lock.json"))) {
  console.error("Installing the packages of package-lock.json ...");
  // --include=dev because the tools are development packages, which NODE_ENV=production would leave out.
  const status = runNpm(["ci", "--include=dev", "--no-audit", "--no-fund"]);
  if (status !== 0) {
    console.error("The packages could not be installed; npm says why above. An npm registry must be reachable.");
    process.exit(status);
  }
}

/** The oldest version is read from `engines` in package.json, written ">=MAJOR.MINOR". */
function refuseOldNode() {
  const { engines } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  const [needMajor, needMinor] = engines.node.replace(">=", "").split(".").map(Number);
  const [major, minor] = process.versions.node.split(".").map(Number);
  if (major > needMajor || (major === needMajor && minor >= needMinor)) return;
  console.error(`Node.js ${needMajor}.${needMinor} or newer is needed; this is ${process.version}.`);
  process.exit(1);
}

/** Every package and version of a lock file, without those that only some machines install. */
function installed(file) {
  if (!existsSync(file)) return "nothing";
  const { packages } = JSON.parse(readFileSync(file, "utf8"));
  return Object.entries(packages)
    .filter(([path, { optional }]) => path !== "" && !optional)
    .map(([path, { version }]) => `${path} ${version}`)
    .sort()
    .join("\n");
}

/** `npm_execpath` is the npm that started us: the right one, and free of a shell on every system. */
function runNpm(args) {
  const npm = process.env.npm_execpath;
  const options = { cwd: root, stdio: ["ignore", 2, 2] };
  const { status } = npm
    ? spawnSync(process.execPath, [npm, ...args], options)
    : spawnSync("npm", args, { ...options, shell: process.platform === "win32" });
  return status ?? 1;
}
