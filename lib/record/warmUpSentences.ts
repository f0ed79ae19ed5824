import type { WarmUpEvaluation, ZeroLife } from "../decision/judgeWarmUp.ts";
import { standardUncertaintyOf } from "../drift/warmUpCurve.ts";
import { formatFixed, formatWithUncertainty } from "../uncertainty/roundForReport.ts";
import { type Figures, figuresIn } from "./internals/figures.ts";
import { signed } from "./internals/signed.ts";

/** How a zero drifts while the machine warms, and how long it lasts. What keeps that from being known is a problem, and not told here again. */
export function warmUpSentences(warmUp: WarmUpEvaluation, { unit }: { readonly unit: "mm" | "inch" }): string[] {
  const figures = figuresIn(unit);
  const { axis, curve, until, life } = warmUp;
  const rise = signed(figures.length(curve.rise));
  const time = formatWithUncertainty(curve.timeConstant, standardUncertaintyOf(curve, "timeConstant"), { decimalsWhenExact: 1 });
  return [
    `While it warms the reading along ${axis} comes to drift by ${rise} ${figures.unit} (u ${figures.uncertainty(standardUncertaintyOf(curve, "rise"))}), 63 % of it in ${time.value} min (u ${time.standardUncertainty}); readings scatter about that by ${figures.uncertainty(curve.residualStandardDeviation)} ${figures.unit}.`,
    ...(life.ok ? lifeSentences(life.value, until, axis, figures) : []),
  ];
}

function lifeSentences(
  { allowed, tightest, setAt, bestBefore, assuredBefore, warmEnoughAfter, plan }: ZeroLife,
  until: number,
  axis: string,
  figures: Figures,
): string[] {
  const why = tightest === undefined ? "" : `, which is what "${tightest}" leaves along ${axis}`;
  const room = `${figures.length(allowed)} ${figures.unit}${why}`;
  return [
    bestBefore === Number.POSITIVE_INFINITY
      ? `A zero set ${minutes(setAt)} after the start does not drift by ${room}, by the curve${assuredBefore === Number.POSITIVE_INFINITY ? " and its doubt" : `; with its doubt that is sure for ${minutes(assuredBefore - setAt)}, and readings beyond ${minutes(until)} would tell more`}.`
      : `A zero set ${minutes(setAt)} after the start has drifted by ${room}, at ${minutes(bestBefore)}; with the doubt of the curve it is good until ${minutes(assuredBefore)} (95 %).`,
    `After ${minutes(warmEnoughAfter)} of warm-up one zero lasts.`,
    ...(plan === undefined || plan.length === 0
      ? []
      : [
          `From a cold start set it at ${[0, ...plan.map(({ to }) => to)].map((at) => formatFixed(at, 0)).join(", ")} min; between them ${plan.map(({ parts }) => parts).join(", ")} parts fit.`,
        ]),
  ];
}

function minutes(time: number): string {
  return `${formatFixed(time, 0)} min`;
}
