import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL("..", import.meta.url));

/**
 * Three kinds of tests: `node` for everything that needs no page, `dom` for `*.dom.test.ts` in jsdom, and
 * `browser` for `tests/browser/*.browser.test.ts`, which drive Chromium against the built page.
 */
export default defineConfig({
  root,
  cacheDir: `${root}.cache/vitest`,
  test: {
    // A machine that does other work besides is slow, not wrong.
    testTimeout: 60_000,
    reporters: ["default", "./tests/support/summaryReporter.ts"],
    projects: [
      {
        extends: true,
        test: { name: "node", include: ["tests/**/*.test.ts"], exclude: ["tests/**/*.dom.test.ts", "tests/browser/**"] },
      },
      { extends: true, test: { name: "dom", include: ["tests/**/*.dom.test.ts"], environment: "jsdom" } },
      {
        extends: true,
        test: {
          name: "browser",
          include: ["tests/browser/**/*.browser.test.ts"],
          globalSetup: ["./tests/support/buildPage.ts"],
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
