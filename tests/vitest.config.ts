import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import { publishedChecksText } from "../notebooks/build/publishedChecks.ts";

/** One file for each core, at least two: each computes on one core, and waits now and then. */
const computing = Math.max(2, availableParallelism());

/** Puts something in the place of a module, which no other file may meet. */
const replacing = "tests/notebooks/pages/sheet.dom.test.ts";

const root = fileURLToPath(new URL("..", import.meta.url));

/**
 * Three kinds of tests: `node` for everything that needs no page, `dom` for `*.dom.test.ts` in jsdom (`dom apart` for the one that wants modules of its own), and
 * `browser` for `tests/browser/*.browser.test.ts`, which drive Chromium against the built page.
 */
export default defineConfig({
  root,
  cacheDir: `${root}.cache/vitest`,
  plugins: [publishedChecksText],
  test: {
    // A machine that does other work besides is slow, not wrong.
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // Style that code takes as text; left empty otherwise.
    css: { include: [/\.css\?raw$/] },
    reporters: ["default", "./tests/support/summaryReporter.ts"],
    projects: [
      {
        extends: true,
        test: {
          name: "node",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/**/*.dom.test.ts", "tests/browser/**"],
          setupFiles: ["./tests/support/recordChecks.ts", "./tests/support/propertySeed.ts"],
          // No test here puts anything in the place of a module: what is loaded once serves all files.
          isolate: false,
          maxWorkers: computing,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: "dom",
          include: ["tests/**/*.dom.test.ts"],
          exclude: [replacing],
          environment: "jsdom",
          setupFiles: ["./tests/support/partsOnDemand.ts"],
          // Each file has a document of its own, and what is loaded once serves all of them.
          isolate: false,
          maxWorkers: computing,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: "dom apart",
          include: [replacing],
          environment: "jsdom",
          maxWorkers: computing,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: "browser",
          // After the others: Chromium has processes enough of its own. Two at a time, because each waits for its page most of the time.
          maxWorkers: 2,
          sequence: { groupOrder: 1 },
          include: ["tests/browser/**/*.browser.test.ts"],
          globalSetup: ["./tests/support/buildPage.ts"],
          // What is out of sight follows when the page is idle, and answers come from a worker: a busy machine is late with both.
          expect: { poll: { timeout: 40_000 } },
          // A page on a busy machine may miss its moment once. The summary names every test that needed its second go, and why.
          retry: process.env["CI"] ? 1 : 0,
        },
      },
    ],
  },
});
