import { blankEntries } from "../../../lib/document/blankEntries.ts";
import type { ClampEntry, LocatorEntry, SeatTouchEntry } from "../../../lib/document/setupDocument.ts";
import { locatorKinds } from "../../../lib/equipment/fixture.ts";
import { writerOf } from "../../figures/displayUnit.ts";
import type { CellContext, Column } from "../../inputs/column.ts";
import { DocumentTable, type TableEdits } from "../../inputs/documentTable.ts";
import { setupFormula } from "../../inputs/formulaPlace.ts";
import { freeName } from "../../inputs/rows.ts";
import { plainDecimals, understandDoubt, understandLength, understandTolerance } from "../format.ts";
import type { SheetResults } from "../sheetResults.ts";
import { columnsOf } from "./columns.ts";
import { operationColumn } from "./operations.ts";

const directions = ["", "+X", "-X", "+Y", "-Y", "+Z", "-Z"] as const;
const pressings = ["+X", "-X", "+Y", "-Y", "+Z", "-Z"] as const satisfies readonly ClampEntry["pressing"][];
const evidences = ["stated", "certificate", "published", "shop default"] as const satisfies readonly LocatorEntry["evidence"][];

const length = { figures: true, understand: understandLength } as const;
const elementNames = ({ names }: CellContext) => ["", ...(names["elements"] ?? [])];
const axes = ["x", "y", "z"] as const;

const locator = columnsOf<LocatorEntry>();
const clamp = columnsOf<ClampEntry>();
const seatTouch = columnsOf<SeatTouchEntry>();

const locatorColumns: readonly Column<LocatorEntry, SheetResults>[] = [
  locator.name(9),
  operationColumn("In which the part is set against it; the first when empty"),
  locator.choice("kind", "kind", 10, () => locatorKinds, { only: locatorKinds }),
  locator.choice("element", "meets", 9, elementNames, { hint: "The face, bore or boss of the part that it holds" }),
  ...axes.map((axis) =>
    locator.text(axis, axis.toUpperCase(), 5, {
      ...length,
      hint: "Where it holds the part, in the drawing's frame; empty where the element says it",
    }),
  ),
  locator.choice("facing", "facing", 4, () => directions, {
    only: directions,
    usual: "",
    hint: "Out of the locator into the part, where no face says it; of a V-block the way it opens, of a diamond pin the way it holds",
  }),
  locator.text("span", "span", 5, { ...length, usual: "", hint: "Fixed jaw: the length over which the part bears on it" }),
  locator.text("angle", "angle", 4, {
    figures: true,
    formula: setupFormula,
    usual: "",
    hint: "V-block: between its faces, in degrees unless written out; 90 when empty",
  }),
  locator.text("diameter", "pin", 6, { ...length, usual: "", hint: "Diameter of the pin" }),
  locator.text("diameterTolerance", "its tolerance", 8, {
    figures: true,
    understand: (text, { diameter }, context) => understandTolerance(text, diameter, context),
    usual: "",
  }),
  locator.text("clearance", "clearance", 6, {
    ...length,
    usual: "",
    hint: "Largest difference of the diameters of hole and pin, where they are not stated",
  }),
  locator.text("height", "stands off by", 6, {
    ...length,
    usual: "",
    hint: "How far it is known to stand from where it should, along its facing",
  }),
  locator.text("heightError", "height ±", 6, {
    ...length,
    understand: understandDoubt,
    hint: "Half-width of what is not known of where it stands",
  }),
  locator.choice("evidence", "rests on", 9, () => evidences, { only: evidences, usual: "stated" }),
  locator.text("seat", "seat u", 6, { ...length, hint: "Standard uncertainty with which a part comes to rest on it anew" }),
  locator.text("debris", "chip up to", 6, { ...length, usual: "", hint: "The thickest chip or burr that may lie on it" }),
  {
    kind: "result",
    key: "off",
    label: "moves metal by",
    width: 9,
    hint: "How far the metal on it is off along its normal, the part's own sizes in it; beneath it the standard uncertainty",
    show: ({ id }, { evaluation: { fixture, setup } }) => {
      if (fixture?.located.ok !== true) return undefined;
      const { location, errors } = fixture.located.value;
      const index = location.contacts.findIndex((contact) => contact.locator === id);
      const budget = errors[index];
      if (budget === undefined) return undefined;
      const writer = writerOf(setup.unit);
      const isRedundant = !location.layout.bearing.some((i) => location.contacts[i]?.locator === id);
      return {
        text: writer.signed(budget.value, plainDecimals[setup.unit]),
        below: isRedundant ? "does not touch" : `u ${writer.withUncertainty(0, budget.standardUncertainty).uncertainty}`,
        ...(isRedundant && { tone: "soft" as const }),
      };
    },
  },
  locator.text("note", "note", 16, { kind: "long", usual: "" }),
];

export function locatorsTable(edits: TableEdits<LocatorEntry>): DocumentTable<LocatorEntry, SheetResults> {
  return new DocumentTable({
    place: "fixture.locators",
    caption:
      "What the part is set against, in the order in which it comes to rest. A jaw holds at both ends of its span; a V-block is a short one.",
    noun: "locator",
    columns: locatorColumns,
    nameOf: ({ id }) => id,
    blank: (rows) => blankEntries.locator(freeName("locator", idsOf(rows))),
    edits,
  });
}

const clampColumns: readonly Column<ClampEntry, SheetResults>[] = [
  clamp.name(9),
  operationColumn("In which it is there; the first when empty"),
  clamp.choice("pressing", "presses to", 5, () => pressings, { only: pressings }),
  ...axes.map((axis) => clamp.text(axis, axis.toUpperCase(), 5, { ...length, hint: "Where it presses, in the drawing's frame" })),
  {
    kind: "result",
    key: "verdict",
    label: "by itself",
    width: 16,
    isAligned: false,
    hint: "By statics of a rigid part, without friction, weight and cutting forces",
    show: ({ id }, { evaluation: { fixture } }) => {
      const check = fixture?.located.ok ? fixture.located.value.clamps.find((each) => each.clamp.id === id) : undefined;
      if (check === undefined) return undefined;
      if (check.reactions === undefined) return { text: "moves the part", tone: "bad" as const };
      const [first, ...more] = check.liftsOff;
      return first === undefined
        ? { text: "presses onto its locators" }
        : { text: `lifts off ${first.label}${more.length > 0 ? ` and ${more.length} more` : ""}`, tone: "bad" as const };
    },
  },
  clamp.text("note", "note", 16, { kind: "long", usual: "" }),
];

export function clampsTable(edits: TableEdits<ClampEntry>): DocumentTable<ClampEntry, SheetResults> {
  return new DocumentTable({
    place: "fixture.clamps",
    caption: "Where clamps press onto the part, each looked at by itself.",
    noun: "clamp",
    columns: clampColumns,
    nameOf: ({ id }) => id,
    blank: (rows) => blankEntries.clamp(freeName("clamp", idsOf(rows))),
    edits,
  });
}

const seatTouchColumns: readonly Column<SeatTouchEntry, SheetResults>[] = [
  seatTouch.name(9),
  operationColumn("In which it is there; the first when empty"),
  ...(["x", "y"] as const).map((axis) =>
    seatTouch.text(axis, axis.toUpperCase(), 5, { ...length, hint: "Where the part was touched, in the drawing's frame" }),
  ),
  seatTouch.text("baseline", "on a good seat", 9, { ...length, hint: "Reading on a part that is known to have sat well" }),
  seatTouch.text("reading", "now", 9, length),
  {
    kind: "result",
    key: "lift",
    label: "lift",
    width: 8,
    hint: "How far the part stands higher than on the good seat; beneath it the standard uncertainty",
    show: ({ id }, { evaluation: { fixture, setup } }) => {
      const found = fixture?.seat?.ok ? fixture.seat.value.touched.find((each) => each.id === id) : undefined;
      if (found === undefined) return undefined;
      const writer = writerOf(setup.unit);
      return {
        text: writer.signed(found.lift.value, plainDecimals[setup.unit]),
        below: `u ${writer.withUncertainty(0, found.lift.standardUncertainty).uncertainty}`,
      };
    },
  },
  seatTouch.text("note", "note", 16, { kind: "long", usual: "" }),
];

export function seatTouchesTable(edits: TableEdits<SeatTouchEntry>): DocumentTable<SeatTouchEntry, SheetResults> {
  return new DocumentTable({
    place: "fixture.seatTouches",
    caption: "Touches from above on the seated part, and the same on a part that sat well. Four go round the part, corner by corner.",
    noun: "seat touch",
    columns: seatTouchColumns,
    nameOf: ({ id }) => id,
    blank: (rows) => blankEntries.seatTouch(freeName("seat touch", idsOf(rows))),
    edits,
  });
}

function idsOf(rows: readonly { readonly id: string }[]): string[] {
  return rows.map(({ id }) => id);
}
