import { describeProblem, type Outcome } from "../base/outcome.ts";
import { type Axis, axes, indexOfAxis } from "../base/vector.ts";
import { takenContacts } from "../datum/locatePart.ts";
import { strategyDeterminacy } from "../datum/strategyDeterminacy.ts";
import { eventsSince, voidingEvents } from "../decision/eventsSince.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";
import type { Tool } from "../equipment/equipment.ts";
import { type OffsetsEvaluation, partsOf } from "../offsets/offsetTable.ts";
import type { Budget } from "../uncertainty/budget.ts";
import { calibrationInWords, plainCalibration } from "./calibrationInWords.ts";
import { cautions } from "./cautions.ts";
import { determinacySentences } from "./determinacySentences.ts";
import { coverageProbability, expandedUncertainty } from "./expandedUncertainty.ts";
import { type InputSection, type InputValue, listInputs } from "./inputListing.ts";
import { sampledChanceText } from "./internals/chanceText.ts";
import { checksumOfHead } from "./internals/checksumOfHead.ts";
import { degrees, figuresIn, resultFigures } from "./internals/figures.ts";
import { plainNumber } from "./internals/plainNumber.ts";
import { plainOffsets } from "./internals/plainOffsets.ts";
import { recordStack } from "./internals/recordStack.ts";
import { offsetsInWords } from "./internals/summariseOffsets.ts";
import { supposedText } from "./internals/supposedText.ts";
import { type JudgementSentence, judgementSentences } from "./judgementSentences.ts";
import { obstacles } from "./obstacles.ts";
import { recordChecks } from "./recordChecks.ts";
import { type StrategyBend, strategyBend } from "./strategyBend.ts";
import { strategyInUse } from "./strategyInUse.ts";
import { writtenOffsets } from "./writtenOffsets.ts";
import { zeroFormula } from "./zeroFormula.ts";

/** What a record says of a setup that no number follows from, and what its numbers follow from. */
export interface RecordHead {
  readonly title: string;
  readonly note: string;
  readonly part: string;
  readonly revision: string;
  readonly preparedBy: string;
  readonly checkedBy: string;
  readonly date: string;
  /** Revisions noted in the document, oldest first. */
  readonly revisions: readonly { readonly who: string; readonly when: string; readonly why: string }[];
  /** SHA-256 of the inputs that the zero stands on, 64 hexadecimal digits, and the scheme by which it was made. */
  readonly checksum: string;
  readonly checksumScheme: string;
  readonly inputs: { readonly [section: string]: InputValue };
  /** What a file means that leaves an entry out, where that is not empty. */
  readonly usual: readonly { readonly place: string; readonly value: string | number }[];
  /** Readings as typed, by touch. */
  readonly readings: ReadonlyMap<string, string>;
  /** Total readings that sweeps left, as typed, by touch; empty where there are none. */
  readonly totals: ReadonlyMap<string, string>;
  /** Of the tools, by name. */
  readonly toolNotes: ReadonlyMap<string, string>;
  /** Of the strategies, by name. */
  readonly strategyNotes: ReadonlyMap<string, string>;
}

/** Raised when an entry changes its meaning or goes away. */
const recordVersion = 2;

/** A record as plain data (see `recordOf`). */
export type SetupRecord = ReturnType<typeof setupRecord>;

/**
 * The record of a setup as plain data: what the next shift, the quality department and an auditor need to use the zero, to check it and to work it out
 * again. Lengths are in mm and angles in radians; what stands under `written` is what is printed, in the unit of the reader.
 *
 * @param unit of the lengths that are printed; the document's own unless given
 */
export function setupRecord(head: RecordHead, evaluation: SetupEvaluation, unit: "mm" | "inch" = evaluation.setup.unit) {
  const { setup } = evaluation;
  const shown: SetupEvaluation = { ...evaluation, setup: { ...setup, unit } };
  const inUse = strategyInUse(evaluation);
  const strategy = inUse?.evaluation;
  return {
    format: "datumbook record" as const,
    version: recordVersion,
    title: head.title,
    note: head.note,
    part: head.part,
    revision: head.revision,
    operation: setup.operation?.id ?? null,
    machine: setup.machine.name,
    register: setup.machine.register,
    unit,
    preparedBy: head.preparedBy,
    checkedBy: head.checkedBy,
    date: head.date,
    revisions: head.revisions.map(({ who, when, why }) => ({ who, when, why })),
    checksum: checksumOfHead(head),
    coverageProbability,
    supposed: setup.supposed.length > 0 ? supposedText(setup.supposed) : null,
    problems: obstacles(evaluation).map(describeProblem),
    datums: datumsOf(setup.part.elements),
    tools: toolsOf(shown, head),
    spacers: setup.spacers
      .filter(({ id }) => setup.touches.some(({ spacer }) => spacer === id))
      .map(({ id, thickness, standardUncertainty, evidence, calibration }) => ({
        id,
        thickness: thickness as number,
        standardUncertainty: standardUncertainty as number,
        evidence: evidence.kind,
        calibration: { ...plainCalibration(calibration), written: calibrationInWords(calibration) },
        written: withDoubt(thickness, standardUncertainty, unit),
      })),
    readings: readingsOf(shown, head, strategy),
    strategy: strategy === undefined ? null : strategyOf(strategy, inUse?.chosen === true, shown, head),
    noStrategy: strategy === undefined ? `"${setup.chosen}" could not be solved, and no other is put in its place.` : null,
    offsets: offsetsOf(shown, head),
    checks: recordChecks(shown, strategy),
    findings: judgementSentences(shown, { bends: bendsInRecord(shown, strategy) }).flatMap(({ kind, text }) =>
      findings.has(kind) ? [text] : [],
    ),
    cautions: cautions(evaluation).map(({ text }) => text),
    voids: {
      always: voidingEvents().map(({ kind, voids }) => `${kind}: ${voids}`),
      since: eventsSince(evaluation).map(({ name, verifiedSince, voids, standing }) => ({ event: name, verifiedSince, voids, standing })),
    },
    usual: head.usual.map((each) => ({ ...each })),
    inputs: listInputs(head.inputs) satisfies readonly InputSection[],
  };
}

/** Of the strategy that is recorded alone. */
function bendsInRecord(shown: SetupEvaluation, strategy: StrategyEvaluation | undefined): StrategyBend[] {
  return strategy === undefined ? [] : [strategyBend(strategy, shown, "thisPart")];
}

/** What the next shift must know of the readings and of the numbers; which strategy is best, and why, is told in the rationale. */
const findings = new Set<JudgementSentence["kind"]>([
  "consistency",
  "first order",
  "touches disagree",
  "size disagrees",
  "suspicious entry",
  "choice",
  "tilt",
  "skew",
]);

type Unit = "mm" | "inch";

/** A result as data and as it is printed. */
function quantityOf(budget: Budget, unit: Unit) {
  const expanded = expandedUncertainty(budget);
  return {
    value: budget.value,
    standardUncertainty: budget.standardUncertainty,
    expandedUncertainty: expanded.expandedUncertainty,
    coverageFactor: expanded.coverageFactor,
    degreesOfFreedom: plainNumber(expanded.degreesOfFreedom),
    written: figuresIn(unit).result(budget),
  };
}

function withDoubt(length: number, standardUncertainty: number, unit: Unit): { readonly value: string; readonly uncertainty: string } {
  const figures = figuresIn(unit);
  return { value: figures.length(length), uncertainty: standardUncertainty === 0 ? "0" : figures.uncertainty(standardUncertainty) };
}

function datumsOf(elements: SetupEvaluation["setup"]["part"]["elements"]) {
  return elements
    .filter(({ datum }) => datum !== "")
    .map((element) => ({
      letter: element.datum,
      element: element.id,
      is:
        element.kind === "face"
          ? `face towards ${element.outward}`
          : element.kind === "middle"
            ? `middle between "${element.of[0]}" and "${element.of[1]}"`
            : element.kind === "angled face"
              ? `face towards ${degrees.length(element.facing)} degrees from +X towards +Y${inclinationInWords(element.inclination)}`
              : `${element.kind} along Z`,
    }))
    .sort((a, b) => (a.letter < b.letter ? -1 : 1));
}

function inclinationInWords(inclination: number): string {
  if (inclination === 0) return "";
  return `, looking ${inclination > 0 ? "up" : "down"} by ${degrees.length(Math.abs(inclination))} degrees`;
}

/** Those that touched something, each with what is known of its tip and what that rests on. */
function toolsOf({ setup }: SetupEvaluation, { toolNotes }: RecordHead) {
  const { unit } = setup;
  const figures = figuresIn(unit);
  const length = (value: number | undefined) => (value === undefined || value === 0 ? null : figures.length(value));
  return setup.tools
    .filter(({ id }) => setup.touches.some(({ tool }) => tool === id))
    .map((tool) => {
      const scatter = (tool.scatter ?? null) as number | null;
      return {
        id: tool.id,
        kind: tool.kind,
        radius: (tool.radius ?? null) as number | null,
        radiusUncertainty: tool.radiusUncertainty as number,
        radiusEvidence: tool.radiusEvidence.kind,
        lateTrigger: tool.lateTrigger as number,
        eccentricity: tool.eccentricity as number,
        length: (tool.length ?? null) as number | null,
        lengthUncertainty: tool.lengthUncertainty as number,
        scatter,
        scatterFrom: tool.scatterFrom,
        lever: leverOf(tool),
        calibration: { ...plainCalibration(tool.calibration), written: calibrationInWords(tool.calibration) },
        note: toolNotes.get(tool.id) ?? "",
        written: {
          radius: tool.radius === undefined ? null : withDoubt(tool.radius, tool.radiusUncertainty, unit),
          length: tool.length === undefined ? null : withDoubt(tool.length, tool.lengthUncertainty, unit),
          lateTrigger: length(tool.lateTrigger),
          eccentricity: length(tool.eccentricity),
          scatter: scatter === null ? null : figures.uncertainty(scatter),
        },
      };
    });
}

/** The angle of an indicator's lever, radians, as it is stated; null where nothing is. */
function leverOf({ lever }: Tool) {
  if (lever === undefined) return null;
  const { angle = null, largest = null } = lever;
  const doubt = lever.standardUncertainty ?? 0;
  const written =
    lever.largest === undefined
      ? `lever at ${angleText(lever.angle)}${doubt === 0 ? "" : `, u ${degrees.uncertainty(doubt)}°`}`
      : `lever at ${angleText(lever.largest)} at most`;
  return { angle: angle as number | null, standardUncertainty: doubt as number, largest: largest as number | null, written };
}

function angleText(radians: number): string {
  return `${Number(degrees.length(radians))}°`;
}

/** Every touch with its readings as typed, its mean along the travel, and whether the strategy in use counts it. */
function readingsOf({ setup, location }: SetupEvaluation, { readings, totals }: RecordHead, strategy: StrategyEvaluation | undefined) {
  const figures = figuresIn(setup.unit);
  const counted = new Set(strategy?.solution.strategy.touches ?? []);
  return setup.touches.map(({ id, element, tool, spacer, travelling, positions }) => {
    const contact = takenContacts(location).find(({ touch }) => touch === id);
    const axis = /^[+-][XYZ]$/.test(travelling) ? (travelling[1] as Axis) : undefined;
    const mean = contact === undefined || axis === undefined ? null : contact.centre[indexOfAxis(axis)];
    return {
      touch: id,
      element,
      travelling,
      tool,
      spacer: spacer ?? null,
      typed: readings.get(id) ?? "",
      total: totals.get(id) ?? "",
      count: positions.length,
      mean,
      counts: counted.has(id),
      written: { mean: mean === null ? null : figures.length(mean) },
    };
  });
}

function strategyOf(strategy: StrategyEvaluation, chosen: boolean, shown: SetupEvaluation, { strategyNotes }: RecordHead) {
  const { setup, location } = shown;
  const { unit } = setup;
  const { id, zero, rotation, offset, solution } = strategy;
  const determinacy = strategyDeterminacy({ ok: true, value: solution }, location);
  const angle = rotation.ok ? resultFigures(rotation.value, 180 / Math.PI, 5) : undefined;
  return {
    id,
    chosen,
    note: strategyNotes.get(id) ?? "",
    zeroOnPart: solution.strategy.zero.map((place) =>
      place.kind === "element" ? place.element : figuresIn(unit).length(place.value),
    ) as readonly string[],
    sentences: determinacy.ok ? determinacySentences(determinacy.value, shown) : [],
    formula: zeroFormula(strategy, unit),
    zero: axes.map((axis, i) => ({ axis, ...orProblem(zero[i as 0 | 1 | 2], (budget) => quantityOf(budget, unit)) })),
    turn:
      solution.strategy.rotation === "ignored"
        ? null
        : {
            applied: solution.appliesRotation,
            ...orProblem(rotation, (budget) => ({
              ...quantityOf(budget, unit),
              written: angle as NonNullable<typeof angle>,
            })),
          },
    offset: orProblem(offset, ({ register, unit: typedIn, digits, lines }) => ({
      register,
      unit: typedIn,
      digits: digits.map((digit) => ({ ...digit })),
      lines: [...lines],
    })),
    views: (["thisPart", "batch"] as const).map((view) => {
      const { stacks, chanceOfAll } = strategy[view];
      return {
        view,
        chanceOfAll: chanceOfAll.ok ? sampledChanceText(chanceOfAll.value) : null,
        stacks: stacks.flatMap((stack) => (stack.ok ? [recordStack(stack.value, figuresIn(unit))] : [])),
        notKnown: stacks.flatMap((stack, i) =>
          stack.ok ? [] : stack.problems.map((problem) => `"${setup.part.characteristics[i]?.id}": ${describeProblem(problem)}`),
        ),
      };
    }),
  };
}

function orProblem<T, P>(outcome: Outcome<T>, plain: (value: T) => P): { readonly known: P | null; readonly problems: readonly string[] } {
  return outcome.ok ? { known: plain(outcome.value), problems: [] } : { known: null, problems: outcome.problems.map(describeProblem) };
}

/** What the log says is in force in the controller, with the block text for it; null where nothing is logged. */
function offsetsOf(shown: SetupEvaluation, head: RecordHead) {
  const { offsets, setup } = shown;
  if (offsets === undefined) return null;
  const { rows, sentences } = offsetsInWords(offsets, figuresIn(setup.unit));
  return {
    inForce: plainOffsets(shown, offsets),
    written: {
      rows,
      sentences: [...sentences, ...reasonsOf(offsets), ...offsets.history.notes.map(({ row, text }) => `${row}: ${text}`)],
    },
    lines: orProblem(writtenOffsets(shown, offsets, { time: head.date }), (lines) => [...lines]),
  };
}

/** Why, when and by whom each row was logged that a sum in force comes from. */
function reasonsOf({ history, registers }: OffsetsEvaluation): string[] {
  const counted = new Set(registers.flatMap(({ coordinates }) => coordinates.flatMap((each) => partsOf(each).map(({ part }) => part.row))));
  return history.rows.flatMap(({ id, why, when, who }) => {
    const told = [why, when, who].filter((text) => text !== "");
    return counted.has(id) && told.length > 0 ? [`${id}: ${told.join(", ")}.`] : [];
  });
}
