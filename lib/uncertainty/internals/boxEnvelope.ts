/** A bound of |sin x / x| that never rises: e^(-x²/6) (from the product form of the sine), then the height 0.2172 of the second lobe, then 1/x. */
export function boxEnvelope(x: number): number {
  return Math.max(x < 4 ? Math.exp((-x * x) / 6) : 0, Math.min(0.2173, 1 / x));
}
