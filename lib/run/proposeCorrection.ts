/** What to do about an error of the setup that parts have shown. */
export type Correction =
  | {
      readonly verdict: "leave alone";
      readonly reason: "how parts scatter is not known" | "within scatter";
      /** mm: an estimate has to be larger to count; undefined where no scatter is known. */
      readonly threshold: number | undefined;
    }
  | {
      readonly verdict: "correct";
      /** K, the share of the estimate that is taken: the rest is more likely scatter. */
      readonly share: number;
      /** mm, added to the offset: -K · estimate. */
      readonly change: number;
      /** Standard uncertainty of the setup's error afterwards, mm. */
      readonly left: number;
      readonly threshold: number;
    };

/** What parts say of one part of the setup's error, in mm (or radian). */
export interface ShownError {
  /** Made less wanted, the mean of the parts. */
  readonly estimate: number;
  /** Of that mean; undefined where it rests on one part and no scatter is known. */
  readonly standardUncertainty: number | undefined;
}

/**
 * The correction that is expected to leave least: new O = old O - K · estimate with K = prior² / (prior² + u²), which is Bayes' theorem for
 * normal errors. With no prior knowledge it is Grubbs' rule (F. E. Grubbs 1954): all of the mean. An estimate below `factor` · u says nothing, and an adjustment by it only adds scatter (the
 * variance doubles for one who adjusts by each part: W. E. Deming's funnel).
 *
 * @param prior standard uncertainty of the setup before any part was made, mm; `Infinity` where nothing is known
 * @param factor 2 unless told otherwise (common practice, no source); Student's where u rests on few parts
 */
export function proposeCorrection({ estimate, standardUncertainty }: ShownError, prior: number, factor = 2): Correction {
  if (!(prior >= 0)) throw new RangeError(`prior: expected 0 or more, got ${prior}`);
  if (standardUncertainty === undefined) return { verdict: "leave alone", reason: "how parts scatter is not known", threshold: undefined };
  if (!(standardUncertainty >= 0)) throw new RangeError(`standardUncertainty: expected 0 or more, got ${standardUncertainty}`);
  const threshold = factor * standardUncertainty;
  if (!(Math.abs(estimate) > threshold)) return { verdict: "leave alone", reason: "within scatter", threshold };
  const { share, left } = errorLeft(standardUncertainty, prior);
  return { verdict: "correct", share, change: -share * estimate, left, threshold };
}

/**
 * What is known of an error of the setup by its prior and by a mean of parts together: the share K of the mean that is believed, and the standard uncertainty
 * that is left, 1/√(1/prior² + 1/u²) = √K · u. With no prior knowledge that is u itself (F. E. Grubbs 1954).
 */
export function errorLeft(standardUncertainty: number, prior: number): { readonly share: number; readonly left: number } {
  const share = prior === Number.POSITIVE_INFINITY || standardUncertainty === 0 ? 1 : prior ** 2 / (prior ** 2 + standardUncertainty ** 2);
  return { share, left: Math.sqrt(share) * standardUncertainty };
}
