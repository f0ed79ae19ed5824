import { type Matrix, matrixOf, multiply, singularValues, transpose } from "../base/matrix.ts";
import { effectiveDegreesOfFreedom } from "../uncertainty/effectiveDegreesOfFreedom.ts";
import { standardUncertaintyOf } from "../uncertainty/sourceDistribution.ts";
import { chiSquareUpperTail } from "../uncertainty/special/chiSquare.ts";
import { fisherUpperTail } from "../uncertainty/special/fisherF.ts";
import { Tape } from "../uncertainty/tape.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";

/** Whether touches that are more than just enough fit each other within their stated doubts. */
export interface Agreement {
  /** Chance of at least this much disagreement if all doubts are as stated. */
  readonly chance: number;
  /** Sum of squares of the residuals in units of their standard uncertainties, correlation allowed for. */
  readonly statistic: number;
  /** How many residuals can differ from nothing independently. */
  readonly degreesOfFreedom: number;
  /** The contact whose residual is largest beside its own standard uncertainty. */
  readonly worst: { readonly contact: number; readonly residual: number; readonly standardUncertainty: number };
}

/** So seldom would touches differ so much if all doubts were as stated: below this they are said to disagree (common practice, no source). */
export const disagreeBelow = 0.01;

/** Variances below this share of the largest are rounding. */
const negligible = 1e-9;
/** Residuals below this, mm, are rounding. */
const nothing = 1e-8;

/**
 * The test of a fit's residuals against their uncertainties: rᵀC⁺r is chi-square with rank(C) degrees of freedom (least squares with
 * known covariance); where C rests on few repeats, a share of it is F (JCGM 100:2008, G.3 gives the like for one residual). The
 * covariance C of the residuals comes from the same sources as everything else, so a radius that all touches share shows in
 * none of them.
 *
 * @param residuals what is left of every contact's equation, mm
 * @param patterns in how many independent ways they can differ from nothing: contacts less the rank of their equations
 * @returns undefined where the touches are just enough: nothing could disagree
 */
export function agreementOf(residuals: readonly Uncertain[], patterns: number): Agreement | undefined {
  if (patterns <= 0) return undefined;
  const tape = new Tape(residuals);
  const amounts = residuals.map((_, i) =>
    tape
      .sensitivities(i)
      .map((sensitivity, k) => sensitivity * standardUncertaintyOf((tape.sources[k] as (typeof tape.sources)[number]).distribution)),
  );
  const effects = matrixOf(residuals.length, tape.sources.length, (i, k) => (amounts[i] as Float64Array)[k] as number);
  const values = residuals.map(({ value }) => value);
  const largest = Math.max(0, ...values.map(Math.abs));
  if (tape.sources.length === 0) return largest > nothing ? certainlyNot(values) : undefined;
  const { values: variances, right } = singularValues(multiply(effects, transpose(effects)));
  const scale = variances[0] as number;
  let statistic = 0;
  let rank = 0;
  let unexplained = 0;
  variances.forEach((variance, k) => {
    const along = values.reduce((total, value, i) => total + value * entry(right, i, k), 0);
    if (k < patterns && variance > negligible * scale && Math.sqrt(variance) > nothing) {
      rank += 1;
      statistic += (along * along) / variance;
    } else unexplained = Math.max(unexplained, Math.abs(along));
  });
  if (unexplained > Math.max(nothing, 1e-3 * Math.sqrt(scale))) return certainlyNot(values);
  if (rank === 0) return undefined;
  const uncertainties = amounts.map((row) => Math.sqrt(row.reduce((total, amount) => total + amount * amount, 0)));
  const worst = mostBeyond(values, uncertainties);
  const freedom = effectiveDegreesOfFreedom(
    tape.sources.map(({ degreesOfFreedom, varianceEstimate }, k) => ({
      contribution: Math.sqrt(amounts.reduce((total, row) => total + (row[k] as number) ** 2, 0)),
      degreesOfFreedom,
      varianceEstimate,
    })),
  );
  const chance = Number.isFinite(freedom) ? fisherUpperTail(statistic / rank, rank, freedom) : chiSquareUpperTail(statistic, rank);
  return { chance, statistic, degreesOfFreedom: rank, worst };
}

/** Touches without any doubt that could explain what is left of them. */
function certainlyNot(values: readonly number[]): Agreement {
  return {
    chance: 0,
    statistic: Number.POSITIVE_INFINITY,
    degreesOfFreedom: values.length,
    worst: mostBeyond(
      values,
      values.map(() => 0),
    ),
  };
}

function mostBeyond(values: readonly number[], uncertainties: readonly number[]): Agreement["worst"] {
  const beyond = (i: number) => Math.abs(values[i] as number) / Math.max(uncertainties[i] as number, nothing);
  const contact = values.reduce((most, _, i) => (beyond(i) > beyond(most) ? i : most), 0);
  return { contact, residual: values[contact] as number, standardUncertainty: uncertainties[contact] as number };
}

function entry({ columns, entries }: Matrix, i: number, k: number): number {
  return entries[i * columns + k] as number;
}
