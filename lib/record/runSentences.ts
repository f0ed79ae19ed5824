import { capitalise } from "../base/capitalise.ts";
import { listText, quotedList } from "../base/listText.ts";
import { entryOf } from "../base/matrix.ts";
import { millimetresPerInch } from "../base/quantity.ts";
import type { CauseVerdict, RunEvaluation } from "../decision/judgeRun.ts";
import type { ZeroChange } from "../run/bestZero.ts";
import { type Cause, describeCause, type Measurable } from "../run/separateDeviations.ts";
import { suspiciousStretch } from "../run/watchRun.ts";
import { formatFixed, formatWithUncertainty } from "../uncertainty/roundForReport.ts";
import { correlationText } from "./correlationText.ts";
import { type Figures, figuresIn } from "./internals/figures.ts";
import { signed } from "./internals/signed.ts";

type Units = { readonly unit: "mm" | "inch" };

/** What made parts say of the setup, and what to do about it. */
export function runSentences(run: RunEvaluation, { unit }: Units): string[] {
  const figures = figuresIn(unit);
  return [
    ...correctionSentences(run),
    ...run.verdicts.map((verdict) => verdictSentence(verdict, unit)),
    ...togetherSentences(run),
    ...confoundedSentences(run),
    ...scatterSentences(run, figures),
    ...offsetSentences(run, figures),
    ...zeroSentences(run, figures),
    ...chartsSentences(run, figures, unit),
  ];
}

function correctionSentences({ corrections }: RunEvaluation): string[] {
  if (corrections.length === 0) return [];
  return [
    `Parts made before ${quotedList(corrections.map(({ id }) => id))} count as they would have come out after ${corrections.length === 1 ? "it, if it" : "them, if they"} went in as typed. Along an axis that was corrected, what the touches knew before no longer counts.`,
  ];
}

/** Digits of a cause and of its doubt. A turn and a change of scale are told over a length of 100, which a person can picture. */
export interface CauseFigures {
  readonly value: string;
  /** Undefined where nothing tells it. */
  readonly standardUncertainty: string | undefined;
  /** Behind both. */
  readonly unit: string;
}

export function causeFigures({ kind }: Cause, value: number, standardUncertainty: number | undefined, unit: Units["unit"]): CauseFigures {
  const isRatio = kind === "turn" || kind === "scale";
  const factor = isRatio ? hundred : unit === "inch" ? 1 / millimetresPerInch : 1;
  const decimalsWhenExact = unit === "inch" ? 5 : 4;
  const written = formatWithUncertainty(value * factor, (standardUncertainty ?? 0) * factor, { decimalsWhenExact });
  const shown = unit === "inch" ? "in" : "mm";
  return {
    value: signed(written.value),
    standardUncertainty: standardUncertainty === undefined ? undefined : written.standardUncertainty,
    unit: isRatio ? `${shown} over ${hundred} ${shown}` : shown,
  };
}

const hundred = 100;

function verdictSentence({ found, standardUncertainty, correction, prior, left }: CauseVerdict, unit: Units["unit"]): string {
  const { cause, estimate, perPart } = found;
  const figures = causeFigures(cause, estimate, standardUncertainty, unit);
  const parts = perPart.length === 1 ? "one part" : `${perPart.length} parts`;
  const doubt = figures.standardUncertainty === undefined ? parts : `u ${figures.standardUncertainty}, ${parts}`;
  const found_ = `${capitalise(describeCause(cause))}: ${figures.value} ${figures.unit} (${doubt}).`;
  if (correction.verdict === "leave alone") {
    if (correction.threshold === undefined && perPart.length > 1)
      return `${found_} Leave it alone: what was measured came out alike on ${parts}, which tells nothing of how they scatter; read finer${cause.kind === "shift" ? ", or state the scatter of one" : ""}.`;
    if (correction.threshold === undefined)
      return `${found_} Leave it alone: ${cause.kind === "shift" ? "how parts scatter is not known; measure more parts, or state the scatter of one" : "one part does not tell how much of it is scatter; measure more parts"}.`;
    const least = causeFigures(cause, correction.threshold, undefined, unit);
    const known =
      left === undefined || prior === Number.POSITIVE_INFINITY
        ? ""
        : ` The touches knew it to ${doubtOf(cause, prior, unit)} before any part; with the parts it is known to ${doubtOf(cause, left, unit)}.`;
    return `${found_} Leave it alone: less than ${least.value.replace("+", "")} may be scatter, and a correction would only add to it.${known}`;
  }
  const change = causeFigures(cause, correction.change, correction.left, unit);
  const before = prior === Number.POSITIVE_INFINITY ? "" : `, where the touches had left ${doubtOf(cause, prior, unit)} before any part`;
  const share = `${formatFixed(hundred * correction.share, 0)} % of what was found`;
  return `${found_} ${remedyFor(cause, `${change.value} ${change.unit}`, share)}, which leaves a doubt of ${change.standardUncertainty}${before}.`;
}

/** Digits of a standard uncertainty of a cause. */
function doubtOf(cause: Cause, standardUncertainty: number, unit: Units["unit"]): string {
  return causeFigures(cause, 0, standardUncertainty, unit).standardUncertainty ?? "-";
}

/** Which causes err together because of where they were measured, the closest first. */
function togetherSentences({ separation: { causes, covariance } }: RunEvaluation): string[] {
  if (covariance === undefined) return [];
  const told = causes.flatMap(({ cause, found }) => (found.ok ? [cause] : []));
  const pairs = told.flatMap((one, i) =>
    told.slice(i + 1).flatMap((other, k) => {
      const j = i + 1 + k;
      const coefficient = entryOf(covariance, i, j) / Math.sqrt(entryOf(covariance, i, i) * entryOf(covariance, j, j));
      // All pulls along an axis add up to nothing, whatever was measured.
      const isByDefinition = one.kind === "pull" && other.kind === "pull" && one.axis === other.axis;
      return !isByDefinition && Math.abs(coefficient) >= closely ? [{ one, other, coefficient }] : [];
    }),
  );
  return pairs
    .sort((a, b) => Math.abs(b.coefficient) - Math.abs(a.coefficient))
    .slice(0, mostPairs)
    .map(
      ({ one, other, coefficient }) =>
        `By where was measured, what one part says of ${describeCause(one)} and of ${describeCause(other)} errs together: correlation ${signed(correlationText(coefficient))}.`,
    );
}

/** A correlation from which an error of one cause shows for the most part in the other as well (r² = 1/2). */
const closely = Math.SQRT1_2;
const mostPairs = 3;

function remedyFor(cause: Cause, change: string, share: string): string {
  switch (cause.kind) {
    case "shift":
      return `Change the offset along ${cause.axis} of the drawing by ${change}, ${share}`;
    case "turn":
      return `Turn the coordinates by ${change}, ${share}`;
    case "scale":
      return `No offset takes that away: look for heat, or for the machine's own scale, before the programme is scaled by ${change}, ${share}`;
    case "pull":
      return `Correct that tool along ${cause.axis} by ${change}, ${share}, and not the offset`;
  }
}

function confoundedSentences({ separation, wouldSeparate }: RunEvaluation): string[] {
  if (separation.confounded.length === 0) return [];
  const [best] = wouldSeparate;
  return [
    ...separation.confounded.map((causes) =>
      causes.length === 1
        ? `No measured feature shows ${describeCause(causes[0] as Cause)}.`
        : `What was measured cannot tell apart ${listText(causes.map(describeCause))}.`,
    ),
    best === undefined
      ? "No other feature cut here with these tools would tell: only one that is farther away, or cut by another tool."
      : `Most would tell: ${measurableText(best)}.`,
  ];
}

function measurableText({ feature, tool, axis }: Measurable): string {
  return `"${feature}" along ${axis}${tool === "" ? "" : `, cut by "${tool}"`}`;
}

/** What differs by less, mm, differs by the rounding of the arithmetic alone. */
const roundingOnly = 1e-9;

function scatterSentences({ separation }: RunEvaluation, figures: Figures): string[] {
  const { residualStandardDeviation, degreesOfFreedom } = separation;
  if (residualStandardDeviation === undefined)
    return ["Nothing is left over to tell how features scatter about these causes: measure more of them."];
  if (residualStandardDeviation < roundingOnly)
    return [
      `About these causes single features came out alike (${degreesOfFreedom} degrees of freedom): they were read too coarsely to show a scatter.`,
    ];
  return [
    `About these causes single features scatter by ${figures.uncertainty(residualStandardDeviation)} ${figures.unit} (standard deviation, ${degreesOfFreedom} degrees of freedom).`,
  ];
}

function offsetSentences({ offsetChange }: RunEvaluation, figures: Figures): string[] {
  if (offsetChange.length === 0) return ["Nothing is to be changed in the offset."];
  const words = offsetChange.map(({ axis, change }) => `${axis} ${signed(figures.length(change))}`);
  return [`Along the machine's axes that changes the offset by ${listText(words)} ${figures.unit}.`];
}

function zeroSentences({ zeros }: RunEvaluation, figures: Figures): string[] {
  const { characteristics, leftOut, asMade, leastSquares, smallestLargestShare } = zeros;
  if (characteristics.length === 0) return [];
  const share = (value: number) => `${formatFixed(hundred * value, 0)} %`;
  return [
    `The mean of the measured parts uses at most ${share(asMade.largestShare)} of a tolerance. With the zero that serves all of them best (${changeText(smallestLargestShare.change, figures)}) it would be ${share(smallestLargestShare.largestShare)}, with a least-squares best fit (${changeText(leastSquares.change, figures)}) ${share(leastSquares.largestShare)}.`,
    ...(leftOut.length > 0 ? [`Not judged by what was measured: ${quotedList(leftOut)}.`] : []),
  ];
}

/** A change of zero in words: what is less than the last figure is left out. */
function changeText({ shift, turn }: ZeroChange, figures: Figures): string {
  const words = shift.flatMap((along, i) => {
    const text = signed(figures.length(along));
    return /[1-9]/.test(text) ? [`${["X", "Y", "Z"][i]} ${text}`] : [];
  });
  const turned = signed(formatFixed(turn * hundred, 4));
  const all = [...words, ...(/[1-9]/.test(turned) ? [`turned ${turned} over ${hundred}`] : [])];
  return all.length === 0 ? "no change" : `${all.join(", ")} ${figures.unit}`;
}

function chartsSentences({ charts, alike }: RunEvaluation, figures: Figures, unit: Units["unit"]): string[] {
  const told = charts.map((chart) => ({ chart, sentence: chartSentence(chart, figures) }));
  const quiet = told.filter(({ sentence }) => sentence === undefined).map(({ chart: { element, axis } }) => `"${element}" along ${axis}`);
  return [
    ...told.flatMap(({ sentence }) => sentence ?? []),
    ...(["X", "Y", "Z"] as const).flatMap((axis) => {
      const [first, ...others] = charts.filter((chart) => chart.axis === axis);
      if (first === undefined) return [];
      const steadiest = others.reduce((least, each) => (each.run.setupErrorLeft < least.run.setupErrorLeft ? each : least), first);
      return [`Along ${axis} "${steadiest.element}" scatters least. ${errorLeftSentence(steadiest, { unit })}`];
    }),
    ...charts.flatMap(({ run: { count }, capabilities }) =>
      capabilities.map(
        ({ characteristic, capability: { potential, index, interval, aboutTarget } }) =>
          `"${characteristic}": of ${count} parts the capability index Cpk is ${formatFixed(index, 2)} (95 %: ${formatFixed(interval.lower, 2)} to ${formatFixed(interval.upper, 2)}, if they are normal and do not drift), Cp ${formatFixed(potential, 2)}, about the drawing's size Cpm ${formatFixed(aboutTarget, 2)}.`,
      ),
    ),
    ...alike.map(
      ({ element, axis, count }) =>
        `"${element}" along ${axis} came out alike on all ${count} parts: it was read too coarsely to show how they scatter. Read finer.`,
    ),
    ...(quiet.length > 0 ? [`Part by part nothing but scatter is seen of ${listText(quiet)}.`] : []),
  ];
}

/** Undefined where nothing but scatter is seen. */
function chartSentence({ element, axis, run }: RunEvaluation["charts"][number], figures: Figures): string | undefined {
  const name = `"${element}" along ${axis}, ${run.count} parts`;
  const { beyond, longestStretch, drift, looksAdjusted, limits, neighbours } = run;
  const told = [
    ...(beyond.length > 0
      ? [
          `part ${listText(beyond.map((i) => String(i + 1)))} of the run ${beyond.length === 1 ? "is" : "are"} beyond the limits: find out what was different before anything is adjusted`,
        ]
      : []),
    ...(longestStretch.length >= suspiciousStretch
      ? [`${longestStretch.length} parts in a row, from part ${longestStretch.from + 1} on, lie on one side of the mean: it has moved`]
      : []),
    ...(run.moved
      ? [
          `sums of the deviations show a change: most likely from part ${run.moved.from + 1} on, by ${signed(figures.length(run.moved.by))} ${figures.unit}`,
        ]
      : []),
    ...(drift.chance < driftChance ? [`it drifts by ${signed(figures.length(drift.perPart))} ${figures.unit} per part`] : []),
    ...(looksAdjusted
      ? [
          `each part differs to the other side than the one before (correlation ${formatFixed(neighbours, 2)}): it looks adjusted by every part, which doubles the scatter`,
        ]
      : []),
  ];
  const within = `mean ${signed(figures.length(run.mean))}, limits ${signed(figures.length(limits.lower))} to ${signed(figures.length(limits.upper))} ${figures.unit}`;
  return told.length === 0 ? undefined : `${name}: ${within}; ${told.join("; ")}.`;
}

/** What is left of the setup's error along the axis when the mean of a feature's run is taken out of the offset. */
export function errorLeftSentence({ run, prior, left }: RunEvaluation["charts"][number], { unit }: Units): string {
  const figures = figuresIn(unit);
  const alone = `σ/√n = ${figures.uncertainty(run.setupErrorLeft)} ${figures.unit}`;
  return prior === Number.POSITIVE_INFINITY
    ? `Its mean of ${run.count} parts leaves ${alone} of the setup's error.`
    : `Its mean of ${run.count} parts leaves ${alone} of the setup's error; together with what the touches knew before (u ${figures.uncertainty(prior)}), ${figures.uncertainty(left)} ${figures.unit}.`;
}

/** A drift is told where scatter alone would show one as steep less often than this (common practice, no source). */
const driftChance = 0.01;
