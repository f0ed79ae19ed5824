import { success } from "../../../lib/base/outcome.ts";
import { blankEntries } from "../../../lib/document/blankEntries.ts";
import type { NestEntry } from "../../../lib/document/setupDocument.ts";
import { parseStatement } from "../../../lib/formula/parseStatement.ts";
import type { NestsEvaluation } from "../../../lib/offsets/nests.ts";
import { writerOf } from "../../figures/displayUnit.ts";
import type { Column } from "../../inputs/column.ts";
import { DocumentTable, type TableEdits } from "../../inputs/documentTable.ts";
import { setupFormula } from "../../inputs/formulaPlace.ts";
import { freeName } from "../../inputs/rows.ts";
import { plainDecimals, understandLength } from "../format.ts";
import type { SheetResults } from "../sheetResults.ts";
import { columnsOf } from "./columns.ts";

const nest = columnsOf<NestEntry>();

/** With or without a doubt. */
const found = {
  figures: true,
  formula: setupFormula,
  understand: (text: string) => {
    const parsed = parseStatement(text);
    return parsed.ok ? success("") : parsed;
  },
} as const;

/** How far a nest was found from where a fit has it, X and Y together. */
const leftOver = (key: "shifted" | "turned", label: string, hint: string): Column<NestEntry, SheetResults> => ({
  kind: "result",
  key: `left over, ${key}`,
  label,
  width: 9,
  hint,
  show: ({ id }, { evaluation }) => {
    const residual = residualOf(id, evaluation.nests?.[key]);
    if (residual === undefined) return undefined;
    const { unit } = evaluation.setup;
    return { text: writerOf(unit).fixed(Math.hypot(residual.x.value, residual.y.value), plainDecimals[unit]) };
  },
});

function residualOf(id: string, fit: NestsEvaluation["shifted"] | undefined) {
  return fit?.ok ? fit.value.residuals.find((residual) => residual.id === id) : undefined;
}

const columns: readonly Column<NestEntry, SheetResults>[] = [
  nest.name(9),
  nest.text("x", "drawn X", 9, { figures: true, understand: understandLength, hint: "From the first nest, as drawn; exact" }),
  nest.text("y", "drawn Y", 9, { figures: true, understand: understandLength, hint: "From the first nest, as drawn; exact" }),
  nest.text("foundX", "found X", 18, {
    ...found,
    hint: "From the first nest, as found in the machine, with or without a doubt, such as 114.281 mm ± 0.003 mm; empty where nobody looked",
  }),
  nest.text("foundY", "found Y", 18, { ...found, hint: "The same along Y" }),
  leftOver("shifted", "off, shifted", "How far the nest lies from where one zero for all nests, shifted alone, has it"),
  leftOver("turned", "off, turned", "The same with one turn for all nests besides"),
  nest.text("note", "note", 16, { kind: "long", usual: "" }),
];

export function nestsTable(edits: TableEdits<NestEntry>): DocumentTable<NestEntry, SheetResults> {
  return new DocumentTable({
    place: "nests",
    caption: "Parts beside the first one: where each lies by the drawing of the fixture, and where it was found.",
    noun: "nest",
    columns,
    nameOf: ({ id }) => id,
    blank: (rows) =>
      blankEntries.nest(
        freeName(
          "nest",
          rows.map(({ id }) => id),
        ),
      ),
    edits,
  });
}
