// The whole test run. Every step is tried and counts as one item beside the tests, and the last line is
// always `N passed, N failed`. Arguments go to vitest: `npm test -- tests/datum`.
import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const { scripts } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const counts = { passed: 0, failed: 0 };

process.on("exit", () => {
  console.log(`${counts.passed} passed, ${counts.failed} failed`);
  process.exitCode = counts.failed === 0 ? 0 : 1;
});

if (prepare("packages", ".ci/ensure-packages.mjs")) {
  // The tests without a browser are worth running without one.
  prepare("browser", ".ci/ensure-browser.mjs");
  prepare("tools", ".ci/ensure-tools.mjs");
  // What looks at the sources on one core, what makes something of them on the other.
  await Promise.all([looks(), step("build", scripts.build)]);
  runTests(process.argv.slice(2));
}

/** What must be there before anything can be tested; worth a word only if it fails. */
function prepare(name, script) {
  const { status } = spawnSync(process.execPath, [join(root, script)], { stdio: ["ignore", "ignore", "inherit"] });
  if (status === 0) return true;
  console.log(`${name}: failed`);
  counts.failed += 1;
  return false;
}

async function looks() {
  await step("type check", scripts["check:types"]);
  await step("lint", scripts["check:lint"]);
  await step("dead code", scripts["check:dead"]);
}

/** Runs a script of package.json as npm would, without npm's own starting time. */
async function step(name, script) {
  const start = performance.now();
  const env = { ...process.env, PATH: `${join(root, "node_modules/.bin")}${delimiter}${process.env.PATH}` };
  const running = spawn(script, { cwd: root, env, shell: true, stdio: ["ignore", "inherit", "inherit"] });
  const passed = await new Promise((resolve) => {
    running.on("error", () => resolve(false));
    running.on("close", (status) => resolve(status === 0));
  });
  counts[passed ? "passed" : "failed"] += 1;
  console.log(`${name}: ${passed ? "passed" : "failed"} (${((performance.now() - start) / 1000).toFixed(1)} s)`);
}

function runTests(args) {
  const folder = mkdtempSync(join(tmpdir(), "datumbook-"));
  const file = join(folder, "counts.json");
  const vitest = [join(root, "node_modules/vitest/vitest.mjs"), "run", "--config", "tests/vitest.config.ts", ...args];
  const env = { ...process.env, DATUMBOOK_TEST_COUNTS: file };
  const { status } = spawnSync(process.execPath, vitest, { cwd: root, env, stdio: ["ignore", "inherit", "inherit"] });
  const { passed, failed } = existsSync(file) ? JSON.parse(readFileSync(file, "utf8")) : { passed: 0, failed: 0 };
  rmSync(folder, { recursive: true });
  counts.passed += passed;
  // A run that breaks as a whole has no failing test to show for it.
  counts.failed += failed === 0 && status !== 0 ? 1 : failed;
}
