import { isScatterOf, isSurfaceOf } from "../contacts/contactSources.ts";
import type { Setup } from "../datum/setup.ts";
import { sourceOfLength, sourceOfRadius } from "../equipment/toolSources.ts";
import { chanceOfAll, type SampledChance } from "../tolerance/chanceOfAll.ts";
import type { Draws } from "../uncertainty/draws.ts";
import type { Source } from "../uncertainty/source.ts";
import { type Judged, type SingleDoubt, scaledStack, singleDoubts } from "./allowedDoubt.ts";

/** Something that a person can do about doubts. */
export interface Move {
  /**
   * `touch again`: one more reading of a touch, or of every touch; `calibrate`: a tool's radius and length known twice as well; `skim`: no
   * roughness and no lean of a face; `know better`: all other doubts known twice as well.
   */
  readonly kind: "touch again" | "calibrate" | "skim" | "know better";
  /** Touches, the tool, the element, or the label of the doubt. */
  readonly of: readonly string[];
  /** How many times as large each source is afterwards. */
  readonly factorOf: (source: Source) => number;
}

/** A move with what it gains. */
export interface JudgedMove extends Pick<Move, "kind" | "of"> {
  /** Chance that all characteristics are met, afterwards. */
  readonly chanceOfAll: SampledChance;
  /** More than now. */
  readonly gain: number;
}

export interface HelpfulMoves {
  readonly now: SampledChance;
  /** Those that gain anything, the best first. */
  readonly moves: readonly JudgedMove[];
  /** Chance that all are met if every doubt of tools, readings and machine were gone: what no better measuring can pass. */
  readonly withoutMeasuring: SampledChance;
}

/** Single chances are good to a few parts in a million (see radialChance): less is no gain. */
const numerical = 1e-5;
/** Knowing twice as well: an ordinary success of an ordinary effort. Common practice, no source. */
const better = 0.5;

/**
 * What would help most: every usual move is tried on the linearised stacks, with the same draws before and after.
 *
 * One more reading shrinks the scatter of a mean of n by √(n/(n+1)); that the scatter itself would also be better known is not counted.
 *
 * @param judged every characteristic, under one strategy in one view
 * @param touches those that the view rests on
 */
export function helpfulMoves(judged: readonly Judged[], setup: Setup, touches: readonly string[], draws: Draws): HelpfulMoves {
  const after = (factorOf: Move["factorOf"]) =>
    chanceOfAll(
      judged.map((each) => scaledStack(each, factorOf)),
      draws,
    );
  const now = after(() => 1);
  const moves = movesOf(setup, touches, singleDoubts(judged))
    .map(({ kind, of, factorOf }): JudgedMove => {
      const chance = after(factorOf);
      return { kind, of, chanceOfAll: chance, gain: chance.chance - now.chance };
    })
    .filter(({ gain }) => gain > numerical)
    .sort((a, b) => b.gain - a.gain);
  return { now, moves, withoutMeasuring: after(({ family }) => (family === "contact tool" || family === "machine" ? 0 : 1)) };
}

/** The usual moves that change any of the doubts. */
function movesOf(setup: Setup, touches: readonly string[], doubts: readonly SingleDoubt[]): Move[] {
  const special = [...repeats(setup, touches), ...calibrations(setup), ...skims(setup)];
  const isChanged = (sources: readonly Source[], { factorOf }: Move) => sources.some((source) => factorOf(source) !== 1);
  const changes = (move: Move) => doubts.some(({ sources }) => isChanged(sources, move));
  const others = doubts
    .filter(({ sources }) => !special.some((move) => isChanged(sources, move)))
    .map(
      ({ label, sources }): Move => ({ kind: "know better", of: [label], factorOf: (source) => (sources.includes(source) ? better : 1) }),
    );
  return [...special.filter(changes), ...others];
}

function repeats({ touches: all }: Setup, resting: readonly string[]): Move[] {
  const touches = all.filter(({ id }) => resting.includes(id));
  const oneMore = (of: typeof touches): Move => ({
    kind: "touch again",
    of: of.map(({ id }) => id),
    factorOf: (source) => {
      const touch = of.find(({ id }) => isScatterOf(source, id));
      return touch === undefined ? 1 : Math.sqrt(touch.positions.length / (touch.positions.length + 1));
    },
  });
  return [...touches.map((touch) => oneMore([touch])), ...(touches.length > 1 ? [oneMore(touches)] : [])];
}

function calibrations({ tools }: Setup): Move[] {
  return tools.map((tool): Move => {
    const known = [sourceOfRadius(tool).id, sourceOfLength(tool).id];
    return { kind: "calibrate", of: [tool.id], factorOf: ({ id }) => (known.includes(id) ? better : 1) };
  });
}

function skims({ part }: Setup): Move[] {
  return part.elements.map(({ id }): Move => ({ kind: "skim", of: [id], factorOf: (source) => (isSurfaceOf(source, id) ? 0 : 1) }));
}
