import { writeFileSync } from "node:fs";
import type { Reporter, TestModule } from "vitest/node";

/**
 * Counts the tests for the closing line `N passed, N failed`. The whole run (`.ci/test.mjs`) names a file
 * for the counts and adds its own steps to them; without one the line is printed here.
 */
export default class SummaryReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandledErrors: readonly unknown[]): void {
    const counts = countTests(modules);
    counts.failed += unhandledErrors.length;
    const file = process.env["DATUMBOOK_TEST_COUNTS"];
    if (file) writeFileSync(file, JSON.stringify(counts));
    else console.log(`${counts.passed} passed, ${counts.failed} failed`);
  }
}

function countTests(modules: readonly TestModule[]): { passed: number; failed: number } {
  let passed = 0;
  let failed = 0;
  for (const module of modules) {
    const states = Array.from(module.children.allTests(), (test) => test.result().state);
    const failures = states.filter((state) => state === "failed").length;
    passed += states.filter((state) => state === "passed").length;
    // A file that breaks outside its tests (an import, a hook) fails with no failing test in it.
    failed += failures === 0 && module.state() === "failed" ? 1 : failures;
  }
  return { passed, failed };
}
