// Runs the property tests again and again, each time with a fresh seed, until one fails or Ctrl+C ends it. `npm run hunt -- 3` does so
// three times. A failing seed is run again by `DATUMBOOK_SEED=… npm test`.
import { spawnSync } from "node:child_process";
import { randomInt } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const rounds = Number(process.argv[2] ?? Number.POSITIVE_INFINITY);
const files = readdirSync(join(root, "tests"), { recursive: true })
  .filter((file) => file.endsWith(".test.ts"))
  .map((file) => join("tests", file))
  .filter((file) => /from "fast-check"/.test(readFileSync(join(root, file), "utf8")));
const vitest = [join(root, "node_modules/vitest/vitest.mjs"), "run", "--config", "tests/vitest.config.ts", "--reporter", "dot", ...files];

for (let round = 0; round < rounds; round++) {
  const seed = String(randomInt(2 ** 31));
  console.log(`seed ${seed}`);
  const { status } = spawnSync(process.execPath, vitest, { cwd: root, env: { ...process.env, DATUMBOOK_SEED: seed }, stdio: "inherit" });
  if (status === 0) continue;
  console.log(`A property test fails: DATUMBOOK_SEED=${seed} npm test`);
  process.exit(1);
}
