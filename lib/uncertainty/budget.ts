import { type Family, families, type Source } from "./source.ts";
import { halfWidthOf, standardUncertaintyOf } from "./sourceDistribution.ts";
import { Tape } from "./tape.ts";
import type { Uncertain } from "./uncertain.ts";

/** What one source does to a result. */
export interface Contribution {
  readonly source: Source;
  /** Derivative of the result by the source at the best estimates. */
  readonly sensitivity: number;
  /** sensitivity · standard uncertainty of the source, with its sign, in the unit of the result. */
  readonly amount: number;
  /** Magnitude of the largest deviation that the source can cause to first order; `Infinity` where it has no end and no limit. */
  readonly reach: number;
}

/** A source whose part in a result is below this share of its standard uncertainty has cancelled: what is left of it is rounding. */
const cancelled = 1e-9;

/** Budgets of several results from one computation. */
export function budgetsOf(results: readonly Uncertain[]): Budget[] {
  const tape = new Tape(results);
  return budgetsFrom(tape, tape.allSensitivities());
}

/** The same as a lookup, for callers whose results are of many kinds: what they share is worked out once. */
export function budgetsTogether(results: readonly Uncertain[]): (result: Uncertain) => Budget {
  const budgets = budgetsOf(results);
  const indices = new Map(results.map((result, i) => [result, i]));
  return (result) => {
    const index = indices.get(result);
    if (index === undefined) throw new Error("budgetsTogether: expected one of the results of this computation");
    return budgets[index] as Budget;
  };
}

/** The budget of one result; several of one computation cost less by `budgetsOf`. */
export function budgetOf(result: Uncertain): Budget {
  return budgetsOf([result])[0] as Budget;
}

/** The same for a formula of a person's own, which may be anything; undefined where the result or its uncertainty is not finite. */
export function finiteBudgetOf(result: Uncertain): Budget | undefined {
  const tape = new Tape([result]);
  const rows = tape.allSensitivities();
  const variance = varianceOf(rows, standardUncertaintiesOf(tape.sources));
  return Number.isFinite(result.value) && Number.isFinite(variance) ? budgetsFrom(tape, rows)[0] : undefined;
}

function standardUncertaintiesOf(sources: readonly Source[]): Float64Array {
  return Float64Array.from(sources, ({ distribution }) => standardUncertaintyOf(distribution));
}

/**
 * Budgets of all outputs of a tape, in order. The contributions add up to the variance: what is left out has cancelled.
 *
 * @param rows derivatives of the outputs, one row after the other; the budgets keep them
 * @throws RangeError when a result or its uncertainty is not finite: such a number must not be shown
 */
function budgetsFrom({ sources, outputs }: Tape, rows: Float64Array): Budget[] {
  const standardUncertainties = standardUncertaintiesOf(sources);
  return outputs.map(({ value }, output) => {
    const sensitivities = rows.subarray(output * sources.length, (output + 1) * sources.length);
    const standardUncertainty = Math.sqrt(varianceOf(sensitivities, standardUncertainties));
    if (!Number.isFinite(value) || !Number.isFinite(standardUncertainty)) {
      throw new RangeError(`budgetsFrom: expected finite results, got ${value} with standard uncertainty ${standardUncertainty}`);
    }
    cancelRounding(sensitivities, standardUncertainties, cancelled * standardUncertainty);
    return new Budget(value, standardUncertainty, sources, sensitivities, standardUncertainties);
  });
}

/**
 * A result with its doubt, and where the doubt comes from. A class, since a table has thousands of them: a getter of its own for each would cost more
 * than the numbers.
 */
export class Budget {
  readonly value: number;
  /** Combined standard uncertainty (JCGM 100, 5.1.2), same unit as the value. */
  readonly standardUncertainty: number;
  /** The sources of the whole computation, the same array for all its results. */
  readonly sources: readonly Source[];
  /** Derivative by each of `sources`; 0 for those without effect. */
  readonly sensitivities: Float64Array;
  private readonly standardUncertainties: Float64Array;
  private lines: readonly Contribution[] | undefined;

  /** @param standardUncertainties of the sources */
  constructor(
    value: number,
    standardUncertainty: number,
    sources: readonly Source[],
    sensitivities: Float64Array,
    standardUncertainties: Float64Array,
  ) {
    this.value = value;
    this.standardUncertainty = standardUncertainty;
    this.sources = sources;
    this.sensitivities = sensitivities;
    this.standardUncertainties = standardUncertainties;
  }

  /** By source; every source that has any effect, largest amount first. Worked out when first asked for: most budgets are never read line by line. */
  get contributions(): readonly Contribution[] {
    this.lines ??= contributionsOf(this.sources, this.sensitivities, this.standardUncertainties);
    return this.lines;
  }

  /** Of the magnitude of the value: the same, or all of it with the other sign. */
  magnitude(): Budget {
    if (!(this.value < 0)) return this;
    const { standardUncertainty, sources, sensitivities, standardUncertainties } = this;
    const turned = sensitivities.map((sensitivity) => (sensitivity === 0 ? 0 : -sensitivity));
    return new Budget(-this.value, standardUncertainty, sources, turned, standardUncertainties);
  }
}

/**
 * The same result with every deviation of a source as many times as large as `factorOf` says: what the budget would be if that source were better
 * or worse known. 0 takes its doubt away.
 */
export function scaledBudget({ value, sources, sensitivities }: Budget, factorOf: (source: Source) => number): Budget {
  const standardUncertainties = standardUncertaintiesOf(sources);
  const scaled = sensitivities.map((sensitivity, i) => (sensitivity === 0 ? 0 : sensitivity * factorOf(sources[i] as Source)));
  return new Budget(value, Math.sqrt(varianceOf(scaled, standardUncertainties)), sources, scaled, standardUncertainties);
}

function varianceOf(sensitivities: Float64Array, standardUncertainties: Float64Array): number {
  let variance = 0;
  for (let i = 0; i < sensitivities.length; i++) {
    const amount = (sensitivities[i] as number) * (standardUncertainties[i] as number);
    variance += amount * amount;
  }
  return variance;
}

function cancelRounding(sensitivities: Float64Array, standardUncertainties: Float64Array, rounding: number): void {
  for (let i = 0; i < sensitivities.length; i++)
    if (!(Math.abs(sensitivities[i] as number) * (standardUncertainties[i] as number) > rounding)) sensitivities[i] = 0;
}

function contributionsOf(sources: readonly Source[], sensitivities: Float64Array, standardUncertainties: Float64Array): Contribution[] {
  const contributions: Contribution[] = [];
  for (let i = 0; i < sensitivities.length; i++) {
    const sensitivity = sensitivities[i] as number;
    if (sensitivity === 0) continue;
    const source = sources[i] as Source;
    const reach = Math.abs(sensitivity) * (source.limit ?? halfWidthOf(source.distribution));
    contributions.push({ source, sensitivity, amount: sensitivity * (standardUncertainties[i] as number), reach });
  }
  return contributions.sort(byAmount);
}

function byAmount(a: Contribution, b: Contribution): number {
  return Math.abs(b.amount) - Math.abs(a.amount) || (a.source.id < b.source.id ? -1 : 1);
}

/** Standard uncertainty by family (root of the summed squares), in the fixed order of the families; those without effect are left out. */
export function byFamily({ contributions }: Budget): readonly { readonly family: Family; readonly standardUncertainty: number }[] {
  return families.flatMap((family) => {
    const square = contributions.reduce((total, { source, amount }) => (source.family === family ? total + amount * amount : total), 0);
    return square > 0 ? [{ family, standardUncertainty: Math.sqrt(square) }] : [];
  });
}
