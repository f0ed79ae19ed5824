import { describeProblem } from "../base/outcome.ts";
import { evidenceInWords } from "../record/evidenceInWords.ts";
import { coverageProbability, expandedUncertainty } from "../record/expandedUncertainty.ts";
import { supposedText } from "../record/internals/supposedText.ts";
import type { Budget, Contribution } from "../uncertainty/budget.ts";
import { coverageFactor } from "../uncertainty/coverage.ts";
import type { Source } from "../uncertainty/source.ts";
import { standardUncertaintyOf } from "../uncertainty/sourceDistribution.ts";
import { type Exchanged, type ExchangedResult, exchangedResults } from "./exchangedResults.ts";
import { cellName, type FormulaCell, type WorkbookCell, type Worksheet, xlsxFile } from "./xlsxFile.ts";

/**
 * The budgets by the strategy in use (see `exchangedResults`) as a workbook that computes: a source has its standard uncertainty and its degrees of freedom once, on
 * the sheet `Sources`; every budget multiplies them with its own sensitivities (numbers, the derivatives of the setup at its readings) and goes on to the
 * expanded uncertainty; `Results` gathers them. Rows of free tables, which may be thousands, have one line each on the sheet `Tables`. Whoever changes a source sees what every result makes of it, to first order.
 *
 * JCGM 100:2008, equations 10 (combined), G.2b (effective degrees of freedom; sources whose size rests on one estimate count as one) and 6.2.1. The
 * coverage factor is the quantile of Student's t for degrees of freedom that need not be whole. `T.INV.2T` of a spreadsheet program rounds them
 * down first, which JCGM 100, G.4.1 lets one do: it stands beneath. t of ν follows exactly from the beta distribution, t² = ν·y/(1 - y) with y the quantile
 * of Beta(1/2, ν/2) (Abramowitz and Stegun, 26.5.27 and 26.7.1), which takes any ν.
 */
export function budgetWorkbook(evaluation: Exchanged): Uint8Array {
  const all = exchangedResults(evaluation);
  const [results, ofTables] = [all.filter(({ row }) => row === undefined), all.filter(({ row }) => row !== undefined)];
  const known = results.flatMap(({ id, unit, budget }) => (budget.ok ? [{ id, unit, budget: budget.value }] : []));
  const sources = sourcesOf(all.flatMap(({ budget }) => (budget.ok ? [budget.value] : [])));
  const rowOf = new Map([...sources.keys()].map((id, i) => [id, i + 1]));
  const rows: WorkbookCell[][] = [];
  const headings = new Set<number>();
  const summaries = new Map<string, Summary>();
  for (const { id, unit, budget } of known) {
    headings.add(rows.length).add(rows.length + 1);
    rows.push([id, unit], budgetColumns);
    const block = blockRows(budget, rows.length, rowOf);
    summaries.set(id, block.summary);
    rows.push(...block.rows, []);
  }
  const { supposed, title } = evaluation.setup;
  const supposition = supposed.length === 0 ? undefined : supposedText(supposed);
  const gathered = results.map(({ id, unit, budget }): WorkbookCell[] => {
    const summary = summaries.get(id);
    if (summary === undefined)
      return [
        id,
        unit,
        undefined,
        undefined,
        undefined,
        undefined,
        undefined,
        budget.ok ? "" : budget.problems.map(describeProblem).join(" "),
      ];
    const { value, combined, freedom, factor, expanded } = summary;
    return [id, unit, ...[value, combined, freedom, factor, expanded].map(fromBudgets), supposed.length === 0 ? undefined : "supposed"];
  });
  return xlsxFile([
    {
      name: "Results",
      rows: [resultColumns, ...gathered, [], ...notes(title, supposition).map((note) => [note])],
      headings: new Set([0]),
      columns: [
        { width: 28 },
        { width: 6 },
        { width: 16, format: "lengths" },
        { width: 22, format: "lengths" },
        { width: 26, format: "freedoms" },
        { width: 16, format: "factors" },
        { width: 22, format: "lengths" },
        { width: 40 },
      ],
    },
    ...(ofTables.length === 0 ? [] : [tablesSheet(ofTables, rowOf, supposed.length > 0)]),
    {
      name: "Budgets",
      rows,
      headings,
      columns: [
        { width: 48 },
        { width: 14 },
        { width: 26 },
        { width: 22 },
        { width: 34, format: "lengths" },
        { width: 16, format: "lengths" },
        { width: 22, format: "shares" },
        { width: 20 },
        { width: 34 },
      ],
    },
    {
      name: "Sources",
      rows: [sourceColumns, ...[...sources.values()].map(sourceRow)],
      headings: new Set([0]),
      columns: [{ width: 48 }, { width: 14 }, { width: 30 }, { width: 24, format: "lengths" }, { width: 20 }],
    },
  ]);
}

/** Column and row of each, its value, and its standard uncertainty from the sources in one formula. */
function tablesSheet(results: readonly ExchangedResult[], rowOf: ReadonlyMap<string, number>, isSupposed: boolean): Worksheet {
  const rows = results.map(({ row, unit, budget }): WorkbookCell[] => {
    const name = [row?.column, row?.number];
    if (!budget.ok) return [...name, unit, undefined, undefined, budget.problems.map(describeProblem).join(" ")];
    const { value, standardUncertainty, contributions } = budget.value;
    const formula = `SQRT(SUMSQ(${contributions.map(({ source, sensitivity }) => `${formulaNumber(Math.abs(sensitivity))}*Sources!${cellName(rowOf.get(source.id) as number, 3)}`).join(",")}))`;
    const isLive = contributions.length > 0 && contributions.length <= mostArguments && formula.length <= longestFormula;
    const notes = [
      ...(isSupposed ? ["supposed"] : []),
      ...(isLive || contributions.length === 0 ? [] : ["more sources than a formula holds"]),
    ];
    return [...name, unit, value, isLive ? { formula, value: standardUncertainty } : standardUncertainty, notes.join("; ") || undefined];
  });
  return {
    name: "Tables",
    rows: [["name", "row", "unit", "value", "standard uncertainty", "note"], ...rows],
    headings: new Set([0]),
    columns: [
      { width: 28 },
      { width: 6 },
      { width: 10 },
      { width: 16, format: "lengths" },
      { width: 22, format: "lengths" },
      { width: 40 },
    ],
  };
}

/** Of one function, and characters of one formula, that spreadsheet programs take (from memory). */
const mostArguments = 255;
const longestFormula = 8192;

function formulaNumber(value: number): string {
  return String(value).toUpperCase().replace("E+", "E");
}

const resultColumns = [
  "result",
  "unit",
  "value",
  "standard uncertainty",
  "effective degrees of freedom",
  "coverage factor",
  "expanded uncertainty",
  "note",
];

const budgetColumns = [
  "source",
  "family",
  "evidence",
  "sensitivity",
  "standard uncertainty of the source",
  "contribution",
  "share of the variance",
  "degrees of freedom",
  "contribution⁴ / degrees of freedom",
];

const sourceColumns = ["source", "family", "evidence", "standard uncertainty", "degrees of freedom"];

function notes(title: string, supposition: string | undefined): string[] {
  return [
    ...(supposition === undefined ? [] : [supposition]),
    ...(title.trim() === "" ? [] : [title]),
    "Lengths in mm, angles in rad. Change a standard uncertainty or degrees of freedom on the sheet Sources, and every result follows to first order; values and sensitivities are those of the readings and do not.",
  ];
}

/** In the order of their names. */
function sourcesOf(budgets: readonly Budget[]): ReadonlyMap<string, Source> {
  const found = new Map(budgets.flatMap(({ contributions }) => contributions.map(({ source }) => [source.id, source] as const)));
  return new Map([...found].sort(([a], [b]) => (a < b ? -1 : 1)));
}

function sourceRow({ label, family, evidence, distribution, degreesOfFreedom }: Source): WorkbookCell[] {
  return [label, family, evidenceInWords(evidence), standardUncertaintyOf(distribution), freedomCell(degreesOfFreedom)];
}

/** A word in the place of a number: formulas ask whether one is there. */
const unlimited = "unlimited";

function freedomCell(degreesOfFreedom: number): number | string {
  return degreesOfFreedom === Number.POSITIVE_INFINITY ? unlimited : degreesOfFreedom;
}

/** Cells of the sheet `Budgets` that other sheets show. */
type Summary = Readonly<Record<"value" | "combined" | "freedom" | "factor" | "expanded", Reference>>;

interface Reference {
  readonly at: string;
  readonly value: number | string;
}

function fromBudgets({ at, value }: Reference): FormulaCell {
  return { formula: `Budgets!${at}`, value };
}

/** @param start index of the first row of the block on its sheet */
function blockRows(budget: Budget, start: number, rowOf: ReadonlyMap<string, number>): { rows: WorkbookCell[][]; summary: Summary } {
  const { contributions, value, standardUncertainty } = budget;
  const { degreesOfFreedom, coverageFactor: factor, expandedUncertainty: expanded } = expandedUncertainty(budget);
  const at = (row: number, column: keyof typeof columns) => cellName(start + row, columns[column]);
  const end = contributions.length;
  const [valueAt, combinedAt, freedomAt, probabilityAt, factorAt, , expandedAt] = Array.from({ length: 7 }, (_, i) =>
    at(end + i, "contribution"),
  ) as [string, string, string, string, string, string, string];
  const all = (column: keyof typeof columns) => `${at(0, column)}:${at(end - 1, column)}`;
  const none = end === 0;
  const terms = `SUM(${all("term")})`;
  const freedom: WorkbookCell = none
    ? unlimited
    : { formula: `IF(${terms}=0,"${unlimited}",${combinedAt}^4/${terms})`, value: freedomCell(degreesOfFreedom) };
  const quantile = `_xlfn.BETA.INV(${probabilityAt},0.5,${freedomAt}/2)`;
  const normal = `_xlfn.NORM.S.INV((1+${probabilityAt})/2)`;
  const whole = Math.floor(degreesOfFreedom);
  const labelled = (label: string, cell: WorkbookCell, note?: string): WorkbookCell[] => [
    label,
    undefined,
    note,
    undefined,
    undefined,
    cell,
  ];
  return {
    rows: [
      ...contributions.map((each, i) => contributionRow(each, i, contributions, { at, combinedAt, rowOf, standardUncertainty })),
      labelled("value", value),
      labelled(
        "combined standard uncertainty",
        none ? 0 : { formula: `SQRT(SUMSQ(${all("contribution")}))`, value: standardUncertainty },
        "JCGM 100, 5.1.2",
      ),
      labelled("effective degrees of freedom", freedom, "JCGM 100, G.4.1"),
      labelled("coverage probability", coverageProbability),
      labelled(
        "coverage factor",
        { formula: `IF(ISNUMBER(${freedomAt}),SQRT(${freedomAt}*${quantile}/(1-${quantile})),${normal})`, value: factor },
        "Student's t, JCGM 100, G.3",
      ),
      labelled(
        "the same, degrees of freedom rounded down",
        {
          formula: `IF(ISNUMBER(${freedomAt}),IF(${freedomAt}<1,"none",_xlfn.T.INV.2T(1-${probabilityAt},${freedomAt})),${normal})`,
          value: whole < 1 ? "none" : coverageFactor(coverageProbability, whole),
        },
        "for comparison",
      ),
      labelled("expanded uncertainty", { formula: `${factorAt}*${combinedAt}`, value: expanded }, "JCGM 100, 6.2.1"),
    ],
    summary: {
      value: { at: valueAt, value },
      combined: { at: combinedAt, value: standardUncertainty },
      freedom: { at: freedomAt, value: freedomCell(degreesOfFreedom) },
      factor: { at: factorAt, value: factor },
      expanded: { at: expandedAt, value: expanded },
    },
  };
}

/** Columns that formulas name, counted from 0. */
const columns = { sensitivity: 3, uncertainty: 4, contribution: 5, share: 6, freedom: 7, term: 8 } as const;

interface Block {
  at(row: number, column: keyof typeof columns): string;
  readonly combinedAt: string;
  readonly rowOf: ReadonlyMap<string, number>;
  readonly standardUncertainty: number;
}

function contributionRow(
  { source, sensitivity, amount }: Contribution,
  i: number,
  all: readonly Contribution[],
  { at, combinedAt, rowOf, standardUncertainty }: Block,
): WorkbookCell[] {
  const row = rowOf.get(source.id) as number;
  const inSources = (column: number) => `Sources!${cellName(row, column)}`;
  return [
    source.label,
    source.family,
    evidenceInWords(source.evidence),
    sensitivity,
    { formula: inSources(3), value: standardUncertaintyOf(source.distribution) },
    { formula: `${at(i, "sensitivity")}*${at(i, "uncertainty")}`, value: amount },
    {
      formula: `IF(${combinedAt}=0,0,(${at(i, "contribution")}/${combinedAt})^2)`,
      value: standardUncertainty === 0 ? 0 : (amount / standardUncertainty) ** 2,
    },
    { formula: inSources(4), value: freedomCell(source.degreesOfFreedom) },
    termCell(i, all, at),
  ];
}

/** Of sources whose size rests on one estimate the first carries the term of all of them. */
function termCell(i: number, all: readonly Contribution[], at: Block["at"]): WorkbookCell {
  const { source } = all[i] as Contribution;
  const together = all.flatMap(({ source: other }, k) =>
    k === i || (source.varianceEstimate !== undefined && other.varianceEstimate === source.varianceEstimate) ? [k] : [],
  );
  if (together[0] !== i) return "with the first of its estimate";
  const squares = together.reduce((sum, k) => sum + (all[k] as Contribution).amount ** 2, 0);
  const amounts = together.map((k) => at(k, "contribution")).join(",");
  return {
    formula: `IF(ISNUMBER(${at(i, "freedom")}),SUMSQ(${amounts})^2/${at(i, "freedom")},0)`,
    value: squares ** 2 / source.degreesOfFreedom,
  };
}
