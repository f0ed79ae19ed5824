import type { Outcome } from "../../lib/base/outcome.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { registers } from "../../lib/equipment/equipment.ts";
import { decisionRuleNames } from "../../lib/part/decisionRule.ts";
import { generalTolerances } from "../../lib/part/generalTolerance.ts";
import { EntryField } from "../inputs/entryField.ts";
import { setupFormula } from "../inputs/formulaPlace.ts";
import { html } from "../inputs/html.ts";
import { understandLength } from "./format.ts";

/** An entry that stands by itself in the document. */
interface FieldDescription {
  readonly place: string;
  readonly label: string;
  readonly hint?: string;
  readonly width: number;
  readonly kind?: "text" | "choice" | "long";
  readonly choices?: readonly string[];
  readonly isLength?: boolean;
  /** Whether it takes a formula that is no length. */
  readonly isFormula?: boolean;
  readonly read: (document: SetupDocument) => string;
  /** Undefined for a text that the document cannot hold. */
  readonly write: (document: SetupDocument, text: string) => SetupDocument | undefined;
}

export interface FieldEdits {
  edit(change: (before: SetupDocument) => SetupDocument, what: string, session: object): void;
  abandon(session: object): void;
}

export interface Fields {
  readonly element: HTMLElement;
  readonly fields: readonly EntryField[];
  show(document: SetupDocument): void;
}

/** Entries in lines, so that arrow keys go from line to line. */
function fieldsOf(lines: readonly (readonly FieldDescription[])[], unitOf: () => "mm" | "inch", edits: FieldEdits): Fields {
  const made = lines.map((line) => line.map((description) => ({ description, field: createField(description, unitOf, edits) })));
  return {
    element: html(
      "div",
      { class: "fields" },
      ...made.map((line, i) => html("div", { class: "line", "data-row": `line-${i}` }, ...line.map(({ field }) => field.element))),
    ),
    fields: made.flat().map(({ field }) => field),
    show: (document) => {
      for (const { description, field } of made.flat()) field.show(description.read(document));
    },
  };
}

function createField(
  { place, label, hint, width, kind, choices, isLength, isFormula, write }: FieldDescription,
  unitOf: () => "mm" | "inch",
  edits: FieldEdits,
): EntryField {
  const understand = (text: string): Outcome<string> => understandLength(text, undefined, { unit: unitOf(), names: {} });
  return new EntryField({
    place,
    label,
    width,
    ...(hint !== undefined && { hint }),
    ...(kind !== undefined && { kind }),
    ...(choices !== undefined && { choices }),
    ...(isLength && { understand }),
    ...((isLength || isFormula) && { formula: setupFormula }),
    onEdit: (text, session) => {
      let refusal: string | undefined;
      edits.edit(
        (before) => {
          const written = write(before, text);
          if (written === undefined) refusal = `“${text}” cannot be entered here; until it can, the entry stays as it was.`;
          return written ?? before;
        },
        label,
        session,
      );
      return refusal;
    },
    onAbandon: (session) => edits.abandon(session),
  });
}

const heatExpectations = ["left in the work", "taken out"] as const satisfies readonly SetupDocument["heat"]["expected"][];
const evidences = ["stated", "certificate", "published", "shop default"] as const satisfies readonly SetupDocument["heat"]["evidence"][];

type Machine = SetupDocument["machine"];
const axisNames = ["x", "y", "z"] as const;

export function machineFields(unitOf: () => "mm" | "inch", edits: FieldEdits): Fields {
  const entry = (key: keyof Machine & string, label: string, width: number, more: Partial<FieldDescription> = {}): FieldDescription => ({
    place: `machine.${key}`,
    label,
    width,
    read: ({ machine }) => String(machine[key]),
    write: (document, text) => ({ ...document, machine: { ...document.machine, [key]: text } }),
    ...more,
  });
  const perAxis = (key: "lostMotion" | "squareness" | "working", label: string, more: Partial<FieldDescription> = {}) =>
    axisNames.map(
      (axis): FieldDescription => ({
        place: `machine.${key}.${axis}`,
        label: `${label} ${axis.toUpperCase()}`,
        width: 7,
        read: ({ machine }) => machine[key][axis],
        write: (document, text) => ({ ...document, machine: { ...document.machine, [key]: { ...document.machine[key], [axis]: text } } }),
        ...more,
      }),
    );
  const isLength = true;
  return fieldsOf(
    [
      [
        entry("name", "machine", 18),
        entry("register", "register", 6, { kind: "choice", choices: registers }),
        entry("controllerUnit", "it takes", 6, { kind: "choice", choices: ["mm", "inch"] }),
        entry("decimals", "decimals", 4, { hint: "Of an offset as typed; 3 in millimetres and 4 in inches when empty" }),
      ],
      [
        entry("offsetStep", "offset step", 7, {
          isLength,
          hint: "Smallest step of an offset register: its rounding is a source; the last decimal when empty, none with 0",
        }),
        entry("displayStep", "display step", 7, { isLength, hint: "Smallest step of the position display: a source on every touch" }),
        entry("positioning", "positioning error", 7, { isLength, hint: "Half-width, over a distance" }),
        entry("positioningOver", "over", 7, { isLength }),
      ],
      perAxis("lostMotion", "lost motion", { isLength, hint: "Left after compensation" }),
      perAxis("squareness", "out of square about", {
        isLength,
        hint: "Half-width over the length below: about X and Y what is upright against the plane of X and Y, about Z the way along Y against that along X",
      }).concat(entry("squarenessOver", "over", 7, { isLength })),
      perAxis("working", "last move", { hint: "Direction of the last move before cutting: +, -, or nothing when both occur" }),
      [entry("note", "note", 40)],
    ],
    unitOf,
    edits,
  );
}

/** What warms part and scales; beside the machine. */
export function heatFields(unitOf: () => "mm" | "inch", edits: FieldEdits): Fields {
  type Heat = SetupDocument["heat"];
  const entry = (
    key: "evidence" | "expected" | "note",
    label: string,
    width: number,
    more: Partial<FieldDescription> = {},
  ): FieldDescription => ({
    place: `heat.${key}`,
    label,
    width,
    read: ({ heat }) => heat[key],
    write: (document, text) => ({ ...document, heat: { ...document.heat, [key]: text } }),
    ...more,
  });
  const bodyOf = (body: "part" | "scale", key: keyof Heat["part"] & string, label: string, hint: string): FieldDescription => ({
    place: `heat.${body}.${key}`,
    label,
    width: 6,
    isFormula: true,
    hint,
    read: ({ heat }) => heat[body][key],
    write: (document, text) => ({ ...document, heat: { ...document.heat, [body]: { ...document.heat[body], [key]: text } } }),
  });
  const line = (body: "part" | "scale", owner: string) => [
    bodyOf(body, "temperature", `${owner}, °C`, "While touching and cutting"),
    bodyOf(body, "temperatureUncertainty", `u, ${owner} °C`, "Standard uncertainty of the temperature, in kelvins"),
    bodyOf(
      body,
      "coefficient",
      `expansion of ${owner}, 1e-6/K`,
      "Coefficient of linear expansion: 23.6 for many aluminium alloys, about 11.5 for steel",
    ),
    bodyOf(
      body,
      "coefficientUncertainty",
      `u, expansion of ${owner}`,
      "Standard uncertainty of the coefficient, in 1e-6/K, or as a share of it, such as 10 %",
    ),
  ];
  return fieldsOf(
    [
      line("part", "part"),
      line("scale", "scales"),
      [
        entry("expected", "expected expansion is", 12, {
          kind: "choice",
          choices: heatExpectations,
          hint: "Left in the work it is a deviation; taken out by programme or control, only its doubt is left",
        }),
        entry("evidence", "coefficients are", 9, { kind: "choice", choices: evidences }),
      ],
      [entry("note", "note", 40)],
    ],
    unitOf,
    edits,
  );
}

export function fixtureFields(unitOf: () => "mm" | "inch", edits: FieldEdits): Fields {
  const entry = (
    key: "seatScatter" | "wantedError" | "note",
    label: string,
    width: number,
    more: Partial<FieldDescription> = {},
  ): FieldDescription => ({
    place: `fixture.${key}`,
    label,
    width,
    read: ({ fixture }) => fixture[key],
    write: (document, text) => ({ ...document, fixture: { ...document.fixture, [key]: text } }),
    ...more,
  });
  return fieldsOf(
    [
      [
        entry("wantedError", "wanted error", 7, {
          isLength: true,
          hint: "How far locating may move any feature at worst: the spacing of locators that this asks for is told",
        }),
        entry("seatScatter", "scatter of a seat reading", 7, {
          isLength: true,
          hint: "Standard deviation of one Z reading of the seat check",
        }),
      ],
      [entry("note", "note", 40)],
    ],
    unitOf,
    edits,
  );
}

type Section = "madeParts" | "warmUp";

/** Entries of one section that stand beside its table. */
function entryOf<S extends Section>(section: S) {
  return (key: keyof SetupDocument[S] & string, label: string, width: number, more: Partial<FieldDescription> = {}): FieldDescription => ({
    place: `${section}.${key}`,
    label,
    width,
    read: (document) => String(document[section][key]),
    write: (document, text) => ({ ...document, [section]: { ...document[section], [key]: text } }),
    ...more,
  });
}

export function madePartsFields(unitOf: () => "mm" | "inch", edits: FieldEdits): Fields {
  const entry = entryOf("madeParts");
  return fieldsOf(
    [
      [
        entry("partScatter", "scatter of one part", 7, {
          isLength: true,
          hint: "Standard deviation of one part about the mean of many, where it is known; otherwise several parts tell it",
        }),
        entry("scale", "change of scale", 7, {
          kind: "choice",
          choices: ["left out", "sought"],
          hint: "Sought where heat is suspected: it asks for features far apart",
        }),
      ],
      [entry("note", "note", 40)],
    ],
    unitOf,
    edits,
  );
}

export function warmUpFields(unitOf: () => "mm" | "inch", edits: FieldEdits): Fields {
  const entry = entryOf("warmUp");
  return fieldsOf(
    [
      [
        entry("axis", "read along", 4, { kind: "choice", choices: ["X", "Y", "Z"] }),
        entry("start", "at the start", 9, {
          isLength: true,
          hint: "The reading at the start, where it is known otherwise; found from the readings when empty",
        }),
        entry("allowed", "allowed drift", 7, {
          isLength: true,
          hint: "When empty, what the characteristic with the least room along this axis leaves beside its root sum square",
        }),
      ],
      [
        entry("cycle", "minutes per part", 6, { isFormula: true, hint: "For the times at which zero is to be set anew from a cold start" }),
        entry("setAt", "zero set after", 6, { isFormula: true, hint: "Minutes after the start at which the zero in force was set" }),
      ],
      [entry("note", "note", 40)],
    ],
    unitOf,
    edits,
  );
}

export function jobFields(unitOf: () => "mm" | "inch", edits: FieldEdits): Fields {
  const entry = (
    key: "title" | "note" | "revision" | "unit",
    label: string,
    width: number,
    more: Partial<FieldDescription> = {},
  ): FieldDescription => ({
    place: key,
    label,
    width,
    read: (document) => document[key],
    write: (document, text) => ({ ...document, [key]: text }),
    ...more,
  });
  const decided = (
    key: "rule" | "conformanceProbability" | "guardBand" | "inspection",
    label: string,
    width: number,
    more: Partial<FieldDescription>,
  ): FieldDescription => ({
    place: `decision.${key}`,
    label,
    width,
    read: ({ decision }) => decision[key],
    write: (document, text) => ({ ...document, decision: { ...document.decision, [key]: text } }),
    ...more,
  });
  const counted = (key: "trials" | "seed", label: string, hint: string): FieldDescription => ({
    place: `sampling.${key}`,
    label,
    hint,
    width: 8,
    read: ({ sampling }) => String(sampling[key]),
    write: (document, text) =>
      /^\s*\d{1,15}\s*$/.test(text) ? { ...document, sampling: { ...document.sampling, [key]: Number(text) } } : undefined,
  });
  return fieldsOf(
    [
      [entry("title", "job", 28), entry("revision", "revision", 5)],
      [
        {
          place: "part.name",
          label: "part",
          width: 22,
          read: ({ part }) => part.name,
          write: (document, text) => ({ ...document, part: { ...document.part, name: text } }),
        },
        {
          place: "part.generalTolerance",
          label: "general tolerance",
          width: 9,
          kind: "choice",
          choices: generalTolerances,
          hint: "Of dimensions, diameters, distances and depths that state none of their own; without it dimensions are exact, diameters free, distances refused",
          read: ({ part }) => part.generalTolerance,
          write: (document, text) => {
            const generalTolerance = generalTolerances.find((each) => each === text);
            return generalTolerance && { ...document, part: { ...document.part, generalTolerance } };
          },
        },
        entry("unit", "bare numbers are", 6, {
          kind: "choice",
          choices: ["mm", "inch"],
          hint: "Unit of every bare number, and of what is shown",
        }),
        counted("trials", "trials", "Random trials that tell how failures coincide"),
        counted("seed", "seed", "The same seed, the same trials"),
      ],
      [
        decided("rule", "decided by", 16, {
          kind: "choice",
          choices: decisionRuleNames,
          hint: "How each characteristic of this part is accepted or rejected; with guard bands inside the limits, outside, or both",
        }),
        decided("conformanceProbability", "guard bands for (95 % if empty)", 6, {
          hint: "Least chance with which what is accepted conforms, or what is rejected does not; 95 % when empty",
        }),
        decided("guardBand", "or as wide as U times", 5, {
          hint: "In place of a chance: the width of each guard band as a multiple of the expanded uncertainty (k = 2) of what is judged",
        }),
        decided("inspection", "made parts measured with u", 9, {
          hint: "Standard uncertainty with which each made part is measured, of one coordinate in a round zone; tells the risks of inspecting the batch",
        }),
      ],
      [entry("note", "note", 60, { kind: "long" })],
    ],
    unitOf,
    edits,
  );
}

/** Who answers for the setup, and the author's own paragraphs of the rationale. */
export function recordFields(unitOf: () => "mm" | "inch", edits: FieldEdits): Fields {
  const entry = (
    key: keyof SetupDocument["record"] & string,
    label: string,
    width: number,
    more: Partial<FieldDescription> = {},
  ): FieldDescription => ({
    place: `record.${key}`,
    label,
    width,
    read: ({ record }) => record[key],
    write: (document, text) => ({ ...document, record: { ...document.record, [key]: text } }),
    ...more,
  });
  const own = (key: "choice" | "assumptions" | "changes" | "risks", label: string) =>
    entry(key, label, 60, {
      kind: "long",
      hint: "Your own words: they stand in the rationale as you write them, beside what the numbers say",
    });
  return fieldsOf(
    [
      [entry("preparedBy", "prepared by", 18), entry("checkedBy", "checked by", 18), entry("date", "date of the record", 12)],
      [own("choice", "why this strategy, in your words")],
      [own("assumptions", "what you assume")],
      [own("changes", "what would change your choice")],
      [own("risks", "risks that stay open")],
    ],
    unitOf,
    edits,
  );
}
