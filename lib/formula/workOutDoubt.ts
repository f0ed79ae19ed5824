import { failure, type Outcome, success } from "../base/outcome.ts";
import { finiteBudgetOf } from "../uncertainty/budget.ts";
import { oneWayAnalysis } from "../uncertainty/oneWayAnalysis.ts";
import { summariseRepeats } from "../uncertainty/repeats.ts";
import type { ReadingGroups } from "../uncertainty/source.ts";
import type { SourceDistribution } from "../uncertainty/sourceDistribution.ts";
import { limitsAtDeviations } from "../uncertainty/statedLimits.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { Column } from "./column.ts";
import { evaluateExpression, type Lookup, type ValueLookup, type ValueOrColumn } from "./evaluateExpression.ts";
import { type Expression, leavesOf, namesIn } from "./expression.ts";
import { startOf } from "./internals/bareFormulas.ts";
import { numberArithmetic } from "./numberArithmetic.ts";
import { soundBudget } from "./soundBudget.ts";
import { inGroups, type LimitShape, type StatedDoubt } from "./statement.ts";
import { uncertainArithmetic } from "./uncertainArithmetic.ts";
import { toBaseUnit } from "./units.ts";

/** A doubt as a source holds it. */
export interface Doubt {
  /** Of the deviation from the estimate, in the base unit of the value. */
  readonly distribution: SourceDistribution;
  /** Of the standard uncertainty; `Infinity` where it is taken as exactly known (JCGM 100:2008, G.4.3). */
  readonly degreesOfFreedom: number;
  /** The readings that it rests on, where it does, in base units. */
  readonly readings?: readonly number[];
  /** Where the readings are in groups, what that shows. */
  readonly groups?: ReadingGroups;
  /** Where the size is relative: it, in per cent of the value. */
  readonly percent?: number;
  /** Where it rests on the last digit of readings, which scatter by less than that can tell: one step of it, in base units. */
  readonly step?: number;
  /** Half the distance of stated limits, where the distribution itself has no end there. */
  readonly limit?: number;
  /** As typed, with the units given. */
  readonly stated: StatedDoubt;
}

/** What a size comes to, in base units. */
export type NumberOf = (size: Expression) => Outcome<number>;

/**
 * The doubt in base units, from what its sizes come to.
 *
 * @param estimateOf the value itself, of which a relative doubt is a share
 */
export function workOutDoubt(stated: StatedDoubt, numberOf: NumberOf, estimateOf: () => Outcome<number>): Outcome<Doubt> {
  switch (stated.kind) {
    case "standard": {
      const { size, coverageFactor = 1, degreesOfFreedom = Number.POSITIVE_INFINITY } = stated;
      const typed = absoluteSize(size, stated, numberOf, estimateOf);
      if (!typed.ok) return typed;
      const { size: absolute, ...relative } = typed.value;
      return success({ ...standardDoubt(absolute / coverageFactor, degreesOfFreedom), ...relative, stated });
    }
    case "within": {
      const halfWidth = absoluteSize(stated.halfWidth, stated, numberOf, estimateOf);
      if (!halfWidth.ok) return halfWidth;
      const { size: absolute, ...relative } = halfWidth.value;
      return success({ ...limitedDoubt(absolute, stated.shape), ...relative, stated });
    }
    case "limits": {
      const lower = numberOf(stated.lower);
      if (!lower.ok) return lower;
      const upper = numberOf(stated.upper);
      if (!upper.ok) return upper;
      if (!(lower.value <= upper.value)) return refuse(stated.upper, "the second limit is below the first", "write the lower limit first");
      return success({ ...limitedDoubt(upper.value / 2 - lower.value / 2, stated.shape), stated });
    }
    case "notBelow": {
      const expectation = numberOf(stated.expectation);
      if (!expectation.ok) return expectation;
      const lowest = numberOf(stated.lowest);
      if (!lowest.ok) return lowest;
      const mean = expectation.value - lowest.value;
      if (!(mean >= 0))
        return refuse(stated.lowest, "the expectation is below this limit", "write the expectation first, then what it cannot be below");
      return success({ distribution: { shape: "exponential", mean }, degreesOfFreedom: Number.POSITIVE_INFINITY, stated });
    }
    case "readings":
      return workOutReadings(stated, numberOf);
  }
}

/** With few degrees of freedom the deviation is a t of that many (JCGM 101:2008, 6.4.9). */
function standardDoubt(size: number, degreesOfFreedom: number): Omit<Doubt, "stated"> {
  const distribution: SourceDistribution = Number.isFinite(degreesOfFreedom)
    ? { shape: "scaledT", scale: size, degreesOfFreedom }
    : { shape: "normal", standardDeviation: size };
  return { distribution, degreesOfFreedom };
}

function limitedDoubt(halfWidth: number, shape: LimitShape): Omit<Doubt, "stated"> {
  const degreesOfFreedom = Number.POSITIVE_INFINITY;
  switch (shape.name) {
    case "normal":
      return {
        distribution: { shape: "normal", standardDeviation: halfWidth / limitsAtDeviations },
        degreesOfFreedom,
        limit: halfWidth,
      };
    case "trapezoidal":
      return { distribution: { shape: "trapezoidal", halfWidth, topRatio: shape.topRatio }, degreesOfFreedom };
    case "curvilinear trapezoidal":
      return { distribution: { shape: "curvilinearTrapezoidal", halfWidth, topRatio: shape.topRatio }, degreesOfFreedom };
    default:
      return { distribution: { shape: shape.name, halfWidth }, degreesOfFreedom };
  }
}

/**
 * The mean errs by a t of n − 1 degrees of freedom times s/√n (JCGM 100:2008, 4.2.3 and G.3; JCGM 101:2008, 6.4.9.2), and by no less than its readings
 * can tell: a value that is shown in steps may lie anywhere within half a step to either side, which is a standard uncertainty of step/√12 however often
 * it is read and however well the readings agree (JCGM 100:2008, F.2.2.1). The step is that of the least digit typed. The larger of the two counts and
 * not both, because readings that scatter over their steps show the rounding in their scatter.
 *
 * In groups the mean of the groups' means errs by s(x̄ⱼ)/√J with J − 1 where the groups differ, else the mean of all by s/√N with N − 1
 * (JCGM 100:2008, H.5.2).
 */
function workOutReadings(stated: StatedDoubt & { readonly kind: "readings" }, numberOf: NumberOf): Outcome<Doubt> {
  const values: number[] = [];
  for (const reading of stated.readings) {
    const value = numberOf(reading);
    if (!value.ok) return value;
    values.push(value.value);
  }
  const groups = stated.groupSizes && analyseGroups(values, stated.groupSizes);
  const { scale, degreesOfFreedom } = groups?.mean ?? ofOneGroup(values);
  const first = stated.readings[0] as Expression;
  if (!Number.isFinite(scale)) return refuse(first, "the readings are too far apart");
  const step = leastStepOf(stated.readings);
  if (step === undefined && scale === 0)
    return refuse(first, "the readings are all the same, and no digit tells by what step they were read", "state the doubt behind ±");
  if (step !== undefined && scale < step / Math.sqrt(12)) {
    const distribution = { shape: "rectangular", halfWidth: step / 2 } as const;
    return success({
      distribution,
      degreesOfFreedom: Number.POSITIVE_INFINITY,
      readings: values,
      ...(groups && { groups: groups.found }),
      step,
      stated,
    });
  }
  const distribution = { shape: "scaledT", scale, degreesOfFreedom } as const;
  return success({ distribution, degreesOfFreedom, readings: values, ...(groups && { groups: groups.found }), stated });
}

interface ScatterOfMean {
  /** s of the mean; not finite where the readings are too far apart. */
  readonly scale: number;
  readonly degreesOfFreedom: number;
}

function ofOneGroup(values: readonly number[]): ScatterOfMean {
  const { standardUncertaintyOfMean: scale = Number.NaN, degreesOfFreedom } = summariseRepeats(values);
  return { scale, degreesOfFreedom };
}

/** The chance of so large a ratio by scatter alone below which groups differ: that of JCGM 100:2008, H.5.2.2. */
const differsBelow = 0.05;

function analyseGroups(
  values: readonly number[],
  sizes: readonly number[],
): { readonly mean: ScatterOfMean; readonly found: ReadingGroups } {
  const { ratio, chanceOfRatio, within, standardDeviationBetween, whenGroupsDiffer, whenGroupsAgree } = oneWayAnalysis(
    inGroups(values, sizes),
  );
  const differ = chanceOfRatio < differsBelow;
  const { standardUncertainty: scale, degreesOfFreedom } = differ ? whenGroupsDiffer : whenGroupsAgree;
  return {
    mean: { scale, degreesOfFreedom },
    found: { sizes, differ, ratio, chance: chanceOfRatio, within: Math.sqrt(within.meanSquare), between: standardDeviationBetween },
  };
}

/** One step of the last digit of a typed number, in base units; undefined for any other formula. */
export function stepOfNumber(expression: Expression): number | undefined {
  if (expression.kind === "negate") return stepOfNumber(expression.operand);
  return expression.kind === "number" ? leastStepOf([expression]) : undefined;
}

/** The least step that the digits of readings can tell, in base units; undefined where none is a typed decimal. */
function leastStepOf(readings: readonly Expression[]): number | undefined {
  const steps = readings
    .flatMap(leavesOf)
    .flatMap((leaf) =>
      leaf.kind === "number" && leaf.decimals !== undefined
        ? [leaf.unit ? toBaseUnit(10 ** -leaf.decimals, leaf.unit) : 10 ** -leaf.decimals]
        : [],
    );
  return steps.length === 0 ? undefined : Math.min(...steps);
}

/** Of a size without names. */
export const numberAlone: NumberOf = (size) => evaluateExpression(size, numberArithmetic, new Map<string, number>());

/** Of a size that names what is sure. */
export function sureNumber(values: ValueLookup<Uncertain>): NumberOf {
  return (size) => {
    const value = evaluateExpression(size, uncertainArithmetic, values);
    if (!value.ok) return value;
    const budget = soundBudget(value.value);
    if (!budget.ok) return refuse(size, "the size of this doubt is no number");
    return budget.value.standardUncertainty === 0 ? success(budget.value.value) : refuseDoubtful(size, values);
  };
}

function refuseDoubtful(size: Expression, values: Lookup<ValueOrColumn<Uncertain>>): Outcome<never> {
  const isDoubtful = (name: string) => {
    const value = values.get(name);
    const all = value instanceof Column ? value.content : value === undefined ? [] : [value];
    return all.some((each) => finiteBudgetOf(each)?.standardUncertainty !== 0);
  };
  const name = namesIn(size).find(isDoubtful);
  const what = `a doubt cannot itself be in doubt, and ${name === undefined ? "this" : `"${name}"`} is`;
  return refuse(size, what, "put that doubt aside with estimate( ), if that is meant");
}

/** A relative size needs a value to be a share of (JCGM 100:2008, 5.1.6: if it is not 0). */
function absoluteSize(
  expression: Expression,
  { isRelative }: { readonly isRelative?: true },
  numberOf: NumberOf,
  estimateOf: () => Outcome<number>,
): Outcome<{ readonly size: number; readonly percent?: number }> {
  const size = sizeOf(expression, numberOf);
  if (!size.ok) return size;
  if (!isRelative) return success({ size: size.value });
  const estimate = estimateOf();
  if (!estimate.ok) return estimate;
  if (estimate.value === 0)
    return refuse(
      expression,
      "the value is 0, and a doubt in per cent of nothing says nothing",
      "write the size of the doubt itself, with its unit",
    );
  return success({ size: (size.value / 100) * Math.abs(estimate.value), percent: size.value });
}

function sizeOf(expression: Expression, numberOf: NumberOf): Outcome<number> {
  const size = numberOf(expression);
  if (size.ok && !(size.value >= 0)) return refuse(expression, "a doubt cannot be negative", "write its size without a sign");
  return size;
}

function refuse(expression: Expression, what: string, remedy?: string): Outcome<never> {
  return failure({ at: "", what, character: startOf(expression), ...(remedy && { remedy }) });
}
