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

/** A result with its doubt, and where the doubt comes from. */
export interface Budget {
  readonly value: number;
  /** Combined standard uncertainty (JCGM 100, 5.1.2), same unit as the value. */
  readonly standardUncertainty: number;
  /** By source; every source that has any effect, largest amount first. */
  readonly contributions: readonly Contribution[];
}

/** A source whose part in a result is below this share of its standard uncertainty has cancelled: what is left of it is rounding. */
const cancelled = 1e-9;

/** Budgets of several results from one computation. */
export function budgetsOf(results: readonly Uncertain[]): Budget[] {
  return budgetsOnTape(new Tape(results));
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

export function budgetOf(result: Uncertain): Budget {
  return budgetsOf([result])[0] as Budget;
}

/**
 * Budgets of all outputs of a tape, in order. The contributions add up to the variance: what is left out has cancelled.
 *
 * @throws RangeError when a result or its uncertainty is not finite: such a number must not be shown
 */
function budgetsOnTape(tape: Tape): Budget[] {
  const standardUncertainties = tape.sources.map(({ distribution }) => standardUncertaintyOf(distribution));
  return tape.outputs.map(({ value }, output) => {
    const sensitivities = tape.sensitivities(output);
    const contributions: Contribution[] = [];
    let variance = 0;
    tape.sources.forEach((source, i) => {
      const sensitivity = sensitivities[i] as number;
      if (sensitivity === 0) return;
      const amount = sensitivity * (standardUncertainties[i] as number);
      variance += amount * amount;
      const limit = source.limit ?? halfWidthOf(source.distribution);
      contributions.push({ source, sensitivity, amount, reach: Math.abs(sensitivity) * limit });
    });
    const standardUncertainty = Math.sqrt(variance);
    const effective = contributions.filter(({ amount }) => Math.abs(amount) > cancelled * standardUncertainty);
    effective.sort((a, b) => Math.abs(b.amount) - Math.abs(a.amount) || (a.source.id < b.source.id ? -1 : 1));
    if (!Number.isFinite(value) || !Number.isFinite(standardUncertainty)) {
      throw new RangeError(`budgetsOnTape: expected finite results, got ${value} with standard uncertainty ${standardUncertainty}`);
    }
    return { value, standardUncertainty, contributions: effective };
  });
}

/** Standard uncertainty by family (root of the summed squares), in the fixed order of the families; those without effect are left out. */
export function byFamily({ contributions }: Budget): readonly { readonly family: Family; readonly standardUncertainty: number }[] {
  return families.flatMap((family) => {
    const square = contributions.reduce((total, { source, amount }) => (source.family === family ? total + amount * amount : total), 0);
    return square > 0 ? [{ family, standardUncertainty: Math.sqrt(square) }] : [];
  });
}
