import { parseDay } from "../../../lib/base/moment.ts";
import { type Outcome, success } from "../../../lib/base/outcome.ts";
import { blankEntries } from "../../../lib/document/blankEntries.ts";
import type { SpacerEntry, ToolEntry, WorkFrameEntry } from "../../../lib/document/setupDocument.ts";
import type { CellContext, Column } from "../../inputs/column.ts";
import { DocumentTable, type TableEdits } from "../../inputs/documentTable.ts";
import { setupFormula } from "../../inputs/formulaPlace.ts";
import { freeName } from "../../inputs/rows.ts";
import { shownLength, understandAngle, understandDoubt, understandLength } from "../format.ts";
import type { SheetResults } from "../sheetResults.ts";
import { columnsOf } from "./columns.ts";

const kinds = ["turning edge finder", "touch probe", "tool or pin", "swept indicator"] as const satisfies readonly ToolEntry["kind"][];
const evidences = ["stated", "certificate", "published", "shop default"] as const satisfies readonly ToolEntry["radiusEvidence"][];
const scatterOrigins = ["stated", "own repeats", "pooled repeats"] as const satisfies readonly ToolEntry["scatterFrom"][];

const length = { figures: true, formula: setupFormula, understand: understandLength } as const;

/** Shown where something is swept: few tools have a lever. */
const leverColumn = {
  figures: true,
  formula: setupFormula,
  usual: "",
  understand: understandAngle,
  isWanted: ({ names }: CellContext) => (names["indicators"] ?? []).length > 0,
} as const;

const doubt = { ...length, understand: understandDoubt } as const;

const tool = columnsOf<ToolEntry>();
const spacer = columnsOf<SpacerEntry>();

/** Of tools and spacers alike: what their figures rest on, and until when. */
function calibrationColumns<Row extends ToolEntry | SpacerEntry>({ text }: ReturnType<typeof columnsOf<Row>>) {
  const day = { figures: true, usual: "", understand: understandDay } as const;
  return [
    text("certificate", "certificate", 12, {
      usual: "",
      hint: "The certificate or record that its figures rest on, as it is to be found again",
    }),
    text("calibrated", "calibrated", 10, { ...day, hint: "The day on which it was calibrated: 2026-03-14" }),
    text("due", "due again", 10, { ...day, hint: "The last day on which its calibration holds: 2027-03-14" }),
  ];
}

function understandDay(text: string): Outcome<string> {
  if (text.trim() === "") return success("");
  const day = parseDay(text);
  return day.ok ? success(day.value.text) : day;
}
const frame = columnsOf<WorkFrameEntry>();

const toolColumns: readonly Column<ToolEntry, SheetResults>[] = [
  tool.name(8),
  tool.choice("kind", "kind", 13, () => kinds, { only: kinds }),
  tool.text("diameter", "diameter", 6, { ...length, hint: "Catalogue diameter: halved where no effective radius is known" }),
  tool.text("radius", "radius", 11, { ...length, hint: "Effective radius, as calibrated" }),
  tool.text("radiusUncertainty", "its u", 6, {
    ...doubt,
    hint: "Standard uncertainty of the radius; also as a share of it, such as 0.1 %",
  }),
  tool.choice("radiusEvidence", "rests on", 9, () => evidences, { only: evidences, usual: "stated" }),
  tool.text("lateTrigger", "late trigger", 6, { ...length, hint: "Half-width by which the trigger is late, the same on every side" }),
  tool.text("eccentricity", "off axis", 6, { ...length, hint: "How far the tip may stand off the spindle axis" }),
  tool.text("scatter", "scatter", 6, { ...length, hint: "Standard deviation of one touch" }),
  tool.choice("scatterFrom", "scatter from", 11, () => scatterOrigins, { only: scatterOrigins }),
  tool.choice("scatterEvidence", "rests on", 9, () => evidences, { only: evidences, usual: "stated" }),
  tool.text("length", "length", 8, { ...length, hint: "From the gauge line to the tip" }),
  tool.text("lengthUncertainty", "its u", 6, {
    ...doubt,
    hint: "Standard uncertainty of the length; also as a share of it, such as 0.01 %",
  }),
  tool.text("leverAngle", "lever at, °", 6, {
    ...leverColumn,
    hint: "Swept indicator with a lever: its angle to the surface that it sweeps, in degrees; total readings are multiplied by its cosine",
  }),
  tool.text("leverAngleUncertainty", "its u", 6, { ...leverColumn, hint: "Standard uncertainty of the angle of the lever, in degrees" }),
  tool.text("leverAngleLimit", "lever at most, °", 6, {
    ...leverColumn,
    hint: "In place of the angle: the largest at which the lever may stand, in degrees; half of what that could take away is expected, and the rest is doubt",
  }),
  tool.text("touchMinutes", "min a touch", 5, {
    figures: true,
    formula: setupFormula,
    usual: "",
    hint: "Minutes for one touch, the way to it included; empty: a shop default by the kind of the tool",
  }),
  {
    kind: "result",
    key: "effective radius",
    label: "radius",
    width: 8,
    hint: "Effective radius as it was understood",
    show: ({ id }, { evaluation: { setup } }) => shownLength(setup.tools.find((tool) => tool.id === id)?.radius, setup.unit),
  },
  ...calibrationColumns(tool),
  tool.text("note", "note", 16, { kind: "long", usual: "" }),
];

export function toolsTable(edits: TableEdits<ToolEntry>): DocumentTable<ToolEntry, SheetResults> {
  return new DocumentTable({
    place: "tools",
    caption: "What touches, and what its tip does not know about itself. Empty means nothing is stated.",
    noun: "tool",
    columns: toolColumns,
    nameOf: ({ id }) => id,
    blank: (rows) =>
      blankEntries.tool(
        freeName(
          "tool",
          rows.map(({ id }) => id),
        ),
      ),
    about: ({ id }, results) => {
      const touches = results?.evaluation.setup.touches.filter(({ tool }) => tool === id).map((touch) => `“${touch.id}”`) ?? [];
      return touches.length === 0 ? "" : `Touched ${touches.join(", ")}.`;
    },
    edits,
  });
}

export function spacersTable(edits: TableEdits<SpacerEntry>): DocumentTable<SpacerEntry, SheetResults> {
  return new DocumentTable<SpacerEntry, SheetResults>({
    place: "spacers",
    caption: "Blocks, paper and setters that lay between tool and face.",
    noun: "spacer",
    columns: [
      spacer.name(10),
      spacer.text("thickness", "thickness", 10, length),
      spacer.text("uncertainty", "its u", 8, doubt),
      spacer.choice("evidence", "rests on", 12, () => evidences, { only: evidences }),
      ...calibrationColumns(spacer),
      spacer.text("note", "note", 16, { kind: "long" }),
    ],
    nameOf: ({ id }) => id,
    blank: (rows) =>
      blankEntries.spacer(
        freeName(
          "block",
          rows.map(({ id }) => id),
        ),
      ),
    edits,
  });
}

export function workFramesTable(edits: TableEdits<WorkFrameEntry>): DocumentTable<WorkFrameEntry, SheetResults> {
  return new DocumentTable<WorkFrameEntry, SheetResults>({
    place: "workFrames",
    caption: "Offsets that were active when a screen showed work coordinates. Without any, all readings are machine coordinates.",
    noun: "work frame",
    columns: [
      frame.name(10),
      ...(["x", "y", "z"] as const).map((axis) => frame.text(axis, axis.toUpperCase(), 10, length)),
      frame.text("uncertainty", "its u", 6, {
        ...length,
        usual: "",
        hint: "Standard uncertainty of where it stands, per axis; it counts where a part zero stays in this frame",
      }),
      frame.text("note", "note", 16, { kind: "long" }),
    ],
    nameOf: ({ id }) => id,
    blank: (rows) =>
      blankEntries.workFrame(
        freeName(
          "older frame",
          rows.map(({ id }) => id),
        ),
      ),
    edits,
  });
}
