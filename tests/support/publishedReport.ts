import type { PublishedChecks } from "./recordChecks.ts";

/** A test of a published document, as it went. */
export interface PublishedTest {
  /** The file without its ending: the document. */
  readonly document: string;
  readonly name: string;
  readonly passed: boolean;
  readonly checks: PublishedChecks | undefined;
}

/** The list of what was checked against published documents: a table for each, with the digits that each check demands. */
export function publishedReport(tests: readonly PublishedTest[]): string {
  const passed = tests.filter((test) => test.passed).length;
  const documents = [...new Set(tests.map(({ document }) => document))].sort();
  const tables = documents.map((document) => {
    const rows = tests.filter((test) => test.document === document).map(rowOf);
    return `## ${document}\n\n| check | passed | compared | to |\n| --- | --- | ---: | --- |\n${rows.join("\n")}\n`;
  });
  return `# Published checks\n\n${passed} of ${tests.length} passed, of ${documents.length} documents. “to” is the digit that the least exact comparison of a check demands.\n\n${tables.join("\n")}`;
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
