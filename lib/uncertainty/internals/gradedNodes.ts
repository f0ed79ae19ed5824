/**
 * Nodes s = δ ln(1 + e^(u/δ)) for equal steps of u, with the weights ds: geometric towards zero, where a t with few degrees of freedom makes
 * a characteristic function behave like |s|^ν, and equally spaced away from it. The trapezoid rule in u converges geometrically, because
 * everything is analytic in a strip about the real axis of u.
 *
 * @param range largest value z for which an integral with sin(sz), cos(sz) or a Bessel function of sz is wanted
 * @param smallestPhase s·range of the first node
 */
export function gradedNodes(range: number, count: number, smallestPhase: number): { nodes: Float64Array; weights: Float64Array } {
  const step = gradedStep(range);
  const delta = steepness * step;
  const start = delta * Math.log(smallestPhase / (range * delta));
  const nodes = new Float64Array(count);
  const weights = new Float64Array(count);
  for (let k = 0; k < count; k += 1) {
    const u = start + k * step;
    const power = Math.exp(-Math.abs(u) / delta);
    nodes[k] = Math.max(0, u) + delta * Math.log1p(power);
    weights[k] = step * (u < 0 ? power / (1 + power) : 1 / (1 + power));
  }
  return { nodes, weights };
}

/** How many nodes reach up to `cut`. */
export function gradedCount(range: number, cut: number, smallestPhase: number): number {
  return Math.ceil(cut / gradedStep(range)) + geometricPart(smallestPhase);
}

/** How far `count` nodes reach. */
export function gradedCut(range: number, count: number, smallestPhase: number): number {
  return Math.max(1, count - geometricPart(smallestPhase)) * gradedStep(range);
}

/** The range at which `count` nodes reach up to `cut`. */
export function gradedRange(cut: number, count: number, smallestPhase: number): number {
  return (Math.max(1, count - geometricPart(smallestPhase)) * largestPhase) / cut;
}

/** Spacing of the nodes away from zero. */
function gradedStep(range: number): number {
  return largestPhase / range;
}

function geometricPart(smallestPhase: number): number {
  return Math.ceil(steepness * Math.log((steepness * largestPhase) / smallestPhase));
}

/** δ over the step: the strip of analyticity is πδ wide. */
const steepness = 3;
/** Largest step times range: leaves (2π - 2.9)·0.9π·3 = 29 natural logarithms between a chance and its discretisation error. */
const largestPhase = 2.9;
