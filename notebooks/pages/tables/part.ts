import { type Outcome, success } from "../../../lib/base/outcome.ts";
import { axes } from "../../../lib/base/vector.ts";
import { judgeCharacteristic } from "../../../lib/decision/judgeCharacteristic.ts";
import { blankEntries } from "../../../lib/document/blankEntries.ts";
import type { CharacteristicEntry, DatumSystemEntry, DimensionEntry, ElementEntry } from "../../../lib/document/setupDocument.ts";
import { shiftingDatums } from "../../../lib/part/datumShift.ts";
import type { Limits } from "../../../lib/part/part.ts";
import { leastIn } from "../../../lib/part/wall.ts";
import { verdictSentence } from "../../../lib/record/verdictSentence.ts";
import type { Stack } from "../../../lib/tolerance/stack.ts";
import { unitOfStack, writerOf } from "../../figures/displayUnit.ts";
import { formatMet, formatShare } from "../../figures/formatChance.ts";
import type { CellContext, Column, EntryColumn } from "../../inputs/column.ts";
import { DocumentTable, type TableEdits } from "../../inputs/documentTable.ts";
import { setupFormula } from "../../inputs/formulaPlace.ts";
import { changeRow, freeName } from "../../inputs/rows.ts";
import {
  limitsInWords,
  plainDecimals,
  shownLimits,
  shownWithUncertainty,
  understandAngle,
  understandAngleTolerance,
  understandDoubt,
  understandLength,
  understandTolerance,
} from "../format.ts";
import type { SheetResults } from "../sheetResults.ts";
import { columnsOf } from "./columns.ts";
import { operationColumn } from "./operations.ts";

const kinds = ["face", "angled face", "bore", "boss", "middle"] as const satisfies readonly ElementEntry["kind"][];
const directions = ["", "+X", "-X", "+Y", "-Y", "+Z", "-Z"] as const;
const makings = ["before", "here"] as const satisfies readonly ElementEntry["made"][];
const spreads = ["normal", "rectangular", "triangular"] as const satisfies readonly DimensionEntry["spread"][];
const demands = [
  "position",
  "position at maximum material",
  "position within the pattern",
  "coordinate",
  "distance",
  "depth",
  "coaxiality",
  "symmetry",
  "wall thickness",
  "parallelism",
  "perpendicularity",
  "angle",
] as const satisfies readonly CharacteristicEntry["kind"][];
const axisChoices = ["", ...axes] as const;

const length = { figures: true, formula: setupFormula, understand: understandLength } as const;
const elementNames = ({ names }: CellContext) => names["elements"] ?? [];
const orNone = ({ names }: CellContext) => ["", ...(names["elements"] ?? [])];

const element = columnsOf<ElementEntry>();

const elementColumns: readonly Column<ElementEntry, SheetResults>[] = [
  element.name(9),
  element.choice("kind", "kind", 8, () => kinds, { only: kinds }),
  element.choice("outward", "looks to", 4, () => directions, {
    only: directions,
    usual: "",
    hint: "Faces: out of the metal. The left wall of a pocket looks to +X",
  }),
  element.text("facing", "facing", 5, {
    figures: true,
    formula: setupFormula,
    usual: "",
    hint: "Angled faces: where they look, from +X towards +Y, out of the metal, in degrees unless written out",
    understand: understandAngle,
  }),
  element.text("inclination", "inclination", 5, {
    figures: true,
    formula: setupFormula,
    usual: "",
    hint: "Angled faces: how far they look up from level, in degrees unless written out; below 0 for an undercut, nothing for an upright face",
    understand: understandAngle,
  }),
  betweenColumn(0, "between"),
  betweenColumn(1, "and"),
  element.choice("made", "made", 6, () => makings, { only: makings, hint: "Before this setup, or here in it" }),
  operationColumn("That cuts it, for what is cut here; the first when empty"),
  element.text("datum", "datum", 3, { hint: "Letter on the drawing" }),
  ...(["x", "y", "z"] as const).map((axis) =>
    element.text(axis, axis.toUpperCase(), 5, { ...length, hint: "Basic coordinate in the drawing's frame" }),
  ),
  element.text("diameter", "diameter", 4, { ...length, usual: "" }),
  element.text("diameterTolerance", "its tolerance", 8, {
    figures: true,
    formula: setupFormula,
    usual: "",
    hint: "Deviations such as +0.021 0, or a class of ISO 286: H7 of a bore, g6 of a boss",
    understand: (text, { diameter }, context) => understandTolerance(text, diameter, context),
  }),
  element.text("roughness", "roughness", 5, { ...length, hint: "Half-width by which a touch may land off the mean surface" }),
  element.text("skew", "lean", 5, { ...length, usual: "", hint: "Half-width by which the face may lean where it is touched" }),
  element.text("outOfSquare", "out of square", 6, {
    figures: true,
    formula: setupFormula,
    usual: "",
    hint: "Half-width of the angle by which it may stand off what else tells how the part lies, in degrees unless written out; it counts where it is the datum of an orientation",
    understand: understandAngle,
  }),
  element.text("lobes", "lobes", 3, {
    figures: true,
    usual: "",
    hint: "Round walls: how many lobes the form error has round the wall, 2 for an oval",
  }),
  element.text("lobeAmplitude", "their height", 5, {
    ...length,
    usual: "",
    hint: "How far the lobes rise above the mean circle: half of what is measured from peak to valley",
  }),
  element.text("process", "cut to", 5, { ...length, hint: "Standard uncertainty of the cut itself, per axis" }),
  element.text("deflection", "cutter yields up to", 6, {
    ...length,
    usual: "",
    hint: "Faces cut here: how far they may at most stay proud because the cutter yields; half of it is expected",
  }),
  element.text("note", "note", 16, { kind: "long", usual: "" }),
];

/** The two faces of a middle: entries of their own on the page, one in the document. */
function betweenColumn(side: 0 | 1, label: string): EntryColumn<ElementEntry> {
  return {
    kind: "choice",
    key: side === 0 ? "of" : "of.1",
    label,
    width: 6,
    usual: "",
    isWanted: ({ names }) => (names["middles"] ?? []).length > 0,
    choices: orNone,
    read: ({ of }) => of?.[side] ?? "",
    write: (row, text) => {
      const [first = "", second = ""] = row.of ?? [];
      const of: [string, string] = side === 0 ? [text, second] : [first, text];
      return changeRow(row, { of: of[0] === "" && of[1] === "" ? undefined : of } as Partial<ElementEntry>);
    },
  };
}

export function elementsTable(edits: TableEdits<ElementEntry>): DocumentTable<ElementEntry, SheetResults> {
  return new DocumentTable({
    place: "part.elements",
    caption:
      "Faces, bores and bosses. Datums are exact by definition; what existed before hangs on them by dimensions; what is cut here sits at its basic coordinates.",
    noun: "element",
    columns: elementColumns,
    nameOf: ({ id }) => id,
    blank: (rows) =>
      blankEntries.element(
        freeName(
          "element",
          rows.map(({ id }) => id),
        ),
      ),
    about: ({ id }, results) => {
      const element = results?.evaluation.setup.part.elements.find((each) => each.id === id);
      return element !== undefined && "diameterLimits" in element ? aboutLimits("Its diameter", element.diameterLimits, results) : "";
    },
    edits,
  });
}

/** Limits that a standard gives for an entry, in words: who typed figures knows them. */
function aboutLimits(what: string, limits: Limits | undefined, results: SheetResults | undefined): string {
  if (limits?.standard === undefined || results === undefined) return "";
  return `${what}: ${limitsInWords(limits, results.evaluation.setup.unit)}.`;
}

const dimension = columnsOf<DimensionEntry>();

const dimensionColumns: readonly Column<DimensionEntry, SheetResults>[] = [
  dimension.name(12),
  dimension.choice("from", "from", 9, elementNames),
  dimension.choice("to", "to", 9, elementNames),
  dimension.choice("axis", "along", 4, () => axisChoices, { only: axisChoices }),
  dimension.text("nominal", "nominal", 7, { ...length, hint: "With its sign: from the one to the other along the axis" }),
  dimension.text("tolerance", "tolerance", 8, {
    figures: true,
    formula: setupFormula,
    hint: "Deviations such as ±0.05, or a class of ISO 286 such as h9; without one the general tolerance, if the job states it, else exact",
    understand: (text, { nominal }, context) => understandTolerance(text, nominal, context),
  }),
  {
    kind: "result",
    key: "limits",
    label: "limits",
    width: 9,
    isAligned: false,
    hint: "What the tolerance permits along the axis; beneath it the standard that says so",
    show: ({ id }, { evaluation: { setup } }) => {
      const limits = setup.part.dimensions.find((each) => each.id === id)?.limits;
      return limits && { text: shownLimits(limits, setup.unit), ...(limits.standard !== undefined && { below: limits.standard }) };
    },
  },
  dimension.choice("spread", "spread in a batch", 10, () => spreads, {
    only: spreads,
    hint: "Bell-shaped with the limits at three standard deviations, even, or triangular",
  }),
  dimension.text("measured", "measured", 8, { ...length, usual: "", hint: "This very part, measured otherwise" }),
  dimension.text("measuredUncertainty", "its u", 6, { ...length, understand: understandDoubt, usual: "" }),
  {
    kind: "result",
    key: "size",
    label: "by touches",
    width: 9,
    hint: "This part's own size, as the touches measured it on the way; beneath it the standard uncertainty",
    show: ({ id }, { evaluation: { sizes, setup } }) => {
      const size = sizes.find((each) => each.id === id);
      return size && shownWithUncertainty(size.budget, setup.unit, Math.max(...sizes.map(({ budget }) => budget.standardUncertainty)));
    },
  },
  {
    kind: "result",
    key: "off",
    label: "off nominal",
    width: 8,
    hint: "By how much this part differs from the drawing; beneath it how that stands to the tolerance",
    show: ({ id }, { evaluation: { sizes, setup } }) => {
      const size = sizes.find((each) => each.id === id);
      const dimension = setup.part.dimensions.find((each) => each.id === id);
      if (size === undefined || dimension === undefined) return undefined;
      const off = size.budget.value - dimension.nominal;
      const isOut = off < dimension.limits.lower || off > dimension.limits.upper;
      return {
        text: writerOf(setup.unit).signed(off, plainDecimals[setup.unit] - 1),
        below: isOut ? "out of tolerance" : "in tolerance",
        ...(isOut && { tone: "bad" as const }),
      };
    },
  },
  dimension.text("note", "note", 16, { kind: "long", usual: "" }),
];

export function dimensionsTable(edits: TableEdits<DimensionEntry>): DocumentTable<DimensionEntry, SheetResults> {
  return new DocumentTable({
    place: "part.dimensions",
    caption: "Distances that the drawing gives between what existed before this setup: how each face hangs on the datums.",
    noun: "dimension",
    columns: dimensionColumns,
    nameOf: ({ id }) => id,
    blank: (rows) =>
      blankEntries.dimension(
        freeName(
          "dimension",
          rows.map(({ id }) => id),
        ),
      ),
    edits,
  });
}

const characteristic = columnsOf<CharacteristicEntry>();

const characteristicColumns: readonly Column<CharacteristicEntry, SheetResults>[] = [
  characteristic.name(12),
  characteristic.choice("kind", "demands", 9, () => demands, { only: demands }),
  characteristic.choice("of", "of", 10, elementNames),
  characteristic.names("also", "and of", 7, {
    usual: "",
    hint: "Further elements of the same row, such as the other holes of a pattern, with commas between them: it is met when all of them meet it",
  }),
  characteristic.choice("from", "from", 9, orNone, {
    usual: "",
    hint: "Distances and depths: the other element. Coaxiality and symmetry: what it is about. Wall thickness of a bore: the face or the other bore. Parallelism, perpendicularity, angle: the datum",
  }),
  characteristic.choice("datums", "datums", 6, ({ names }) => ["", ...(names["datumSystems"] ?? [])], {
    usual: "",
    isWanted: ({ names }) => (names["datumSystems"] ?? []).length > 0,
    hint: "Positions and coordinates: the datum system; none for the drawing's frame by datum letters",
  }),
  characteristic.choice("axis", "along", 4, () => axisChoices, {
    only: axisChoices,
    usual: "",
    hint: "The axis along which it is told; of an angle the one about which it turns",
  }),
  characteristic.text("tolerance", "tolerance", 8, {
    figures: true,
    formula: setupFormula,
    hint: "Position, coaxiality: the diameter of the zone. Symmetry: its width. Others: deviations such as ±0.05, or limits such as 20.05/19.95; distances and depths also a class of ISO 286, wall thicknesses also: at least 3. Parallelism, perpendicularity: width or diameter of the zone. Angles: ±0.1 deg, or nothing where the job states a general tolerance and the length its shorter side",
    understand: understandDemand,
  }),
  characteristic.text("length", "over length", 4, {
    ...length,
    usual: "",
    hint: "Parallelism, perpendicularity: the length of the feature over which a tilt counts; the part's size across when empty. Angle under a general tolerance: its shorter side",
  }),
  characteristic.text("width", "and width", 4, { ...length, usual: "", hint: "The other length of a face that can tilt both ways" }),
  stackColumn(
    "deviation",
    "deviation",
    9,
    "At the best estimates, with the chosen strategy; in a round zone the diameter used",
    (stack, { evaluation: { setup } }) => ({
      ...shownDeviation(stack, setup.unit),
    }),
  ),
  stackColumn("share", "share used", 7, "Share of the tolerance that the root sum square uses", (stack) => ({
    text: formatShare(stack.shares.rootSumSquare),
    ...(stack.shares.rootSumSquare > 1 && { tone: "bad" as const }),
  })),
  chanceColumn("thisPart", "this part"),
  chanceColumn("batch", "the batch"),
  characteristic.text("note", "note", 16, { kind: "long", usual: "" }),
];

const zones: readonly CharacteristicEntry["kind"][] = [
  "position",
  "position at maximum material",
  "position within the pattern",
  "coaxiality",
  "symmetry",
  "parallelism",
  "perpendicularity",
];

/** The size of a zone, the least of a wall, or deviations. */
function understandDemand(text: string, row: CharacteristicEntry, context: CellContext): Outcome<string> {
  if (zones.includes(row.kind)) return understandLength(text, row, context);
  if (row.kind === "angle") return understandAngleTolerance(text);
  const least = row.kind === "wall thickness" ? leastIn(text) : undefined;
  if (least === undefined) return understandTolerance(text, "", context);
  const understood = understandLength(least, row, context);
  return understood.ok ? success(`at least ${understood.value}`) : understood;
}

/** In the unit of lengths, or in degrees of an angle. */
function shownDeviation(stack: Stack, unit: "mm" | "inch"): { readonly text: string } {
  const { fixed, signed } = writerOf(unitOfStack(stack, unit));
  const text = (stack.isRound ? fixed : signed)(stack.deviation, plainDecimals[unit] - 1);
  return { text: stack.unit === "rad" ? `${text}°` : text };
}

function stackColumn(
  key: string,
  label: string,
  width: number,
  hint: string,
  show: (stack: Stack, results: SheetResults) => { text: string; tone?: "bad" },
): Column<CharacteristicEntry, SheetResults> {
  return {
    kind: "result",
    key,
    label,
    width,
    hint,
    isAligned: key !== "share",
    show: ({ id }, results) =>
      withRow(id, results.view, results, ({ stack, worst }) => ({ ...show(stack, results), ...beneath(key, id, worst) })),
  };
}

function chanceColumn(view: SheetResults["view"], label: string): Column<CharacteristicEntry, SheetResults> {
  return {
    kind: "result",
    key: view,
    label,
    width: 9,
    isAligned: false,
    hint: "Chance of being met, with the chosen strategy",
    show: ({ id }, results) =>
      withRow(id, view, results, ({ stack, chance }) => ({
        text: formatMet(chance),
        tone: chance < unlikely ? "bad" : "strong",
        ...(stack.bonus && { below: `with bonus ${formatMet(stack.bonus.chance)}` }),
        ...(view === "thisPart" && shownVerdict(stack, results)),
      })),
  };
}

/** Nothing has been cut yet: this is what would be said of the part as it is foreseen. */
const foreseen = { accepted: "would pass", rejected: "would not pass", neither: "neither proven" } as const;

/** Beneath the chance that it rests on, where the job states more than simple acceptance. */
function shownVerdict(stack: Stack, { evaluation: { setup } }: SheetResults): { below?: string; title?: string } {
  const { decision } = setup;
  if (decision.ok && decision.value.name === "simple acceptance") return {};
  const found = judgeCharacteristic(stack, decision);
  const { fixed } = writerOf(unitOfStack(stack, setup.unit));
  return {
    below: found.ok ? foreseen[found.value.verdict] : "not decided",
    title: verdictSentence(stack, decision, (millimetres) => fixed(millimetres, plainDecimals[setup.unit])),
  };
}

/** Below this a chance is marked: our own choice, no source. */
export const unlikely = 0.9;

/** A row as it is shown: of one that demands several things at once the worst of them, and the chance that all are met. */
interface ShownRow {
  readonly stack: Stack;
  readonly chance: number;
  readonly worst: string | undefined;
}

function withRow<T>(
  id: string,
  view: SheetResults["view"],
  { chosen, evaluation }: SheetResults,
  show: (row: ShownRow) => T,
): T | undefined {
  if (!chosen.ok) return undefined;
  const { stacks, rows } = chosen.value[view];
  const pattern = rows.find(({ row }) => row === id);
  if (pattern !== undefined) {
    const { chanceOfAll, worst } = pattern;
    const stack = pattern.members
      .flatMap((i) => (stacks[i]?.ok ? [stacks[i].value] : []))
      .find(({ characteristic }) => characteristic === worst);
    return stack && chanceOfAll.ok ? show({ stack, chance: chanceOfAll.value.chance, worst }) : undefined;
  }
  const stack = stacks[evaluation.setup.part.characteristics.findIndex((each) => each.id === id)];
  return stack?.ok ? show({ stack: stack.value, chance: stack.value.chance, worst: undefined }) : undefined;
}

/** Beneath the deviation of a row of several, which of them it is. */
function beneath(key: string, row: string, worst: string | undefined): { readonly below?: string; readonly title?: string } {
  if (key !== "deviation" || worst === undefined) return {};
  return { below: worst.slice(row.length + 2), title: "The worst of the row" };
}

export function characteristicsTable(edits: TableEdits<CharacteristicEntry>): DocumentTable<CharacteristicEntry, SheetResults> {
  return new DocumentTable({
    place: "part.characteristics",
    caption: "What the drawing demands of what is cut here, and how the chosen strategy meets it.",
    noun: "characteristic",
    columns: characteristicColumns,
    nameOf: ({ id }) => id,
    blank: (rows) =>
      blankEntries.characteristic(
        freeName(
          "characteristic",
          rows.map(({ id }) => id),
        ),
      ),
    about: ({ id }, results) => {
      const found = results?.evaluation.setup.part.characteristics.find((each) => each.id === id);
      return found !== undefined && "limits" in found && found.kind !== "angle" ? aboutLimits("Its limits", found.limits, results) : "";
    },
    edits,
  });
}

const system = columnsOf<DatumSystemEntry>();
const datumChoices = ({ names }: CellContext) => ["", ...(names["datumLetters"] ?? []), ...(names["elements"] ?? [])];

const systemColumns: readonly Column<DatumSystemEntry, SheetResults>[] = [
  system.name(9),
  ...(["primary", "secondary", "tertiary"] as const).map((place) =>
    system.choice(place, place, 9, datumChoices, {
      hint: "A datum letter or an element: a face, the mid-plane of two as their middle, the axis of a bore or a boss",
    }),
  ),
  system.choice("atMaximumMaterial", "at maximum material", 12, () => shiftingDatums, {
    only: shiftingDatums,
    usual: "none",
    hint: "Which of them the drawing references at maximum material: bores or bosses with a tolerance. The shift is told, and counts in no chance",
  }),
  system.text("note", "note", 16, { kind: "long", usual: "" }),
];

export function datumSystemsTable(edits: TableEdits<DatumSystemEntry>): DocumentTable<DatumSystemEntry, SheetResults> {
  return new DocumentTable({
    place: "part.datumSystems",
    caption:
      "Datum systems that positions and coordinates can name, each with its datums in their order; without one they go by the datum letters.",
    noun: "datum system",
    columns: systemColumns,
    nameOf: ({ id }) => id,
    blank: (rows) =>
      blankEntries.datumSystem(
        freeName(
          "system",
          rows.map(({ id }) => id),
        ),
      ),
    edits,
  });
}
