import type { Outcome } from "../../../lib/base/outcome.ts";
import { success } from "../../../lib/base/outcome.ts";
import type { AxisDirection } from "../../../lib/base/vector.ts";
import { axisOf } from "../../../lib/base/vector.ts";
import { axisOnlyErrors } from "../../../lib/datum/axisOnlyErrors.ts";
import { blankEntries } from "../../../lib/document/blankEntries.ts";
import type { TouchEntry } from "../../../lib/document/setupDocument.ts";
import { parsePointReadings } from "../../../lib/readings/parsePointReadings.ts";
import { parseReadings } from "../../../lib/readings/parseReadings.ts";
import { summariseTouch } from "../../../lib/readings/summariseTouch.ts";
import { writerOf } from "../../figures/displayUnit.ts";
import type { CellContext, Column } from "../../inputs/column.ts";
import { DocumentTable, type TableEdits } from "../../inputs/documentTable.ts";
import { setupFormula } from "../../inputs/formulaPlace.ts";
import { freeName } from "../../inputs/rows.ts";
import { plainDecimals, shownWithUncertainty, understandLength } from "../format.ts";
import type { SheetResults } from "../sheetResults.ts";
import { columnsOf } from "./columns.ts";
import { operationColumn } from "./operations.ts";

const travels = ["+X", "-X", "+Y", "-Y", "+Z", "-Z", "radial", "sweep"] as const satisfies readonly TouchEntry["travelling"][];
const spindles = ["as calibrated", "turned half round"] as const satisfies readonly TouchEntry["spindle"][];

const touch = columnsOf<TouchEntry>();

const columns: readonly Column<TouchEntry, SheetResults>[] = [
  touch.name(9),
  operationColumn("In which it was taken; the first when empty"),
  touch.choice("element", "face", 9, ({ names }) => [...(names["elements"] ?? []), ...(names["locators"] ?? [])], {
    hint: "What was touched: an element of the part, or a locator of the fixture by its name",
  }),
  touch.choice("travelling", "travelling", 6, () => travels, { hint: "Direction in which the tool moved to touch", only: travels }),
  touch.choice("tool", "with", 8, ({ names }) => names["tools"] ?? [], { hint: "The tool that touched" }),
  touch.choice("spacer", "upon", 8, ({ names }) => ["", ...(names["spacers"] ?? [])], {
    hint: "What lay between tool and face",
    usual: "",
    isWanted: ({ names }) => (names["spacers"] ?? []).length > 0,
  }),
  ...(["x", "y", "z"] as const).map((axis) =>
    touch.text(axis, `at ${axis.toUpperCase()}`, 8, {
      figures: true,
      formula: setupFormula,
      usual: "",
      hint: `Where the screen showed the tool along ${axis.toUpperCase()}${axis === "z" ? ": its gauge line, as of a touch from above" : ""}`,
      understand: understandLength,
    }),
  ),
  ...(["x", "y"] as const).map((axis) =>
    touch.nested("total", axis, `total ${axis.toUpperCase()}`, 8, {
      figures: true,
      formula: setupFormula,
      usual: "",
      isWanted: ({ names }) => (names["indicators"] ?? []).length > 0,
      hint: `Swept indicator: total reading left along ${axis.toUpperCase()}, + side less - side`,
      understand: understandLength,
    }),
  ),
  touch.choice("frame", "screen showed", 9, ({ names }) => ["machine", ...(names["workFrames"] ?? [])], {
    usual: "machine",
    isWanted: ({ names }) => (names["workFrames"] ?? []).length > 0,
    hint: "Machine coordinates, or those of an older work frame",
  }),
  touch.choice("spindle", "spindle", 12, () => spindles, { usual: "as calibrated", only: spindles }),
  touch.text("readings", "readings", 19, {
    kind: "long",
    figures: true,
    formula: setupFormula,
    hint: "What the screen showed; several readings with blanks between them. Empty while the touch is still to be taken",
    understand: understandReadings,
  }),
  {
    kind: "result",
    key: "mean",
    label: "mean",
    width: 9,
    hint: "Mean of the readings, machine coordinates; beneath it their scatter",
    show: ({ id }, { evaluation }) => {
      if (evaluation.setup.planned.some((each) => each.id === id)) return { text: "not touched yet" };
      const touch = evaluation.setup.touches.find((each) => each.id === id);
      const [first, ...others] = touch === undefined ? [] : summariseTouch(touch);
      if (first === undefined || others.length > 0) return undefined;
      const { unit } = evaluation.setup;
      const writer = writerOf(unit);
      const { mean, standardDeviation, count } = first.repeats;
      const below =
        standardDeviation === undefined ? (count === 1 ? "one reading" : "") : `s ${writer.fixed(standardDeviation, plainDecimals[unit])}`;
      return { text: writer.fixed(mean, plainDecimals[unit]), below };
    },
  },
  {
    kind: "result",
    key: "coordinate",
    label: "face at",
    width: 9,
    hint: "Machine coordinate of the touched face, the radius put along the axis; beneath it the standard uncertainty",
    show: ({ id }, { evaluation }) => {
      const face = evaluation.faces.find((each) => each.id === id);
      const largest = Math.max(...evaluation.faces.map(({ budget }) => budget.standardUncertainty));
      return face && shownWithUncertainty(face.budget, evaluation.setup.unit, largest);
    },
  },
  touch.text("note", "note", 16, { kind: "long", usual: "" }),
];

export function touchesTable(edits: TableEdits<TouchEntry>): DocumentTable<TouchEntry, SheetResults> {
  return new DocumentTable({
    place: "touches",
    caption: "What the screen showed when the tool met the face. Type a reading or a formula, or paste a block.",
    noun: "touch",
    columns,
    nameOf: ({ id }) => id,
    blank: (rows) => ({
      ...blankEntries.touch(
        freeName(
          "touch",
          rows.map(({ id }) => id),
        ),
      ),
      ...lastChoices(rows),
    }),
    about: ({ id }, results) => [usesOf(id, results), axisOnlyOf(id, results)].filter((sentence) => sentence !== "").join(" "),
    edits,
  });
}

/** A new touch is most often taken with the tool of the one before. */
function lastChoices(rows: readonly TouchEntry[]): Partial<TouchEntry> {
  const last = rows.at(-1);
  return last === undefined ? {} : { tool: last.tool, frame: last.frame };
}

function understandReadings(text: string, { travelling }: TouchEntry, { unit }: CellContext): Outcome<string> {
  if (travelling === "radial" || travelling === "sweep") {
    const points = parsePointReadings(text, { unit });
    return points.ok ? success([...points.value.understoodAs, ...points.value.notes].join(", ")) : points;
  }
  const readings = parseReadings(text, { unit, axis: axisOf(travelling as AxisDirection) });
  return readings.ok ? success([...readings.value.understoodAs, ...readings.value.notes].join(", ")) : readings;
}

function usesOf(id: string, results: SheetResults | undefined): string {
  if (results === undefined) return "";
  const uses = results.evaluation.setup.strategies.filter(({ touches }) => touches.includes(id)).map((strategy) => `“${strategy.id}”`);
  const isPlanned = results.evaluation.setup.planned.some((each) => each.id === id);
  if (uses.length > 0) return `${isPlanned ? "Not touched yet. " : ""}Feeds ${uses.join(", ")}.`;
  return isPlanned ? "Not touched yet, and no strategy uses it." : "No strategy uses it; it still measures this part.";
}

/** What the radius put along the axis leaves out of this face, where the part is known to be turned. */
function axisOnlyOf(id: string, results: SheetResults | undefined): string {
  if (results === undefined) return "";
  const found = axisOnlyErrors(results.evaluation.location).find(({ touch }) => touch === id);
  if (found === undefined || found.error.value === 0) return "";
  const writer = writerOf(results.evaluation.setup.unit);
  const { uncertainty } = writer.withUncertainty(0, found.error.value);
  return `“face at” is ${uncertainty}${writer.suffix} short on this turned part; zero and sizes are not.`;
}
