import { chiSquareUpperTail } from "./special/chiSquare.ts";
import { gaussLegendre } from "./special/gaussLegendre.ts";
import { normalDensity, normalUpperTail } from "./special/normalCumulative.ts";
import { normalQuantile } from "./special/normalQuantile.ts";
import { solveLogarithmic } from "./special/solveLogarithmic.ts";

/** What a statistical tolerance interval is to hold. */
export interface ToleranceRequest {
  /** Share of all that is made, above 0.5 and below 1. */
  readonly content: number;
  /** How sure one wants to be that the share is held, from 0.5 to below 1. */
  readonly confidence: number;
  /** `both`: mean ± k s. `one`: below mean + k s, or above mean − k s. */
  readonly sides: "one" | "both";
}

/**
 * The factor k by which mean ± k s (or one side of it) of some normal values holds a share of all values to come with a given confidence
 * (ISO 16269-6). It is larger than a coverage factor, since the mean and s of a few values are themselves in doubt.
 *
 * Exact, by quadrature over where the mean may lie: k = smallest with E[P(s ≥ r(z)/k)] = confidence, z normal with 1/n, where r(z) is the
 * half-width that holds the content about z. Relative error about 1e-10.
 *
 * @param count n, how many values the mean and s come from, at least 2
 * @throws RangeError for a count or request out of range
 */
export function toleranceFactor(count: number, { content, confidence, sides }: ToleranceRequest): number {
  if (!(Number.isInteger(count) && count >= 2)) throw new RangeError(`count: expected a whole number of at least 2, got ${count}`);
  if (!(content > 0.5 && content < 1)) throw new RangeError(`content: expected above 0.5 and below 1, got ${content}`);
  if (!(confidence >= 0.5 && confidence < 1)) throw new RangeError(`confidence: expected 0.5 to below 1, got ${confidence}`);
  const places = sides === "one" ? oneSided(count, content) : twoSided(count, content);
  // Twice as far until it is enough, then halves of what is left: the confidence rises with the factor.
  let upper = 1;
  while (confidenceOf(upper, count, places) < confidence) upper *= 2;
  let lower = 0;
  while (upper - lower > 1e-12 * upper) {
    const middle = (lower + upper) / 2;
    if (confidenceOf(middle, count, places) < confidence) lower = middle;
    else upper = middle;
  }
  return (lower + upper) / 2;
}

/** Where the mean may lie, in standard deviations: how likely, and how far the interval must reach from there. */
interface Places {
  readonly weights: readonly number[];
  readonly reaches: readonly number[];
  /** Chance that the mean alone lies far enough. */
  readonly rest: number;
}

function confidenceOf(factor: number, count: number, { weights, reaches, rest }: Places): number {
  const degreesOfFreedom = count - 1;
  let chance = rest;
  for (let i = 0; i < weights.length; i++) {
    const reach = (reaches[i] as number) / factor;
    chance += (weights[i] as number) * chiSquareUpperTail(degreesOfFreedom * reach * reach, degreesOfFreedom);
  }
  return chance;
}

function oneSided(count: number, content: number): Places {
  const needed = normalQuantile(content);
  const end = Math.min(needed, farthest / Math.sqrt(count));
  const { nodes, weights } = normalNodes(count, -farthest / Math.sqrt(count), end);
  return { weights, reaches: nodes.map((node) => needed - node), rest: normalUpperTail(end * Math.sqrt(count)) };
}

function twoSided(count: number, content: number): Places {
  const { nodes, weights } = normalNodes(count, 0, farthest / Math.sqrt(count));
  return { weights: weights.map((weight) => 2 * weight), reaches: nodes.map((node) => reachHolding(content, node)), rest: 0 };
}

/** Half-width about `centre` that holds the content of a standard normal. */
function reachHolding(content: number, centre: number): number {
  const start = centre - normalQuantile((1 - content) / 2);
  return solveLogarithmic(1 - content, start, (reach) => [
    normalUpperTail(reach + centre) + normalUpperTail(reach - centre),
    -reach * (normalDensity(reach + centre) + normalDensity(reach - centre)),
  ]);
}

/** In standard deviations of the mean: beyond lies 1e-19. */
const farthest = 9;
const panels = 12;
const pointsOfPanel = 20;

/** Nodes from `from` to `to`, with weights of a normal of variance 1/n. */
function normalNodes(count: number, from: number, to: number): { nodes: number[]; weights: number[] } {
  const rule = gaussLegendre(pointsOfPanel);
  const half = (to - from) / (2 * panels);
  const nodes: number[] = [];
  const weights: number[] = [];
  for (let panel = 0; panel < panels; panel++) {
    const middle = from + (2 * panel + 1) * half;
    rule.nodes.forEach((node, i) => {
      const place = middle + half * node;
      nodes.push(place);
      weights.push(half * (rule.weights[i] as number) * Math.sqrt(count) * normalDensity(place * Math.sqrt(count)));
    });
  }
  return { nodes, weights };
}
