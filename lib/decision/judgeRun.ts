import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Axis, axes, indexOfAxis, turnAboutZ, type Vector } from "../base/vector.ts";
import { drawingAxisInMachine, leastShare } from "../datum/drawingAxes.ts";
import type { Setup } from "../datum/setup.ts";
import { axesOf, basicPlace, type Characteristic, type Element, isRound } from "../part/part.ts";
import {
  type ChangedZero,
  type Effects,
  effectsAt,
  leastSquaresZero,
  type MeasuredDemand,
  sharesAfter,
  smallestLargestShare,
} from "../run/bestZero.ts";
import { type Capability, capabilityOf } from "../run/capability.ts";
import { asCorrected } from "../run/corrections.ts";
import type { MadeParts } from "../run/madeParts.ts";
import { type Correction, errorLeft, proposeCorrection } from "../run/proposeCorrection.ts";
import {
  type Cause,
  type CauseFound,
  type Measurable,
  type MeasuredDeviation,
  type Separation,
  separateDeviations,
  usualCauses,
  whatWouldSeparate,
} from "../run/separateDeviations.ts";
import { fewestForAChart, type RunOfParts, watchRun } from "../run/watchRun.ts";
import type { Budget } from "../uncertainty/budget.ts";
import { covarianceOfBudgets } from "../uncertainty/covariance.ts";
import { summariseRepeats } from "../uncertainty/repeats.ts";
import { studentQuantile } from "../uncertainty/special/studentT.ts";
import type { StrategyEvaluation } from "./setupEvaluation.ts";

/** What parts that were made say of the setup. */
export interface RunEvaluation {
  readonly separation: Separation;
  /** Corrections of the run, with which the parts before them count. */
  readonly corrections: MadeParts["corrections"];
  /** Of every cause that is found, what to do about it. */
  readonly verdicts: readonly CauseVerdict[];
  /** What to add to the offset, by machine axis, where a shift is to be corrected, mm. */
  readonly offsetChange: readonly { readonly axis: Axis; readonly change: number }[];
  /** Features of the drawing whose measurement would tell apart what is confounded; the most telling first. */
  readonly wouldSeparate: readonly Measurable[];
  readonly zeros: ZerosOfTheMeanPart;
  /** What would have a chart, but came out alike on all parts: it was read too coarsely to show how they scatter. */
  readonly alike: readonly { readonly element: string; readonly axis: Axis; readonly count: number }[];
  /** Of every feature and axis that was measured on enough parts. */
  readonly charts: readonly {
    readonly element: string;
    readonly axis: Axis;
    readonly values: readonly number[];
    readonly run: RunOfParts;
    /** Of the coordinates and depths that the drawing limits there, how much room their limits leave for these parts. */
    readonly capabilities: readonly { readonly characteristic: string; readonly capability: Capability }[];
    /** Standard uncertainty of the zero along the axis before any part was made, mm; `Infinity` where nothing is known. */
    readonly prior: number;
    /** What is left of the setup's error with that and the mean of these parts together, mm. */
    readonly left: number;
  }[];
}

export interface CauseVerdict {
  readonly found: CauseFound;
  /** Its standard uncertainty with the part's own scatter, where that is stated; undefined where nothing tells it. */
  readonly standardUncertainty: number | undefined;
  readonly correction: Correction;
  /** Standard uncertainty of the setup's error before any part was made, by its touches; `Infinity` where nothing is known. */
  readonly prior: number;
  /** The same with what the parts say; undefined where they do not say how far to trust them. */
  readonly left: number | undefined;
}

/** How much of its tolerances the mean of the measured parts uses: as it is, with the zero of a best fit, and with the zero that is best for the drawing. */
export interface ZerosOfTheMeanPart {
  readonly characteristics: readonly string[];
  /** Characteristics that what was measured does not tell. */
  readonly leftOut: readonly string[];
  readonly asMade: ChangedZero;
  readonly leastSquares: ChangedZero;
  readonly smallestLargestShare: ChangedZero;
}

/**
 * @param strategy the one whose zero the parts were made with
 * @returns undefined where nothing was measured
 */
export function judgeRun(setup: Setup, strategy: StrategyEvaluation | undefined): Outcome<RunEvaluation> | undefined {
  const { madeParts, part } = setup;
  if (madeParts.measured.length === 0) return undefined;
  if (setup.operation?.signs.some((sign) => sign === -1))
    return failure({
      at: "madeParts",
      what: `the part lies turned in operation ${setup.operation.id}, and what was measured along the axes of the drawing is not carried into those of the machine`,
      remedy: "judge the made parts in a document of this operation alone, as the part lies there",
    });
  const unread = [...setup.unread].filter((row) => row.startsWith("madeParts.corrections."));
  if (unread.length > 0)
    return failure(
      ...unread.map((at) => ({
        at,
        what: "this correction cannot be read, so it is not known what the parts say of the setup as it stands",
        remedy: "see what is said there",
      })),
    );
  if (strategy === undefined)
    return failure({
      at: "madeParts",
      what: "no strategy is in use, so it is not known which zero the parts were made with",
      remedy: "choose a strategy that can be solved",
    });
  const elements = new Map(part.elements.map((element) => [element.id, element]));
  const zero = strategy.solution.zeroOnPart;
  const placeOf = (element: Element): [number, number] => {
    const [x, y] = basicPlace(element);
    return [x - zero[0], y - zero[1]];
  };
  const deviations = asCorrected(madeParts).flatMap(({ part: made, element, tool, deviation }): MeasuredDeviation[] => {
    const known = elements.get(element);
    if (known === undefined) return [];
    return axes.flatMap((axis, i): MeasuredDeviation[] => {
      const value = deviation[i as 0 | 1 | 2];
      return value === undefined ? [] : [{ part: made, feature: element, tool, place: placeOf(known), axis, deviation: value }];
    });
  });
  const causes = usualCauses(deviations).filter(({ kind }) => kind !== "scale" || madeParts.seekScale);
  const separation = separateDeviations(deviations, causes);
  if (!separation.ok) return separation;
  const prior = (cause: Cause) => priorOf(cause, strategy, madeParts.corrections);
  const verdicts = separation.value.causes.flatMap(({ found }) =>
    found.ok ? [verdictOn(found.value, madeParts.partScatter, separation.value.residualStandardDeviation, prior(found.value.cause))] : [],
  );
  return success({
    separation: separation.value,
    corrections: madeParts.corrections,
    verdicts,
    offsetChange: offsetChange(verdicts, strategy),
    wouldSeparate:
      separation.value.confounded.length === 0 ? [] : whatWouldSeparate(deviations, causes, candidates(setup, deviations, placeOf)),
    zeros: zerosOfTheMeanPart(part.characteristics, deviations, elements, placeOf),
    ...chartsOf(deviations, part, elements, prior),
  });
}

/**
 * A part's own scatter moves what is found of one part by as much again, and may turn it: unless it is stated one part tells nothing, and of a turn
 * it tells nothing anyway. Several parts show it by how they differ; the limit of what counts is then Student's, for few parts tell little of it.
 */
function verdictOn(found: CauseFound, scatter: number | undefined, scatterOfFeatures: number | undefined, prior: number): CauseVerdict {
  const { cause, estimate, perPart, degreesOfFreedom, reach } = found;
  const isStated = scatter !== undefined && cause.kind === "shift";
  const standardUncertainty = isStated
    ? scatterOfShift(scatter, scatterOfFeatures, reach) / Math.sqrt(perPart.length)
    : perPart.length > 1 && !areAlike(perPart)
      ? found.standardUncertainty
      : undefined;
  const factor = isStated || standardUncertainty === undefined ? usualFactor : studentQuantile((1 + coverage) / 2, degreesOfFreedom);
  return {
    found,
    standardUncertainty,
    correction: proposeCorrection({ estimate, standardUncertainty }, prior, factor),
    prior,
    left: standardUncertainty === undefined ? undefined : errorLeft(standardUncertainty, prior).left,
  };
}

/** Parts that differ by rounding alone were read too coarsely to show how they scatter (JCGM 100:2008, F.2.2.1). */
function areAlike(perPart: readonly number[]): boolean {
  const largest = Math.max(...perPart.map(Math.abs));
  return Math.max(...perPart) - Math.min(...perPart) <= Math.max(1e-9 * largest, 1e-12);
}

/**
 * Of a shift from one part: the part's own scatter, and besides what single features scatter, as far as they reach to the zero. Where none is left over to tell that,
 * features are taken to scatter as the part does.
 */
function scatterOfShift(ofPart: number, ofFeatures: number | undefined, reach: number): number {
  return ofFeatures === undefined ? ofPart * Math.max(1, reach) : Math.hypot(ofPart, ofFeatures * reach);
}

/** Of a normal distribution, within two standard deviations. */
const usualFactor = 2;
const coverage = 0.9545;

/** What was known of the setup before any part was made; nothing along an axis that was corrected since, for what cuts there no longer stands as the touches told. */
function priorOf(cause: Cause, strategy: StrategyEvaluation, corrections: MadeParts["corrections"]): number {
  if (cause.kind === "turn") return strategy.rotation.ok ? strategy.rotation.value.standardUncertainty : Number.POSITIVE_INFINITY;
  if (cause.kind !== "shift" || corrections.some(({ change }) => change[indexOfAxis(cause.axis)] !== undefined))
    return Number.POSITIVE_INFINITY;
  return zeroAlong(cause.axis, strategy);
}

/** The standard uncertainty of the zero along an axis of the drawing, mm: of its machine coordinates together, where the programme is turned with the part. */
function zeroAlong(axis: Axis, { zero, solution }: StrategyEvaluation): number {
  const direction = drawingAxisInMachine(axis, solution);
  const known: { readonly share: number; readonly budget: Budget }[] = [];
  for (const [i, coordinate] of zero.entries()) {
    const share = direction[i] as number;
    if (coordinate.ok && share !== 0) known.push({ share, budget: coordinate.value });
    else if (!coordinate.ok && Math.abs(share) >= leastShare) return Number.POSITIVE_INFINITY;
  }
  let variance = 0;
  for (const a of known) for (const b of known) variance += a.share * b.share * covarianceOfBudgets(a.budget, b.budget);
  return Math.sqrt(Math.max(0, variance));
}

/** The corrections of the shifts, which are told in the drawing's frame, along the machine's axes. */
function offsetChange(verdicts: readonly CauseVerdict[], { solution }: StrategyEvaluation): RunEvaluation["offsetChange"] {
  const along = axes.map((axis) => {
    const verdict = verdicts.find(({ found: { cause } }) => cause.kind === "shift" && cause.axis === axis);
    return verdict?.correction.verdict === "correct" ? verdict.correction.change : 0;
  });
  const turned = turnAboutZ(along as unknown as Vector, solution.appliesRotation ? solution.fromReadings.rotation.value : 0);
  return axes.flatMap((axis, i) => (turned[i] === 0 ? [] : [{ axis, change: turned[i] as number }]));
}

/** What the drawing has and the tools that were used could be asked about. */
function candidates(
  { part }: Setup,
  deviations: readonly MeasuredDeviation[],
  placeOf: (element: Element) => [number, number],
): Measurable[] {
  const tools = [...new Set(deviations.map(({ tool }) => tool))];
  const along = new Set(deviations.map(({ axis }) => axis));
  const elements = new Map(part.elements.map((element) => [element.id, element]));
  const measured = new Set(deviations.map(({ feature, axis, tool }) => JSON.stringify([feature, axis, tool])));
  return part.elements
    .filter(({ made }) => made === "here")
    .flatMap((element) =>
      tools.flatMap((tool) =>
        axesOf(element, elements)
          .filter((axis) => along.has(axis))
          .map((axis): Measurable => ({ feature: element.id, tool, place: placeOf(element), axis })),
      ),
    )
    .filter(({ feature, axis, tool }) => !measured.has(JSON.stringify([feature, axis, tool])));
}

function zerosOfTheMeanPart(
  characteristics: readonly Characteristic[],
  deviations: readonly MeasuredDeviation[],
  elements: ReadonlyMap<string, Element>,
  placeOf: (element: Element) => [number, number],
): ZerosOfTheMeanPart {
  const component = (id: string, axis: Axis) => {
    const values = deviations.filter(({ feature, axis: along }) => feature === id && along === axis);
    const element = elements.get(id);
    if (values.length === 0 || element === undefined) return undefined;
    return {
      deviation: values.reduce((total, { deviation }) => total + deviation, 0) / values.length,
      effects: effectsAt(placeOf(element), axis),
    };
  };
  const demands = characteristics.map((characteristic) => demandOf(characteristic, component));
  const known = demands.flatMap((demand) => demand ?? []);
  return {
    characteristics: known.map(({ id }) => id),
    leftOut: characteristics.flatMap(({ id }, i) => (demands[i] === undefined ? [id] : [])),
    asMade: sharesAfter(known),
    leastSquares: leastSquaresZero(known, true),
    smallestLargestShare: smallestLargestShare(known, true),
  };
}

type Component = MeasuredDemand["components"][number];

/** Undefined where what was measured does not tell it. Of two elements it is the difference. */
function demandOf(
  characteristic: Characteristic,
  component: (element: string, axis: Axis) => Component | undefined,
): MeasuredDemand | undefined {
  const along = wantedAxes(characteristic);
  if (along === undefined) return undefined;
  const components = along.flatMap((axis) => {
    const of = component(characteristic.of, axis);
    if (!("from" in characteristic)) return of ?? [];
    const from = component(characteristic.from, axis);
    return of && from
      ? {
          deviation: of.deviation - from.deviation,
          effects: of.effects.map((effect, k) => effect - (from.effects[k] as number)) as unknown as Effects,
        }
      : [];
  });
  if (components.length < along.length || characteristic.kind === "angle") return undefined;
  return { id: characteristic.id, components, tolerance: isRound(characteristic) ? { zone: characteristic.zone } : characteristic.limits };
}

/** Undefined for what places alone do not tell: sizes, turns of single features, patterns that lie where they like, datums of their own. */
function wantedAxes(characteristic: Characteristic): readonly Axis[] | undefined {
  switch (characteristic.kind) {
    case "position":
      return characteristic.datums === undefined ? ["X", "Y"] : undefined;
    case "coordinate":
      return characteristic.datums === undefined ? [characteristic.axis] : undefined;
    case "coaxiality":
      return ["X", "Y"];
    case "distance":
    case "symmetry":
      return [characteristic.axis];
    default:
      return undefined;
  }
}

function chartsOf(
  deviations: readonly MeasuredDeviation[],
  part: Setup["part"],
  elements: ReadonlyMap<string, Element>,
  priorOfCause: (cause: Cause) => number,
): Pick<RunEvaluation, "charts" | "alike"> {
  const first = deviations.filter(
    ({ feature, axis }, i) => deviations.findIndex((each) => each.feature === feature && each.axis === axis) === i,
  );
  const runs = first.flatMap(({ feature: element, axis }) => {
    const values = deviations.flatMap((each) => (each.feature === element && each.axis === axis ? [each.deviation] : []));
    return values.length < fewestForAChart ? [] : [{ element, axis, values }];
  });
  const alike = runs.flatMap(({ element, axis, values }) => (areAlike(values) ? [{ element, axis, count: values.length }] : []));
  const charts = runs.flatMap(({ element, axis, values }) => {
    if (areAlike(values)) return [];
    const run = watchRun(values);
    const prior = priorOfCause({ kind: "shift", axis });
    const capabilities = capabilitiesOf(values, part.characteristics.filter(isLimitedBy(element, axis, elements)));
    return [{ element, axis, values, run, capabilities, prior, left: errorLeft(run.setupErrorLeft, prior).left }];
  });
  return { charts, alike };
}

type Limited = Extract<Characteristic, { readonly kind: "coordinate" | "distance" }>;

/** What this deviation alone meets or does not: in the drawing's own frame, in which parts are measured, or from one of its datums as received. */
function isLimitedBy(element: string, axis: Axis, elements: ReadonlyMap<string, Element>) {
  return (characteristic: Characteristic): characteristic is Limited => {
    if (characteristic.kind !== "coordinate" && characteristic.kind !== "distance") return false;
    if (characteristic.of !== element || characteristic.axis !== axis) return false;
    if (characteristic.kind === "coordinate") return characteristic.datums === undefined;
    const from = elements.get(characteristic.from);
    return from?.made === "before" && from.cutIn === undefined && from.datum !== "";
  };
}

/** By the parts' own standard deviation. */
function capabilitiesOf(values: readonly number[], limited: readonly Limited[]): RunEvaluation["charts"][number]["capabilities"] {
  const { mean, standardDeviation, count } = summariseRepeats(values);
  if (standardDeviation === undefined || standardDeviation === 0) return [];
  return limited.flatMap(({ id, limits }) =>
    Number.isFinite(limits.upper - limits.lower) && limits.upper > limits.lower
      ? [{ characteristic: id, capability: capabilityOf({ mean, standardDeviation, count }, limits, 0) }]
      : [],
  );
}
