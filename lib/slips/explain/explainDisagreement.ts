import { mm } from "../../base/quantity.ts";
import type { AxisDirection } from "../../base/vector.ts";
import { opposite } from "../../base/vector.ts";
import type { PartLocation } from "../../datum/locatePart.ts";
import type { Setup } from "../../datum/setup.ts";
import { checkContact, foreseeChecks } from "../../decision/foreseeChecks.ts";
import { locateSetup } from "../../fixture/locateSetup.ts";
import type { CheckTouch } from "../../readings/checks.ts";
import { type SlipKind, usualSlipChances } from "../../readings/slipKinds.ts";
import { type Budget, budgetsOf } from "../../uncertainty/budget.ts";
import { covarianceMatrix } from "../../uncertainty/covariance.ts";
import { effectiveDegreesOfFreedom } from "../../uncertainty/effectiveDegreesOfFreedom.ts";
import { standardUncertaintyOf } from "../../uncertainty/sourceDistribution.ts";
import { chiSquareUpperTail } from "../../uncertainty/special/chiSquare.ts";
import { fisherUpperTail } from "../../uncertainty/special/fisherF.ts";
import { type Estimate, estimateOf } from "../estimate.ts";
import { type Discrepancy, discrepanciesOf } from "./discrepancies.ts";
import { anything, type SlipCandidate, slipCandidates } from "./slipCandidates.ts";
import { sharesAsItLies, type TakenReading, takenReadings, withShifts } from "./takenReadings.ts";
import { type Whitening, whiteningOf } from "./whitening.ts";

/** Pieces of evidence that do not fit each other, and what may have happened. */
export interface Disagreement {
  /** That doubt alone makes the evidence disagree at least as much, from 0 to 1. */
  readonly chance: number;
  readonly discrepancies: readonly (Pick<Discrepancy, "name" | "at"> & { readonly estimate: Estimate })[];
  /** The likeliest first. Nothing is corrected by any of them. */
  readonly explanations: readonly Explanation[];
  /** The one touch that best tells the likeliest apart from the next that it can be told apart from; undefined where no touch does. */
  readonly deciding: DecidingTouch | undefined;
}

export interface Explanation {
  /** What would have happened; none for doubt alone. */
  readonly slips: readonly Pick<SlipCandidate, "kind" | "at" | "words">[];
  /** Share among all explanations that were tried, from 0 to 1. */
  readonly share: number;
  /** What evidence would still disagree: chance of at least that much by doubt alone; for an error of unknown size, with the size that fits best. */
  readonly leftChance: number;
  /** What the display would show at the deciding touch, machine coordinate, mm; undefined without one, or for an error of unknown size at that very place. */
  readonly reading: number | undefined;
}

export interface DecidingTouch {
  readonly element: string;
  readonly tool: string;
  readonly travelling: AxisDirection;
  /** Standard uncertainty of its reading, mm. */
  readonly standardUncertainty: number;
  /** Indices of the two explanations that it tells apart. */
  readonly between: readonly [number, number];
  /** The difference of their readings in standard uncertainties. */
  readonly apart: number;
}

/** A piece of evidence that none of the readings is, such as an earlier zero. */
export interface EvidenceBeside extends Discrepancy {
  /** What would have happened if it is the one that is wrong, as a clause. */
  readonly otherwise: string;
}

export interface ExplainOptions {
  /** Pieces of evidence besides those in the setup; as many for each location. */
  readonly besides?: (location: PartLocation) => readonly EvidenceBeside[];
  /** Offset of the strategy in use as typed, by axis, mm: what a work coordinate lacks. */
  readonly zero?: readonly (number | undefined)[];
}

/** Evidence disagrees where its chance by doubt alone is below this. */
const disagreementChance = 0.003;
/** Highest chance that a setup without any slip is called in disagreement: a little more, because doubts from few repeats are allowed for only about. */
export const disagreementRate = 0.005;
/** Explanations that are worked out exactly and told. */
const mostTold = 6;
const mostExact = 12;
/** Shares below this are not told, but for the second. */
const leastTold = 5e-4;
/** Effects whose square is smaller than this, in standard uncertainties, are rounding. */
const unseen = 1e-6;
/** What turns the part by less than this, radians, does what it does in a straight line. */
const straight = 0.01;
/** Readings this many standard uncertainties apart tell two explanations apart. */
const tellsApart = 3;

/**
 * Ranks what may have happened where the evidence disagrees. Each candidate, or pair of candidates, is undone in the inputs; the discrepancies are worked
 * out anew, and their density under the budget (normal, with the covariance from the common sources) is weighed with the chance of the slips that it needs,
 * so that the fewest changes win unless the numbers speak against them (Bayes' theorem). Doubt alone is one of the explanations, and so is an error of
 * unknown size at each reading, without which one of the listed slips would always be to blame.
 *
 * All are first told by the exact effect of one shifted reading after the other, which is linear but for a touch that turns the part: what shifts such a one by
 * much is worked out as a whole at once. The best are then worked out again as a whole.
 *
 * @returns undefined where the evidence agrees, or where nothing is known twice
 */
export function explainDisagreement(
  location: PartLocation,
  { besides = () => [], zero = [] }: ExplainOptions = {},
): Disagreement | undefined {
  const evidence = (at: PartLocation) => [...discrepanciesOf(at), ...besides(at)];
  const found = evidence(location);
  if (found.length === 0) return undefined;
  const budgets = budgetsOf(found.map(({ value }) => value));
  const whitening = whiteningOf(covarianceMatrix(budgets));
  const start = whitening.apply(budgets.map(({ value }) => value));
  const freedom = freedomOf(budgets, whitening);
  const chance = chanceLeft(start, whitening, freedom);
  if (!(chance < disagreementChance)) return undefined;
  const taken = takenReadings(location);
  const locatedAfter = (shifts: ReadonlyMap<number, number>) => locateSetup(withShifts(location.setup, taken, shifts));
  const valuesAt = (located: PartLocation): Float64Array | undefined => {
    const after = evidence(located);
    return after.length === found.length ? whitening.apply(after.map(({ value }) => value.value)) : undefined;
  };
  const valuesAfter = (shifts: ReadonlyMap<number, number>) => valuesAt(locatedAfter(shifts));
  const shifted = taken.map((_, i) => locatedAfter(new Map([[i, 1]])));
  const effects = shifted.map((located) => difference(valuesAt(located), start));
  const turns = shifted.map((located) => turnOf(located) - turnOf(location));
  const exactEffect = ({ shifts, spread }: SlipCandidate) =>
    spread === undefined && [...shifts].some(([i, shift]) => Math.abs(shift * (turns[i] as number)) > straight)
      ? difference(valuesAfter(shifts), start)
      : undefined;
  const candidates = [
    ...candidatesOf(location.setup, taken, zero, effects, exactEffect),
    ...besideCandidates(besides(location), found.length, whitening, location.setup),
  ];
  const hypotheses = rank(candidates, start);
  const exact = hypotheses.slice(0, mostExact).flatMap((hypothesis) => {
    if (hypothesis.spread !== undefined || hypothesis.slips.length === 0) return [hypothesis];
    const left = valuesAfter(hypothesis.shifts);
    return left === undefined ? [] : [{ ...hypothesis, left, logDensity: -squareOf(left) / 2 }];
  });
  const judged = sortByWeight([...exact, ...hypotheses.slice(mostExact)]);
  const best = Math.max(...judged.map(weightOf));
  const total = judged.reduce((sum, each) => sum + Math.exp(weightOf(each) - best), 0);
  const shareOf = (each: Hypothesis) => Math.exp(weightOf(each) - best) / total;
  const told = judged.slice(0, mostTold).filter((each, i) => i < 2 || shareOf(each) >= leastTold);
  const deciding = decidingTouch(told, location, taken);
  return {
    chance,
    discrepancies: found.map(({ name, at }, i) => ({ name, at, estimate: estimateOf(budgets[i] as (typeof budgets)[number]) })),
    explanations: told.map((each, i) => ({
      slips: each.slips.map(({ kind, at, words }) => ({ kind, at, words })),
      share: shareOf(each),
      leftChance: chanceLeft(each.left, whitening, freedom),
      reading: deciding?.readings[i],
    })),
    deciding: deciding?.touch,
  };
}

/** A candidate with what undoing it does to the whitened discrepancies. */
interface Candidate extends SlipCandidate {
  readonly logChance: number;
  readonly effect: Float64Array;
}

interface Hypothesis {
  readonly slips: readonly SlipCandidate[];
  readonly shifts: ReadonlyMap<number, number>;
  readonly spread: number | undefined;
  readonly logChance: number;
  readonly logDensity: number;
  /** Whitened discrepancies that are left. */
  readonly left: Float64Array;
}

function candidatesOf(
  setup: Setup,
  taken: readonly TakenReading[],
  zero: readonly (number | undefined)[],
  effects: readonly (Float64Array | undefined)[],
  exactEffect: (candidate: SlipCandidate) => Float64Array | undefined,
): Candidate[] {
  const all = slipCandidates(setup, taken, zero);
  // The chance of a slip at one place is shared by the ways in which it can happen there.
  const ways = new Map<string, number>();
  for (const { kind, at } of all) ways.set(`${kind} ${at}`, (ways.get(`${kind} ${at}`) ?? 0) + 1);
  return all.flatMap((candidate) => {
    const parts = [...candidate.shifts].map(([i, shift]) => ({ of: effects[i], shift }));
    if (parts.some(({ of }) => of === undefined)) return [];
    const effect =
      exactEffect(candidate) ??
      Float64Array.from(effects.find((each) => each !== undefined) ?? [], (_, k) =>
        parts.reduce((sum, { of, shift }) => sum + shift * ((of as Float64Array)[k] as number), 0),
      );
    // Where no evidence would show it, nothing speaks for it.
    if (!(squareOf(effect) > unseen)) return [];
    const { kind, at } = candidate;
    const chance = (setup.slipChances.get(kind) ?? usualSlipChances[kind]) / (ways.get(`${kind} ${at}`) as number);
    return [{ ...candidate, effect, logChance: Math.log(chance) }];
  });
}

/** Whatever is brought beside the readings may be what is wrong, by an unknown amount; it stands behind all others in the evidence. */
function besideCandidates(besides: readonly EvidenceBeside[], count: number, whitening: Whitening, setup: Setup): Candidate[] {
  const kind = "something else" satisfies SlipKind;
  const chance = setup.slipChances.get(kind) ?? usualSlipChances[kind];
  return besides.map(({ at, otherwise }, k) => {
    const unit = new Float64Array(count);
    unit[count - besides.length + k] = 1;
    return { kind, at, words: otherwise, shifts: new Map(), spread: anything, effect: whitening.apply(unit), logChance: Math.log(chance) };
  });
}

/** Doubt alone, every candidate, and every pair of those of known size at two places, by weight. */
function rank(candidates: readonly Candidate[], start: Float64Array): Hypothesis[] {
  const alone: Hypothesis = {
    slips: [],
    shifts: new Map(),
    spread: undefined,
    logChance: 0,
    logDensity: -squareOf(start) / 2,
    left: start,
  };
  const singles = candidates.map((candidate) => single(candidate, start));
  const known = candidates.filter(({ spread }) => spread === undefined);
  const pairs: Hypothesis[] = [];
  // Pairs cost their number; only those that could be told are kept.
  let least = sortByWeight([alone, ...singles])[mostExact - 1];
  known.forEach((one, i) => {
    for (let j = i + 1; j < known.length; j++) {
      const other = known[j] as Candidate;
      const logChance = one.logChance + other.logChance;
      if (other.at === one.at || (least !== undefined && logChance < weightOf(least) - 1)) continue;
      let square = 0;
      for (let k = 0; k < start.length; k++)
        square += ((start[k] as number) + (one.effect[k] as number) + (other.effect[k] as number)) ** 2;
      if (least !== undefined && logChance - square / 2 < weightOf(least)) continue;
      const left = start.map((value, k) => value + (one.effect[k] as number) + (other.effect[k] as number));
      pairs.push({
        slips: [one, other],
        shifts: addShifts(one.shifts, other.shifts),
        spread: undefined,
        logChance,
        logDensity: -square / 2,
        left,
      });
      if (pairs.length % 64 === 0) least = sortByWeight([alone, ...singles, ...pairs])[mostExact - 1];
    }
  });
  // A second slip that the first does not need explains nothing.
  const alreadyBy = new Map(singles.map((each) => [each.slips[0], weightOf(each)]));
  const needed = pairs.filter((pair) => pair.slips.every((slip) => (alreadyBy.get(slip) as number) < weightOf(pair)));
  return sortByWeight([alone, ...singles, ...needed]);
}

function single(candidate: Candidate, start: Float64Array): Hypothesis {
  const { effect, spread, shifts, logChance } = candidate;
  const common = { slips: [candidate], shifts, spread, logChance };
  if (spread === undefined) {
    const left = start.map((value, k) => value + (effect[k] as number));
    return { ...common, logDensity: -squareOf(left) / 2, left };
  }
  // An error δ with standard deviation σ along w: the covariance is 1 + σ²wwᵀ (Sherman and Morrison; the determinant by the matrix determinant lemma).
  const size = squareOf(effect);
  const along = start.reduce((sum, value, k) => sum + value * (effect[k] as number), 0);
  const grown = 1 + spread * spread * size;
  const logDensity = -(squareOf(start) - (spread * spread * along * along) / grown) / 2 - Math.log(grown) / 2;
  const fitting = size > 0 ? along / size : 0;
  return { ...common, logDensity, left: start.map((value, k) => value - fitting * (effect[k] as number)) };
}

function weightOf({ logChance, logDensity }: Hypothesis): number {
  return logChance + logDensity;
}

/** The heaviest first; of two alike the one with fewer changes. */
function sortByWeight(hypotheses: readonly Hypothesis[]): Hypothesis[] {
  return [...hypotheses].sort((a, b) => weightOf(b) - weightOf(a) || a.slips.length - b.slips.length);
}

function addShifts(one: ReadonlyMap<number, number>, other: ReadonlyMap<number, number>): ReadonlyMap<number, number> {
  const sum = new Map(one);
  for (const [i, shift] of other) sum.set(i, (sum.get(i) ?? 0) + shift);
  return sum;
}

function turnOf({ thisPart }: PartLocation): number {
  return thisPart.ok ? thisPart.value.rotation.value : 0;
}

function difference(after: Float64Array | undefined, before: Float64Array): Float64Array | undefined {
  return after?.map((value, k) => value - (before[k] as number));
}

function squareOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}

/**
 * Chance of at least this much disagreement by doubt alone: chi-square, or F where doubts rest on few repeats (as in `agreementOf`).
 */
function chanceLeft(left: Float64Array, { rank }: Whitening, freedom: number): number {
  const square = squareOf(left);
  if (rank === 0) return square > 9 ? 0 : 1;
  return Number.isFinite(freedom) ? fisherUpperTail(square / rank, rank, freedom) : chiSquareUpperTail(square, rank);
}

/** Effective degrees of freedom of all discrepancies together (Welch and Satterthwaite), each source by what it does to them in units of their doubt. */
function freedomOf(budgets: readonly Budget[], whitening: Whitening): number {
  const sources = budgets[0]?.sources ?? [];
  return effectiveDegreesOfFreedom(
    sources.map(({ distribution, degreesOfFreedom, varianceEstimate }, k) => {
      const amounts = budgets.map(({ sensitivities }) => (sensitivities[k] as number) * standardUncertaintyOf(distribution));
      return { contribution: Math.sqrt(squareOf(whitening.apply(amounts))), degreesOfFreedom, varianceEstimate };
    }),
  );
}

/**
 * Of all faces with all tools that have touched here, the touch whose predicted readings lie farthest apart, in its own standard uncertainties, between
 * the first explanation and the next that it can be told apart from.
 */
function decidingTouch(
  told: readonly Hypothesis[],
  location: PartLocation,
  taken: readonly TakenReading[],
): { readonly touch: DecidingTouch; readonly readings: readonly (number | undefined)[] } | undefined {
  const [first] = told;
  const offered = newTouches(location.setup);
  if (first === undefined || offered.length === 0) return undefined;
  const doubts = budgetsOfTouches(offered, location);
  const readings = told.map((hypothesis) => readingsUnder(hypothesis, offered, location, taken));
  for (let j = 1; j < told.length; j++) {
    let best: DecidingTouch | undefined;
    let at = -1;
    offered.forEach(({ element, tool, travelling }, t) => {
      const [one, other, standardUncertainty] = [readings[0]?.[t], readings[j]?.[t], doubts[t]];
      if (one === undefined || other === undefined || standardUncertainty === undefined) return;
      const apart = Math.abs(one - other) / Math.max(standardUncertainty, Number.MIN_VALUE);
      if (best !== undefined && apart <= best.apart * (1 + 1e-9)) return;
      best = { element, tool, travelling, standardUncertainty, between: [0, j], apart };
      at = t;
    });
    if (best !== undefined && (best as DecidingTouch).apart > tellsApart)
      return { touch: best, readings: readings.map((each) => each[at]) };
  }
  return undefined;
}

/** A touch of every flat face with every tool that has touched along the same way. */
function newTouches({ part, touches, checks, tools }: Setup): CheckTouch[] {
  const used = new Set([...touches, ...checks].map(({ tool }) => tool));
  return part.elements.flatMap((element) => {
    if (element.kind !== "face" || element.made !== "before" || element.outward === "-Z") return [];
    const travelling = opposite(element.outward);
    const isDown = travelling === "-Z";
    const like = [...touches, ...checks].find((each) => each.element === element.id);
    const place = like?.positions[0];
    return tools
      .filter(({ id, radius, length }) => used.has(id) && (isDown ? length : radius) !== undefined)
      .map(
        ({ id }): CheckTouch => ({
          id: `${element.id} with ${id}`,
          element: element.id,
          tool: id,
          spacer: undefined,
          travelling,
          sweepTotal: [mm(0), mm(0)],
          turnedHalfRound: false,
          positions: [],
          aside: place ?? [undefined, undefined, undefined],
          by: "",
          when: undefined,
        }),
      );
  });
}

function budgetsOfTouches(offered: readonly CheckTouch[], location: PartLocation): (number | undefined)[] {
  const foreseen = foreseeChecks(offered, location);
  const known = budgetsOf(foreseen.flatMap((each) => (each.ok ? [each.value.reading] : [])));
  let next = 0;
  return foreseen.map((each) => (each.ok ? known[next++]?.standardUncertainty : undefined));
}

/** What the display would show if the explanation were true: the part lies where the undone readings put it, and a tool is what it then is. */
function readingsUnder(
  { slips, shifts, spread }: Hypothesis,
  offered: readonly CheckTouch[],
  location: PartLocation,
  taken: readonly TakenReading[],
): (number | undefined)[] {
  const setup = spread === undefined ? withShifts(location.setup, taken, shifts) : without(location.setup, taken, shifts);
  const moved = locateSetup(setup);
  return foreseeChecks(offered, moved).map((each, t) => {
    if (!each.ok) return undefined;
    const touch = offered[t] as CheckTouch;
    const farther = slips.reduce(
      (sum, { reach }) => sum + (reach?.tool === touch.tool ? reach.change * reachShare(reach.entry, touch, moved) : 0),
      0,
    );
    return each.value.reading.value - farther * (touch.travelling[0] === "+" ? 1 : -1);
  });
}

function reachShare(entry: "radius" | "length", touch: CheckTouch, location: PartLocation): number {
  const contact = checkContact(touch, location);
  return (contact.ok && sharesAsItLies(contact.value, location)?.[entry]) || 0;
}

/** A reading that is wrong by an unknown amount tells nothing. */
function without(setup: Setup, taken: readonly TakenReading[], shifts: ReadonlyMap<number, number>): Setup {
  const wrong = new Set([...shifts.keys()].map((i) => taken[i]?.at));
  return { ...setup, touches: setup.touches.filter(({ id }) => !wrong.has(`touches.${id}`)) };
}
