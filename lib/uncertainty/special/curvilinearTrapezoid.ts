/**
 * The curvilinear trapezoid on [-1, 1] with top ratio β: a rectangle whose half-width is equally likely anywhere from β to 1
 * (JCGM 101:2008, 6.4.3.2, in units of its outermost limit). The chance to exceed z >= 0 is the mean of (h - z)₊/(2h) over h in [β, 1].
 */
export function curvilinearTail(z: number, topRatio: number): number {
  if (z >= 1) return 0;
  if (z <= 0) return 0.5;
  if (z <= topRatio) return 0.5 - z / (2 * topHeightInverse(topRatio));
  return Math.max(0, 1 - z + z * Math.log(z)) / (2 * (1 - topRatio));
}

/** Density at z >= 0; `Infinity` at the middle where the top has no width. */
export function curvilinearDensity(z: number, topRatio: number): number {
  if (z > 1) return 0;
  if (z <= topRatio) return 1 / (2 * topHeightInverse(topRatio));
  return -Math.log(z) / (2 * (1 - topRatio));
}

/**
 * The z >= 0 exceeded with chance `tail`, 0 to ½: straight over the top. On the slope w = -ln z solves w - ln(1 + w) = G, by Newton's method down from
 * G + √(2G), which lies above the root (I. Chatzigeorgiou, IEEE Communications Letters 17 (2013) 1505-1508, theorem 1).
 */
export function curvilinearTailQuantile(tail: number, topRatio: number): number {
  if (tail >= 0.5) return 0;
  const straight = (1 - 2 * tail) * topHeightInverse(topRatio);
  if (straight < topRatio) return straight;
  const target = -Math.log1p(-2 * (1 - topRatio) * tail);
  let w = target + Math.sqrt(2 * target);
  for (let step = 0; step < mostSteps; step += 1) {
    const move = ((w - Math.log1p(w) - target) * (1 + w)) / w;
    if (!(move > 1e-16)) break;
    w -= move;
  }
  return Math.exp(-w);
}

const mostSteps = 50;

/** (1 - β)/ln(1/β): one half over the height of the top; 1 for β = 1, 0 for β = 0. */
function topHeightInverse(topRatio: number): number {
  const rest = 1 - topRatio;
  return rest > 0 ? -rest / Math.log1p(-rest) : 1;
}
