import type { Budget } from "../../lib/uncertainty/budget.ts";

/** An ellipse about the best estimates of X and Y, in their unit. */
export interface ZeroEllipse {
  /** Semi-axes. */
  readonly major: number;
  readonly minor: number;
  /** From X to the major axis, anticlockwise, radians. */
  readonly angle: number;
  /** 0 where one of the two is exact. */
  readonly correlation: number;
}

/**
 * The region that holds X and Y together with the given probability when both
 * are normal: the semi-axes are √(-2·ln(1 - p)) times the roots of the
 * eigenvalues of the covariance (JCGM 102:2011, 6.5 with the chi-square
 * quantile of two degrees of freedom in closed form).
 *
 * The covariance is Σ amountX · amountY over common sources (JCGM 102:2011, 6.2.1.3).
 */
export function zeroEllipse(x: Budget, y: Budget, probability: number): ZeroEllipse {
  if (!(probability > 0 && probability < 1)) throw new RangeError(`probability: expected above 0 and below 1, got ${probability}`);
  const varianceX = x.standardUncertainty ** 2;
  const varianceY = y.standardUncertainty ** 2;
  const amounts = new Map(x.contributions.map(({ source, amount }) => [source.id, amount]));
  const covariance = y.contributions.reduce((sum, { source, amount }) => sum + amount * (amounts.get(source.id) ?? 0), 0);
  const middle = (varianceX + varianceY) / 2;
  const spread = Math.hypot((varianceX - varianceY) / 2, covariance);
  const factor = Math.sqrt(-2 * Math.log(1 - probability));
  const together = x.standardUncertainty * y.standardUncertainty;
  return {
    major: factor * Math.sqrt(middle + spread),
    // Rounding may leave a little below zero when both follow one source.
    minor: factor * Math.sqrt(Math.max(0, middle - spread)),
    angle: spread === 0 ? 0 : Math.atan2(2 * covariance, varianceX - varianceY) / 2,
    correlation: together > 0 ? covariance / together : 0,
  };
}
