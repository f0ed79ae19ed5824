import type { PublishedChecks } from "./recordChecks.ts";

/** A test of a published document, as it went. */
export interface PublishedTest {
  /** The file without its ending: the document. */
  readonly document: string;
  readonly name: string;
  readonly passed: boolean;
  readonly checks: PublishedChecks | undefined;
}

/** Which run of the tests a list is of. */
export interface PublishedRun {
  /** ISO 8601. */
  readonly date: string;
  /** What was tested (`checkedSources`). */
  readonly sources: string;
  /** Documents whose checks were not run, or not all of them. */
  readonly notRun: readonly string[];
}

/** The list of what was checked against published documents: a table for each, with the digits that each check demands. */
export function publishedReport(tests: readonly PublishedTest[], { date, sources, notRun }: PublishedRun): string {
  const passed = tests.filter((test) => test.passed).length;
  const documents = [...new Set(tests.map(({ document }) => document))].sort();
  const tables = documents.map((document) => {
    const rows = tests.filter((test) => test.document === document).map(rowOf);
    return `## ${document}\n\n| check | passed | compared | to |\n| --- | --- | ---: | --- |\n${rows.join("\n")}`;
  });
  const rest = notRun.length === 0 ? "All documents are in it." : `Not run, or not wholly: ${notRun.join(", ")}.`;
  const head = [
    "# Published checks",
    `${passed} of ${tests.length} checks against published documents and tables passed, of ${documents.length} documents. ${rest}`,
    `Written by the run of the tests of ${date} on the sources ${sources}, and by nobody. Each document is called as its file in tests/published, where the source stands beside each value. “compared” is the number of values; “to” is the digit that the least exact comparison of a check demands.`,
  ];
  return `${[...head, ...tables].join("\n\n")}\n`;
}

function rowOf({ name, passed, checks }: PublishedTest): string {
  const { bounds, exact } = checks ?? { bounds: [], exact: 0 };
  const cells = [name.replaceAll("|", "\\|"), passed ? "yes" : "**no**", String(bounds.length + exact), digitsOf(bounds, exact)];
  return `| ${cells.join(" | ")} |`;
}

/** Half a unit of the last decimal that agrees is the bound; what has no bound agrees in all digits. */
function digitsOf(bounds: readonly number[], exact: number): string {
  if (bounds.length === 0) return exact === 0 ? "" : "as printed";
  const largest = Math.max(...bounds);
  const decimals = Math.floor(-Math.log10(2 * largest) + 1e-9);
  return decimals >= 1 ? `${decimals} ${decimals === 1 ? "decimal" : "decimals"}` : `within ${Number(largest.toPrecision(2))}`;
}
