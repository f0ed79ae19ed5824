import type { Outcome } from "../base/outcome.ts";
import type { Studied, StudyTarget } from "../decision/studyTargets.ts";
import type { Distribution } from "../uncertainty/distribution.ts";
import { type SecondOrder, secondOrder } from "../uncertainty/secondOrder.ts";
import { type Linearised, type Refined, refineLinear } from "../uncertainty/trials/refineLinear.ts";
import { runToEnd } from "../uncertainty/trials/runToEnd.ts";
import { runBlocks } from "../uncertainty/trials/runTrials.ts";
import { tallyDistribution } from "../uncertainty/trials/tallyDistribution.ts";
import { TrialModel } from "../uncertainty/trials/trialModel.ts";
import { momentsOf, type OutputTally, type TrialTally } from "../uncertainty/trials/trialTally.ts";
import { type FirstOrderCheck, validateFirstOrder } from "../uncertainty/validateFirstOrder.ts";
import { coverageProbability, expandedUncertainty } from "./expandedUncertainty.ts";
import { significantDigits } from "./significantDigits.ts";

/** Ends of an interval found by trials are doubted by so many of their standard errors: with some dozens of ends side by side, two are passed by chance. */
const doubtfulErrors = 4;

/** What a study says of one result of a strategy. */
export interface StudyResult extends BeyondFirstOrder {
  readonly name: string;
  readonly unit: "mm" | "rad";
}

/** What is known of a result with the bend of its model, in its unit. */
export interface BeyondFirstOrder {
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
export function studyModel(targets: readonly (Studied & Pick<StudyTarget, "name">)[], seed: number): TrialModel {
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
  const bent = bendOf(studied, seed);
  return studied.map((target, k) => {
    const { name, unit } = target;
    const counted = tally?.outputs.find((output) => output.name === name);
    return { name, unit, ...found(target, bent[k] as Bent, counted) };
  });
}

/**
 * The same of any results, such as those of a person's own formulas: with the bend of the model taken in, and by trials where that is too much for a
 * correction. Those that do not vary have none.
 */
export function beyondFirstOrder(results: readonly Studied[], seed: number): (BeyondFirstOrder | undefined)[] {
  const named = results.map((result, k) => ({ ...result, name: String(k) }));
  const studied = varying(named);
  const bent = bendOf(studied, seed);
  const tooCurved = studied.filter((_, k) => bent[k]?.isTooCurved);
  const tally =
    tooCurved.length > 0 ? runToEnd(runBlocks(studyModel(tooCurved, seed), 0, blocksWhenTooCurved), () => undefined) : undefined;
  const known = new Map(
    studied.map((each, k) => {
      const counted = tally?.outputs.find(({ name }) => name === each.name);
      return [each.name, found(each, bent[k] as Bent, counted)];
    }),
  );
  return named.map(({ name }) => known.get(name));
}

/** About 100 000 trials: the ends of a 95 % interval to about a hundredth of a standard deviation. */
const blocksWhenTooCurved = 98;

function bendOf(studied: readonly Studied[], seed: number): Bent[] {
  const corrected = refineLinear(
    studied.map(({ components, linear }): Linearised => ({ components, linear })),
    seed,
  );
  const terms = secondOrder(studied.flatMap(({ components }) => components));
  return studied.map(({ components }, k) => ({ ...(corrected[k] as Refined), secondOrder: terms.splice(0, components.length) }));
}

function found(target: Studied, bent: Bent, counted: OutputTally | undefined): BeyondFirstOrder {
  if (counted === undefined) return byCorrection(target, bent);
  return momentsOf(counted).count > 0 ? byTrials(target, bent, counted) : withoutValue(byCorrection(target, bent), counted);
}

function varying<Target extends Studied>(targets: readonly Target[]): readonly Target[] {
  return targets.filter(({ linear: { standardDeviation } }) => standardDeviation > 0 && Number.isFinite(standardDeviation));
}

/** A result with the bend of its model taken in, in both ways. */
interface Bent extends Refined, Pick<BeyondFirstOrder, "secondOrder"> {}

function byCorrection(target: Studied, refined: Bent): BeyondFirstOrder {
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
function withoutValue(result: BeyondFirstOrder, { failed }: OutputTally): BeyondFirstOrder {
  return { ...result, isTooCurved: true, trials: { count: 0, failed }, failedShare: 1 };
}

function byTrials(target: Studied, refined: Bent, tally: OutputTally): BeyondFirstOrder {
  const { count } = momentsOf(tally);
  const distribution = tallyDistribution(tally);
  const symmetric = distribution.interval(coverageProbability, "symmetric");
  const tail = (1 - coverageProbability) / 2;
  // What bends too much is nowhere near its linear form; elsewhere that is smoother than trials are.
  const { density: densityAt } = refined.isTooCurved ? distribution : target.linear;
  const density = Math.min(...symmetric.map(densityAt));
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
  { budgets }: Studied,
  { nonlinearity, scatter, secondOrder: terms }: Bent,
  distribution: Distribution,
  symmetric: readonly [number, number],
  doubt: number,
) {
  const [budget, second] = budgets;
  return {
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
