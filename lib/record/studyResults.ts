import type { Outcome } from "../base/outcome.ts";
import type { StudyTarget } from "../decision/studyTargets.ts";
import type { Distribution } from "../uncertainty/distribution.ts";
import { type SecondOrder, secondOrder } from "../uncertainty/secondOrder.ts";
import { type Linearised, type Refined, refineLinear } from "../uncertainty/trials/refineLinear.ts";
import { tallyDistribution } from "../uncertainty/trials/tallyDistribution.ts";
import { TrialModel } from "../uncertainty/trials/trialModel.ts";
import { momentsOf, type OutputTally, type TrialTally } from "../uncertainty/trials/trialTally.ts";
import { type FirstOrderCheck, validateFirstOrder } from "../uncertainty/validateFirstOrder.ts";
import { coverageProbability, expandedUncertainty } from "./expandedUncertainty.ts";
import { significantDigits } from "./significantDigits.ts";

/** Ends of an interval found by trials are doubted by so many of their standard errors: with some dozens of ends side by side, two are passed by chance. */
const doubtfulErrors = 4;

/** What a study says of one result. */
export interface StudyResult {
  readonly name: string;
  readonly unit: "mm" | "rad";
  /** The best answer that there is: from trials where they were run, else the corrected one. */
  readonly distribution: Distribution;
  readonly symmetric: readonly [lower: number, upper: number];
  readonly shortest: readonly [lower: number, upper: number];
  /** The correction is no small one, and no trial has a value: the numbers are not to be shown. */
  readonly isTooCurved: boolean;
  /** Chance of being within the limits, for a characteristic, and what it may be off: the standard error of trials, or the bound of a computation. */
  readonly within: { readonly chance: number; readonly doubt: number } | undefined;
  /** First order beside the whole model; undefined for a diameter used, which has no first-order interval, and for a result that does not vary. */
  readonly check: FirstOrderCheck | undefined;
  /** What the terms of second order do to the combined variance; of X and Y for a diameter used. */
  readonly secondOrder: readonly Outcome<SecondOrder>[];
  /** How far the bend of the model moves the ends of the 95 % interval, in standard deviations, and what is not known of that. */
  readonly nonlinearity: { readonly size: number; readonly doubt: number };
  readonly trials: { readonly count: number; readonly failed: number } | undefined;
  /** Share of the trials, or of the points of the correction, in which the model had no value; they are not in the numbers. */
  readonly failedShare: number;
}

/** The results of a study as a model for trials; those that do not vary are left out. */
export function studyModel(targets: readonly StudyTarget[], seed: number): TrialModel {
  return new TrialModel(
    varying(targets).map(({ name, value, linear }) => {
      // Round numbers: the last digits of a computed one are not the same in every engine, and tallies of all of them are to go together.
      const scale = Number(linear.standardDeviation.toPrecision(1));
      const step = scale / 4;
      return { name, value, centre: step * Math.round(linear.quantile(0.5) / step), scale };
    }),
    seed,
  );
}

/**
 * The targets with the bend of the model taken in, and, where a tally of trials is given, as the trials have found them.
 *
 * @param tally of `studyModel` of the same targets; another one is refused by its fingerprint where it is read
 */
export function studyResults(targets: readonly StudyTarget[], seed: number, tally?: TrialTally): StudyResult[] {
  const studied = varying(targets);
  const corrected = refineLinear(
    studied.map(({ components, linear }): Linearised => ({ components, linear })),
    seed,
  );
  const terms = secondOrder(studied.flatMap(({ components }) => components));
  return studied.map((target, k) => {
    const counted = tally?.outputs.find(({ name }) => name === target.name);
    const refined: Bent = { ...(corrected[k] as Refined), secondOrder: terms.splice(0, target.components.length) };
    if (counted === undefined) return byCorrection(target, refined);
    return momentsOf(counted).count > 0 ? byTrials(target, refined, counted) : withoutValue(byCorrection(target, refined), counted);
  });
}

function varying(targets: readonly StudyTarget[]): readonly StudyTarget[] {
  return targets.filter(({ linear: { standardDeviation } }) => standardDeviation > 0 && Number.isFinite(standardDeviation));
}

/** A result with the bend of its model taken in, in both ways. */
interface Bent extends Refined, Pick<StudyResult, "secondOrder"> {}

function byCorrection(target: StudyTarget, refined: Bent): StudyResult {
  const { distribution, scatter } = refined;
  const symmetric = distribution.interval(coverageProbability, "symmetric");
  const doubt = 2 * scatter * target.linear.standardDeviation;
  return {
    ...common(target, refined, distribution, symmetric, doubt),
    isTooCurved: refined.isTooCurved,
    within: target.limits && {
      chance: distribution.chanceWithin(target.limits.lower, target.limits.upper),
      doubt: distribution.error,
    },
    trials: undefined,
    failedShare: refined.failed,
  };
}

/** Where no trial had a value, a correction that had some would only look like an answer. */
function withoutValue(result: StudyResult, { failed }: OutputTally): StudyResult {
  return { ...result, isTooCurved: true, trials: { count: 0, failed }, failedShare: 1 };
}

function byTrials(target: StudyTarget, refined: Bent, tally: OutputTally): StudyResult {
  const { count } = momentsOf(tally);
  const distribution = tallyDistribution(tally);
  const symmetric = distribution.interval(coverageProbability, "symmetric");
  const tail = (1 - coverageProbability) / 2;
  const density = Math.min(...symmetric.map((end) => target.linear.density(end)));
  const doubt = density > 0 ? (doubtfulErrors * Math.sqrt((tail * (1 - tail)) / count)) / density : Number.POSITIVE_INFINITY;
  const chance = target.limits && distribution.chanceWithin(target.limits.lower, target.limits.upper);
  return {
    ...common(target, refined, distribution, symmetric, doubt),
    isTooCurved: false,
    // What no trial has seen may still happen about once in as many.
    within: chance === undefined ? undefined : { chance, doubt: Math.max(1 / count, Math.sqrt((chance * (1 - chance)) / count)) },
    trials: { count, failed: tally.failed },
    failedShare: tally.failed / (count + tally.failed),
  };
}

function common(
  { name, unit, budgets }: StudyTarget,
  { nonlinearity, scatter, secondOrder: terms }: Bent,
  distribution: Distribution,
  symmetric: readonly [number, number],
  doubt: number,
) {
  const [budget, second] = budgets;
  return {
    name,
    unit,
    distribution,
    symmetric,
    shortest: distribution.interval(coverageProbability, "shortest"),
    check:
      budget === undefined || second !== undefined
        ? undefined
        : validateFirstOrder({ ...budget, ...expandedUncertainty(budget) }, symmetric, doubt, significantDigits),
    secondOrder: terms,
    nonlinearity: { size: nonlinearity, doubt: 2 * scatter },
  };
}
