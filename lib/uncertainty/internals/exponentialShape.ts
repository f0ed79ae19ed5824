import type { Shape } from "./shape.ts";

/** E - 1 for an exponential E of mean 1: φ(x) = e^(-ix)/(1 - ix) (JCGM 101:2008, 6.4.10, for the distribution). */
export const exponentialShape: Shape = {
  distribution: { shape: "exponential", mean: 1 },
  variance: 1,
  excess: 6,
  lower: 1,
  upper: Number.POSITIVE_INFINITY,
  modulus: envelope,
  angle: (x) => Math.atan(x) - x,
  envelope,
  logMoment: (t) => (t < 1 ? -t - Math.log1p(-t) : Number.POSITIVE_INFINITY),
};

function envelope(x: number): number {
  return 1 / Math.sqrt(1 + x * x);
}
