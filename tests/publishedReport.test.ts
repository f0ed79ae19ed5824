import { expect, it } from "vitest";
import { checkedSources, publishedChecks } from "../.ci/publishedChecks.mjs";
import { publishedReport } from "./support/publishedReport.ts";

it("publishedReport(tests) tells of every document what passed, and the digit that the least exact comparison demands", () => {
  const report = publishedReport(
    [
      // Half a unit of the fourth decimal, and of the second: the second is what is sure.
      { document: "b", name: "a | b", passed: true, checks: { bounds: [0.00005, 0.005], exact: 1 } },
      { document: "a", name: "a whole number", passed: false, checks: { bounds: [], exact: 2 } },
      { document: "a", name: "thousands", passed: true, checks: { bounds: [12.34], exact: 0 } },
      { document: "a", name: "not compared", passed: true, checks: undefined },
    ],
    { date: "2026-01-02", sources: "0123456789ab", notRun: [] },
  );
  expect(report.match(/^## .+$/gm)).toEqual(["## a", "## b"]);
  expect(report).toContain("3 of 4 checks against published documents and tables passed, of 2 documents. All documents are in it.");
  expect(report.match(/^\| (?!check|---).+$/gm)).toEqual([
    "| a whole number | **no** | 2 | as printed |",
    "| thousands | yes | 1 | within 12 |",
    "| not compared | yes | 0 |  |",
    "| a \\| b | yes | 3 | 2 decimals |",
  ]);
  expect(report).toContain("the tests of 2026-01-02 on the sources 0123456789ab");
  expect(publishedReport([], { date: "", sources: "", notRun: ["c", "d"] })).toContain("Not run, or not wholly: c, d.");
});

it("publishedChecks() is the list of these very sources, and of any others says that there is none", () => {
  const run = { date: "2026-01-02", sources: checkedSources(), notRun: [] };
  const list = publishedReport([{ document: "a", name: "a", passed: true, checks: undefined }], run);
  expect(publishedChecks(list)).toBe(list);
  expect(publishedChecks(list.replace(run.sources, "0123456789ab"))).toMatch(
    /^# Published checks\n\nThe last run of its tests .+ was of other sources/,
  );
  expect(publishedChecks("")).toMatch(/^# Published checks\n\nNo run of its tests was made/);
});
