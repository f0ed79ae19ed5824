import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import type { Reporter, TestModule } from "vitest/node";
import { checkedSources, publishedChecksFile } from "../../.ci/publishedChecks.mjs";
import { publishedReport } from "./publishedReport.ts";

/**
 * Counts the tests for the closing line `N passed, N failed`. The whole run (`.ci/test.mjs`) names a file
 * for the counts and adds its own steps to them; without one the line is printed here.
 */
export default class SummaryReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandledErrors: readonly unknown[]): void {
    const counts = countTests(modules);
    counts.failed += unhandledErrors.length;
    writePublished(modules);
    tellSecondGoes(modules);
    const file = process.env["DATUMBOOK_TEST_COUNTS"];
    if (file) writeFileSync(file, JSON.stringify(counts));
    else console.log(`${counts.passed} passed, ${counts.failed} failed`);
  }
}

/** Names the tests that passed only at their second go, with what the first one said: each is a fault of the test or of the page. */
function tellSecondGoes(modules: readonly TestModule[]): void {
  for (const module of modules) {
    for (const test of module.children.allTests()) {
      if (test.diagnostic()?.flaky !== true) continue;
      const reasons = test.result().errors?.map(({ message }) => message) ?? [];
      console.log(`At its second go only: ${module.relativeModuleId}, ${test.fullName}\n  ${reasons.join("\n  ")}`);
    }
  }
}

/** What was checked against published documents, as this run found it: the builds that follow take it in. */
function writePublished(modules: readonly TestModule[]): void {
  const wholly = new Set<string>();
  const tests = modules.flatMap((module) => {
    const document = /\/tests\/published\/(.+)\.test\.ts$/.exec(module.moduleId)?.[1];
    if (document === undefined) return [];
    const all = [...module.children.allTests()];
    const run = all.filter((test) => test.result().state !== "skipped");
    if (run.length === all.length) wholly.add(document);
    return run.map((test) => ({
      document,
      name: test.fullName,
      passed: test.result().state === "passed",
      checks: test.meta().published,
    }));
  });
  if (tests.length === 0) return;
  const documents = readdirSync(published).flatMap((file) => (file.endsWith(".test.ts") ? [file.slice(0, -".test.ts".length)] : []));
  const notRun = documents.filter((document) => !wholly.has(document));
  mkdirSync(dirname(publishedChecksFile), { recursive: true });
  writeFileSync(
    publishedChecksFile,
    publishedReport(tests, { date: new Date().toISOString().slice(0, 10), sources: checkedSources(), notRun }),
  );
}

const published = fileURLToPath(new URL("../published/", import.meta.url));

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
