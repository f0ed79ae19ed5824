import { type Axis, axes } from "../base/vector.ts";
import type { Setup } from "../datum/setup.ts";
import { judgeWarmUp } from "../decision/judgeWarmUp.ts";
import type { StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { driftSince } from "../drift/zeroLife.ts";
import { changeBetween, moves } from "../run/corrections.ts";
import type { MadeCorrection, MadeParts, MeasuredFeature } from "../run/madeParts.ts";
import { meanOf } from "../uncertainty/repeats.ts";
import type { AgeFact, ArticleFact, CorrectionFact, RunFact } from "./slipFacts.ts";

/**
 * Deviations of every feature along every axis on the parts in the order in which they were made, as they came: whether they alternate shows if each was corrected for.
 * Besides, of every correction the parts that it rests on: those since the one before.
 */
export function runsOf(setup: Pick<Setup, "madeParts" | "unread">): RunFact[] {
  const { measured, partScatter } = setup.madeParts;
  const runs = new Map<string, { readonly element: string; readonly axis: Axis; readonly deviations: number[] }>();
  for (const { element, deviation } of measured)
    axes.forEach((axis, i) => {
      const value = deviation[i as 0 | 1 | 2];
      if (value === undefined) return;
      const key = JSON.stringify([element, axis]);
      const run = runs.get(key) ?? { element, axis, deviations: [] };
      run.deviations.push(value);
      runs.set(key, run);
    });
  const alternating = [...runs.values()].map(
    ({ element, axis, deviations }): RunFact => ({
      at: "madeParts.measured",
      characteristic: `${element}, ${axis}`,
      deviations,
      standardDeviation: partScatter ?? 0,
      corrected: "after each",
    }),
  );
  if (partScatter === undefined) return alternating;
  const before = correctedAxes(setup).map(
    ({ correction, axis, since, until }): RunFact => ({
      at: `madeParts.corrections.${correction.id}`,
      characteristic: namedBy(correction, axis),
      deviations: meansOf(setup.madeParts, axis, since, until, ({ tool }) => moves(correction, tool)),
      standardDeviation: partScatter,
      corrected: "now",
    }),
  );
  return [...alternating, ...before];
}

/** The part before and the part after every correction, by the mean of the features that were measured on both and that it moves. */
export function articlesOf(setup: Pick<Setup, "madeParts" | "unread">): ArticleFact[] {
  const { madeParts } = setup;
  const { partScatter, measured, parts } = madeParts;
  if (partScatter === undefined) return [];
  return correctedAxes(setup).flatMap(({ correction, axis, until }): ArticleFact[] => {
    const i = axes.indexOf(axis) as 0 | 1 | 2;
    const pairs = measured.flatMap((feature) => {
      if (feature.part !== parts[until] || !moves(correction, feature.tool)) return [];
      const next = measured.find(
        ({ part, element, tool }) => part === parts[until + 1] && element === feature.element && tool === feature.tool,
      );
      const [first, second] = [feature.deviation[i], next?.deviation[i]];
      return first === undefined || second === undefined
        ? []
        : [{ first, second, change: changeBetween(madeParts, feature.tool, until, until + 1)[i] }];
    });
    if (pairs.length === 0) return [];
    return [
      {
        at: `madeParts.corrections.${correction.id}`,
        characteristic: namedBy(correction, axis),
        first: meanOf(pairs.map(({ first }) => first)),
        second: meanOf(pairs.map(({ second }) => second)),
        change: meanOf(pairs.map(({ change }) => change)),
        standardUncertainty: partScatter,
      },
    ];
  });
}

/** Every correction, and how far off each tool cut along its axis on the parts since the correction before. */
export function correctionsOf(setup: Pick<Setup, "madeParts" | "unread">): CorrectionFact[] {
  const { partScatter, measured } = setup.madeParts;
  if (partScatter === undefined) return [];
  const tools = [...new Set(measured.map(({ tool }) => tool))];
  return correctedAxes(setup).map(({ correction, axis, since, until }) => ({
    at: `madeParts.corrections.${correction.id}`,
    place: correction.tool === "" ? "work offset" : "one tool",
    deviations: tools.flatMap((tool) => {
      const means = meansOf(setup.madeParts, axis, since, until, (feature) => feature.tool === tool);
      if (means.length === 0) return [];
      const deviation = {
        value: meanOf(means),
        standardUncertainty: partScatter / Math.sqrt(means.length),
        degreesOfFreedom: Number.POSITIVE_INFINITY,
      };
      return [{ tool, deviation }];
    }),
  }));
}

interface CorrectedAxis {
  readonly correction: MadeCorrection;
  readonly axis: Axis;
  /** Places in the run of the parts that it rests on, the first and the last. */
  readonly since: number;
  readonly until: number;
}

/** Every correction by the axes that it changes; none where one of them cannot be read, for what lies between two parts is then not known. */
function correctedAxes({ madeParts: { corrections, parts }, unread }: Pick<Setup, "madeParts" | "unread">): CorrectedAxis[] {
  if ([...unread].some((row) => row.startsWith("madeParts.corrections."))) return [];
  return corrections.flatMap((correction) =>
    axes.flatMap((axis, i): CorrectedAxis[] => {
      const change = correction.change[i as 0 | 1 | 2];
      if (change === undefined || change === 0) return [];
      const until = parts.indexOf(correction.after);
      const before = corrections
        .filter((each) => each.change[i as 0 | 1 | 2] !== undefined)
        .map(({ after }) => parts.indexOf(after))
        .filter((place) => place < until);
      return [{ correction, axis, since: Math.max(-1, ...before) + 1, until }];
    }),
  );
}

/** Part by part the mean along an axis of what was measured; parts without any are left out. */
function meansOf(
  { measured, parts }: MadeParts,
  axis: Axis,
  since: number,
  until: number,
  counts: (feature: MeasuredFeature) => boolean,
): number[] {
  return parts.slice(since, until + 1).flatMap((part) => {
    const values = measured.flatMap((feature) =>
      feature.part === part && counts(feature) ? (feature.deviation[axes.indexOf(axis) as 0 | 1 | 2] ?? []) : [],
    );
    return values.length === 0 ? [] : [meanOf(values)];
  });
}

function namedBy({ tool }: MadeCorrection, axis: Axis): string {
  return tool === "" ? `all that was measured along ${axis}` : `what ${tool} cuts along ${axis}`;
}

/** How old the zero was when the machine's warming up was read last, by the curve through these readings; nothing is known of later. */
export function agesOf(setup: Setup, inUse: StrategyEvaluation | undefined): AgeFact[] {
  const judged = judgeWarmUp(setup, inUse);
  if (!judged?.ok || !judged.value.life.ok) return [];
  const { axis, curve, until, life } = judged.value;
  const { setAt, allowed } = life.value;
  if (!(until > setAt)) return [];
  const { drift, standardUncertainty } = driftSince(curve, setAt, until);
  return [
    {
      at: "warmUp.setAt",
      axis,
      minutes: until - setAt,
      drift: { value: drift, standardUncertainty, degreesOfFreedom: curve.degreesOfFreedom },
      allowed,
    },
  ];
}
