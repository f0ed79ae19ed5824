import { expect, it } from "vitest";
import { publishedReport } from "./support/publishedReport.ts";

it("publishedReport(tests) tells of every document what passed, and the digit that the least exact comparison demands", () => {
  const report = publishedReport([
    // Half a unit of the fourth decimal, and of the second: the second is what is sure.
    { document: "b", name: "a | b", passed: true, checks: { bounds: [0.00005, 0.005], exact: 1 } },
    { document: "a", name: "a whole number", passed: false, checks: { bounds: [], exact: 2 } },
    { document: "a", name: "thousands", passed: true, checks: { bounds: [12.34], exact: 0 } },
    { document: "a", name: "not compared", passed: true, checks: undefined },
  ]);
  expect(report.match(/^## .+$/gm)).toEqual(["## a", "## b"]);
  expect(report).toContain("3 of 4 passed, of 2 documents.");
  expect(report.match(/^\| (?!check|---).+$/gm)).toEqual([
    "| a whole number | **no** | 2 | as printed |",
    "| thousands | yes | 1 | within 12 |",
    "| not compared | yes | 0 |  |",
    "| a \\| b | yes | 3 | 2 decimals |",
  ]);
});
