import { capitalise } from "../../../lib/base/capitalise.ts";
import { parseMoment } from "../../../lib/base/moment.ts";
import { type Outcome, success } from "../../../lib/base/outcome.ts";
import { axisOf } from "../../../lib/base/vector.ts";
import { eventsSince } from "../../../lib/decision/eventsSince.ts";
import { blankEntries } from "../../../lib/document/blankEntries.ts";
import type { CheckEntry, CheckMoveEntry, EventEntry, SlipChanceEntry } from "../../../lib/document/setupDocument.ts";
import { eventKinds } from "../../../lib/readings/checks.ts";
import { parseReadings } from "../../../lib/readings/parseReadings.ts";
import { slipKinds, usualSlipChances } from "../../../lib/readings/slipKinds.ts";
import { expandedUncertainty } from "../../../lib/record/expandedUncertainty.ts";
import { writerOf } from "../../figures/displayUnit.ts";
import type { CellContext, Column } from "../../inputs/column.ts";
import { DocumentTable, type TableEdits } from "../../inputs/documentTable.ts";
import { setupFormula } from "../../inputs/formulaPlace.ts";
import { freeName } from "../../inputs/rows.ts";
import { understandLength } from "../format.ts";
import type { SheetResults } from "../sheetResults.ts";
import { columnsOf } from "./columns.ts";
import { operationColumn } from "./operations.ts";

const travels = ["+X", "-X", "+Y", "-Y", "-Z"] as const satisfies readonly CheckEntry["travelling"][];
const spindles = ["as calibrated", "turned half round"] as const satisfies readonly CheckEntry["spindle"][];
const axes = ["x", "y", "z"] as const;
const length = { figures: true, formula: setupFormula, understand: understandLength } as const;

const check = columnsOf<CheckEntry>();
const move = columnsOf<CheckMoveEntry>();
const event = columnsOf<EventEntry>();
const slipChance = columnsOf<SlipChanceEntry>();

const checkColumns: readonly Column<CheckEntry, SheetResults>[] = [
  check.name(13),
  operationColumn("In which it is taken; the first when empty"),
  check.choice("element", "face", 9, ({ names }) => [...(names["elements"] ?? []), ...(names["locators"] ?? [])], {
    hint: "What is touched, whether the zero rests on it or not: an element of the part, or a locator that the zero was touched on",
  }),
  check.choice("travelling", "travelling", 6, () => travels, { hint: "Direction in which the tool moves to touch", only: travels }),
  check.choice("tool", "with", 8, ({ names }) => names["tools"] ?? [], { hint: "The tool that touches; any of those listed" }),
  check.choice("spacer", "upon", 8, ({ names }) => ["", ...(names["spacers"] ?? [])], {
    hint: "What lies between tool and face",
    usual: "",
    isWanted: ({ names }) => (names["spacers"] ?? []).length > 0,
  }),
  ...axes.map((axis) =>
    check.text(axis, `at ${axis.toUpperCase()}`, 7, { ...length, usual: "", hint: `Where the tool stands along ${axis.toUpperCase()}` }),
  ),
  check.choice("frame", "screen showed", 9, ({ names }) => ["machine", ...(names["workFrames"] ?? [])], {
    usual: "machine",
    isWanted: ({ names }) => (names["workFrames"] ?? []).length > 0,
    hint: "Machine coordinates, or those of an older work frame",
  }),
  check.choice("spindle", "spindle", 12, () => spindles, { usual: "as calibrated", only: spindles }),
  {
    kind: "result",
    key: "must show",
    label: "must show",
    width: 10,
    hint: "Machine coordinate that the display must show; beneath it the limits of one reading, 95.45 % coverage",
    show: ({ id }, { evaluation }) => {
      const judged = evaluation.checks.find((each) => each.check.id === id)?.evaluation;
      if (!judged?.ok) return undefined;
      const { predicted } = judged.value;
      const written = writerOf(evaluation.setup.unit).withUncertainty(predicted.value, expandedUncertainty(predicted).expandedUncertainty);
      return { text: written.value, below: `± ${written.uncertainty}` };
    },
  },
  check.text("readings", "readings", 12, {
    kind: "long",
    figures: true,
    formula: setupFormula,
    hint: "What the screen showed; empty while only the prediction is asked for",
    understand: understandReadings,
  }),
  {
    kind: "result",
    key: "off by",
    label: "off by",
    width: 9,
    hint: "Reading less prediction; beneath it how often its limits fit into it (normalised error)",
    show: ({ id }, { evaluation }) => {
      const judged = evaluation.checks.find((each) => each.check.id === id)?.evaluation;
      const verdict = judged?.ok ? judged.value.verdict : undefined;
      if (verdict === undefined) return undefined;
      const { value, standardUncertainty } = verdict.difference;
      const written = writerOf(evaluation.setup.unit).withUncertainty(value, standardUncertainty);
      return { text: written.value, below: `Eₙ ${errorText(verdict.normalisedError)}` };
    },
  },
  {
    kind: "result",
    key: "verdict",
    label: "verdict",
    width: 8,
    hint: "Whether the reading agrees with this sheet",
    show: ({ id }, { evaluation }) => {
      const judged = evaluation.checks.find((each) => each.check.id === id)?.evaluation;
      const verdict = judged?.ok ? judged.value.verdict : undefined;
      return verdict && { text: verdict.agrees ? "agrees" : "disagrees" };
    },
  },
  check.text("by", "by", 7, { usual: "", hint: "Who took the reading" }),
  check.text("when", "when", 15, {
    figures: true,
    usual: "",
    understand: understandMoment,
    hint: "2026-03-14 16:20; tells checks before and after an event apart",
  }),
  check.text("note", "note", 16, { kind: "long", usual: "" }),
];

/** A normalised error beyond this is told as beyond it. */
const mostTold = 1000;

function errorText(error: number): string {
  return error < mostTold ? String(Number(error.toPrecision(2))) : `above ${mostTold}`;
}

function understandReadings(text: string, { travelling }: CheckEntry, { unit }: CellContext): Outcome<string> {
  if (text.trim() === "") return success("");
  const readings = parseReadings(text, { unit, axis: axisOf(travelling) });
  return readings.ok ? success([...readings.value.understoodAs, ...readings.value.notes].join(", ")) : readings;
}

function understandMoment(text: string): Outcome<string> {
  if (text.trim() === "") return success("");
  const moment = parseMoment(text);
  return moment.ok ? success(moment.value.text) : moment;
}

export function checksTable(edits: TableEdits<CheckEntry>): DocumentTable<CheckEntry, SheetResults> {
  return new DocumentTable({
    place: "checks",
    caption:
      "Faces touched to see whether the zero holds. Without a reading the row says what the display must show; the part is not located by it.",
    noun: "check",
    columns: checkColumns,
    nameOf: ({ id }) => id,
    blank: (rows) => ({
      ...blankEntries.check(
        freeName(
          "check",
          rows.map(({ id }) => id),
        ),
      ),
      ...(rows.at(-1) === undefined ? {} : { tool: rows.at(-1)?.tool as string }),
    }),
    about: ({ id }, results) => aboutCheck(id, results),
    edits,
  });
}

function aboutCheck(id: string, results: SheetResults | undefined): string {
  const judged = results?.evaluation.checks.find((each) => each.check.id === id);
  if (judged === undefined || !judged.evaluation.ok) return "";
  const rests = judged.usedForZero
    ? "The zero in use rests on this face: the check sees less."
    : "The zero in use does not rest on this face.";
  const verdict = judged.evaluation.value.verdict;
  const dominating = verdict?.dominating;
  return dominating === undefined ? rests : `${rests} Most of the doubt comes from ${dominating.source.label}.`;
}

const moveColumns: readonly Column<CheckMoveEntry, SheetResults>[] = [
  move.name(9),
  operationColumn("In which it is driven; the first when empty"),
  move.choice("tool", "with", 9, ({ names }) => ["", ...(names["tools"] ?? [])], { hint: "What stands in the spindle" }),
  ...axes.map((axis) => move.text(axis, axis.toUpperCase(), 7, { ...length, hint: "The place, in the drawing's frame; 0 when empty" })),
  move.text("clearance", "clearance", 8, { ...length, hint: "How far the tip stays above it" }),
  ...(["X", "Y", "Z"] as const).map(
    (axis, i): Column<CheckMoveEntry, SheetResults> => ({
      kind: "result",
      key: `shows ${axis}`,
      label: `${axis} must show`,
      width: 10,
      hint: "Machine coordinate; beneath it the work coordinate with the offset as typed and no length or shift besides",
      show: ({ id }, { evaluation }) => {
        const judged = evaluation.checkMoves.find((each) => each.move.id === id);
        const budget = judged?.machine[i];
        if (!budget?.ok) return undefined;
        const writer = writerOf(evaluation.setup.unit);
        const { value, decimals } = writer.withUncertainty(budget.value.value, budget.value.standardUncertainty);
        const work = judged?.work[i];
        return { text: value, ...(work !== undefined && { below: `work ${writer.fixed(work, Math.max(0, decimals))}` }) };
      },
    }),
  ),
  move.text("note", "note", 16, { kind: "long", usual: "" }),
];

export function checkMovesTable(edits: TableEdits<CheckMoveEntry>): DocumentTable<CheckMoveEntry, SheetResults> {
  return new DocumentTable({
    place: "checkMoves",
    caption: "Places above the part at which the display is looked at, the tip clear of it by what is stated.",
    noun: "check move",
    columns: moveColumns,
    nameOf: ({ id }) => id,
    blank: (rows) =>
      blankEntries.checkMove(
        freeName(
          "over zero",
          rows.map(({ id }) => id),
        ),
      ),
    edits,
  });
}

const eventColumns: readonly Column<EventEntry, SheetResults>[] = [
  event.name(9),
  event.choice("kind", "what happened", 12, () => eventKinds, { only: eventKinds }),
  event.text("when", "when", 15, { figures: true, understand: understandMoment, hint: "2026-03-14 16:20" }),
  event.choice("tool", "tool", 9, ({ names }) => ["", ...(names["tools"] ?? [])], {
    hint: "Of a changed tool or a new stylus: which",
    usual: "",
  }),
  {
    kind: "result",
    key: "since then",
    label: "since then",
    width: 10,
    hint: "Whether checks that agree came after it, along every axis that it puts in question",
    show: ({ id }, { evaluation }) => {
      const told = eventsSince(evaluation).find(({ at }) => at === `events.${id}`);
      return told && { text: told.verifiedSince ? "checked" : "unverified", below: told.standing };
    },
  },
  event.text("note", "note", 24, { kind: "long", usual: "" }),
];

export function eventsTable(edits: TableEdits<EventEntry>): DocumentTable<EventEntry, SheetResults> {
  return new DocumentTable({
    place: "events",
    caption: "What happened since the zero was set: until checks after it agree along every axis, the zero is unverified.",
    noun: "event",
    columns: eventColumns,
    nameOf: ({ id }) => id,
    blank: (rows) =>
      blankEntries.event(
        freeName(
          "event",
          rows.map(({ id }) => id),
        ),
      ),
    about: ({ id }, results) => {
      const told = results && eventsSince(results.evaluation).find(({ at }) => at === `events.${id}`);
      return told ? `${capitalise(told.voids)}; ${told.standing}.` : "";
    },
    edits,
  });
}

const slipChanceColumns: readonly Column<SlipChanceEntry, SheetResults>[] = [
  slipChance.name(9),
  slipChance.choice("slip", "slip", 18, () => slipKinds, { only: slipKinds }),
  slipChance.text("chance", "chance", 8, {
    figures: true,
    formula: setupFormula,
    hint: "Of one touch, tool or entry at which it could happen, in per cent",
  }),
  {
    kind: "result",
    key: "usual",
    label: "shop default",
    width: 9,
    hint: "What is taken where nothing is stated: common practice, no source",
    show: ({ slip }) => ({ text: `${(100 * usualSlipChances[slip]).toFixed(1)} %` }),
  },
  slipChance.text("note", "note", 20, { kind: "long", usual: "" }),
];

export function slipChancesTable(edits: TableEdits<SlipChanceEntry>): DocumentTable<SlipChanceEntry, SheetResults> {
  return new DocumentTable({
    place: "slipChances",
    caption: "How often slips happen here, where it is not as usual. Explanations are ranked by it; only proportions matter.",
    noun: "chance of a slip",
    columns: slipChanceColumns,
    nameOf: ({ id }) => id,
    blank: (rows) =>
      blankEntries.slipChance(
        freeName(
          "chance",
          rows.map(({ id }) => id),
        ),
      ),
    edits,
  });
}
