import { entryOf } from "../../base/matrix.ts";
import type { RunEvaluation } from "../../decision/judgeRun.ts";
import type { WarmUpEvaluation } from "../../decision/judgeWarmUp.ts";
import { standardUncertaintyOf } from "../../drift/warmUpCurve.ts";
import type { ChangedZero } from "../../run/bestZero.ts";
import type { Cause } from "../../run/separateDeviations.ts";
import { plainNumber } from "./plainNumber.ts";
import { plainOutcome } from "./plainProblem.ts";

/** What made parts say, as plain data. Lengths in mm, turns in radians, scales in mm per mm. */
export function plainRun({ separation, corrections, verdicts, offsetChange, wouldSeparate, zeros, charts }: RunEvaluation) {
  return {
    parts: separation.parts,
    corrections: corrections.map(({ id, after, tool, change: [x, y, z] }) => ({
      id,
      after,
      tool,
      x: x ?? null,
      y: y ?? null,
      z: z ?? null,
    })),
    causes: separation.causes.map(({ cause, found }) => ({
      ...plainCause(cause),
      found: plainOutcome(found, ({ estimate, perPart, degreesOfFreedom }) => {
        const verdict = verdicts.find((each) => each.found.cause === cause);
        return {
          estimate,
          standardUncertainty: verdict?.standardUncertainty ?? null,
          degreesOfFreedom,
          perPart: [...perPart],
          correction: verdict === undefined ? null : { ...verdict.correction, threshold: verdict.correction.threshold ?? null },
          prior: verdict === undefined ? null : plainNumber(verdict.prior),
          left: verdict?.left ?? null,
        };
      }),
    })),
    confounded: separation.confounded.map((causes) => causes.map(plainCause)),
    wouldSeparate: wouldSeparate.map(({ feature, tool, axis }) => ({ element: feature, tool, axis })),
    residualStandardDeviation: separation.residualStandardDeviation ?? null,
    degreesOfFreedom: separation.degreesOfFreedom,
    covariance: plainCovariance(separation),
    offsetChange: offsetChange.map((each) => ({ ...each })),
    zeros: {
      characteristics: [...zeros.characteristics],
      leftOut: [...zeros.leftOut],
      asMade: plainZero(zeros.asMade),
      leastSquares: plainZero(zeros.leastSquares),
      smallestLargestShare: plainZero(zeros.smallestLargestShare),
    },
    charts: charts.map(({ element, axis, values, run, capabilities, prior, left }) => ({
      element,
      axis,
      values: [...values],
      ...run,
      moved: run.moved ?? null,
      capabilities: capabilities.map(({ characteristic, capability }) => ({ characteristic, ...capability })),
      prior: plainNumber(prior),
      left,
    })),
  };
}

/** Of what one part says of the causes, rows and columns in their order; null where nothing is left over to tell it. */
function plainCovariance({ causes, covariance }: RunEvaluation["separation"]) {
  if (covariance === undefined) return null;
  const of = causes.flatMap(({ cause, found }) => (found.ok ? [plainCause(cause)] : []));
  return { of, rows: of.map((_, i) => of.map((__, j) => entryOf(covariance, i, j))) };
}

function plainCause(cause: Cause) {
  return { kind: cause.kind, axis: "axis" in cause ? cause.axis : null, tool: "tool" in cause ? cause.tool : null };
}

function plainZero({ change, shares, largestShare }: ChangedZero) {
  const [X, Y, Z] = change.shift;
  return { shift: { X, Y, Z }, turn: change.turn, shares: [...shares], largestShare };
}

/** How a zero drifts, as plain data. Lengths in mm, times in minutes. */
export function plainWarmUp({ axis, curve, until, life }: WarmUpEvaluation) {
  const { start, rise, timeConstant, covariance, residualStandardDeviation, degreesOfFreedom } = curve;
  const orEndless = (minutes: number) => (minutes === Number.POSITIVE_INFINITY ? ("infinite" as const) : minutes);
  return {
    axis,
    start,
    rise,
    timeConstant,
    standardUncertainties: { rise: standardUncertaintyOf(curve, "rise"), timeConstant: standardUncertaintyOf(curve, "timeConstant") },
    covariance: [...covariance.entries],
    residualStandardDeviation,
    degreesOfFreedom,
    until,
    life: plainOutcome(life, (each) => ({
      ...each,
      tightest: each.tightest ?? null,
      bestBefore: orEndless(each.bestBefore),
      assuredBefore: orEndless(each.assuredBefore),
      plan: each.plan === undefined ? null : each.plan.map((span) => ({ ...span })),
    })),
  };
}
