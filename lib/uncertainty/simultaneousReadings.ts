import { type Matrix, matrixOf } from "../base/matrix.ts";
import { type Outcome, success } from "../base/outcome.ts";
import { correlatedSources } from "./correlatedSources.ts";
import { centredValues } from "./internals/centredValues.ts";
import { simultaneousCoefficients } from "./internals/simultaneousCoefficients.ts";
import type { Family } from "./source.ts";
import type { Uncertain } from "./uncertain.ts";

/** One of several quantities that are read together, set by set. */
export interface SimultaneousQuantity {
  /** Unique in a computation, for example `voltage, mean`. */
  readonly id: string;
  /** What a person reads in a budget. */
  readonly label: string;
  readonly family: Family;
  /** In the order of the sets, at least two and as many as of the others. */
  readonly readings: readonly number[];
}

/** Means of quantities that were read together. */
export interface SimultaneousMeans {
  /** How many sets were read. */
  readonly count: number;
  /** One per quantity, each in its own unit; what their scatter has in common is in them. */
  readonly means: readonly Uncertain[];
  /** s(q̄) of each mean, s/√n. */
  readonly standardUncertainties: readonly number[];
  /** Correlation coefficients of the means; 0 beside a quantity that did not scatter. */
  readonly correlations: Matrix;
  /** n − 1, for every mean and for whatever is linear in them. */
  readonly degreesOfFreedom: number;
}

/**
 * Means of quantities read at the same time, with the covariance of the means Σ (q − q̄)(r − r̄) / (n (n − 1)) (JCGM 100:2008, 5.2.3,
 * equation 17, and H.2.2).
 *
 * The covariance is not passed on as numbers: the means are made of independent sources (`correlatedSources`), so that budget, covariance
 * and correlation of whatever is computed from them come out by themselves. All rest on one estimate with n − 1 degrees of freedom, so a
 * result that is linear in the means has a t with n − 1, as the mean of the n results has. Perfectly correlated quantities, or more
 * quantities than sets, need fewer sources than quantities and are no trouble. A quantity whose readings are all equal has no scatter here:
 * its resolution is for the caller to add.
 *
 * @returns the means, or the problem of two quantities with one id
 * @throws RangeError for fewer than two sets, unequal numbers of readings, or readings that are not finite or too large to be squared
 */
export function simultaneousReadings(quantities: readonly SimultaneousQuantity[]): Outcome<SimultaneousMeans> {
  const count = quantities[0]?.readings.length ?? 0;
  if (count < 2) throw new RangeError(`quantities: expected at least one with at least two readings, got ${count} readings`);
  for (const { id, readings } of quantities)
    if (readings.length !== count)
      throw new RangeError(`${id}: expected ${count} readings as of the first quantity, got ${readings.length}`);
  const degreesOfFreedom = count - 1;
  const centred = quantities.map(({ id, readings }) => centredValues(readings, id));
  const lengths = centred.map(({ sumOfSquares }) => Math.sqrt(sumOfSquares));
  if (!lengths.every(Number.isFinite)) throw new RangeError("quantities: expected readings whose squares are finite");
  const standardUncertainties = lengths.map((length) => length / Math.sqrt(count * degreesOfFreedom));
  const coefficients = simultaneousCoefficients(centred);
  const varianceEstimate = `scatter of ${quantities.map(({ id }) => id).join(", ")}`;
  const means = correlatedSources(
    quantities.map(({ id, label, family }, k) => ({
      id,
      label,
      family,
      estimate: centred[k]?.mean as number,
      distribution: { shape: "scaledT", scale: standardUncertainties[k] as number, degreesOfFreedom },
      degreesOfFreedom,
      evidence: { kind: "measured", readings: count },
      varianceEstimate,
    })),
    coefficients,
  );
  if (!means.ok) return means;
  return success({
    count,
    means: means.value,
    standardUncertainties,
    correlations: matrixOf(quantities.length, quantities.length, (i, j) => coefficients[i]?.[j] as number),
    degreesOfFreedom,
  });
}
