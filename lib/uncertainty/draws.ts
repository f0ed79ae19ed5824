import { wordsOfName } from "./internals/wordsOfName.ts";
import { philox } from "./philox.ts";
import { quantileOf } from "./quantileOf.ts";
import type { Source } from "./source.ts";
import { type SourceDistribution, withScale } from "./sourceDistribution.ts";
import { chiSquareQuantile } from "./special/chiSquare.ts";
import { normalQuantile } from "./special/normalQuantile.ts";

/**
 * Draws of sources, reproducible by (seed, source id, trial): the same trial of
 * the same source is the same number in every study, on any machine, however
 * trials are split. Columns are kept and handed out again as long as neither
 * seed nor shape changes, so that an edited reading costs no new draws.
 */
export class Draws {
  readonly seed: number;
  readonly trials: number;
  private readonly columns = new Map<string, Float64Array>();
  /** The same by source: many results of one computation ask for the same few. */
  private readonly bySource = new WeakMap<Source, Float64Array>();

  private readonly mostNumbers: number;

  /** @param seed an unsigned 32-bit integer; @param trials at least 1; @param mostNumbers that are kept, a quarter of a gigabyte when left out */
  constructor(seed: number, trials: number, mostNumbers = 32_000_000) {
    if (!(Number.isInteger(seed) && seed >= 0 && seed <= 0xffffffff))
      throw new RangeError(`seed: expected an integer from 0 to 4294967295, got ${seed}`);
    if (!(Number.isInteger(trials) && trials >= 1)) throw new RangeError(`trials: expected an integer of at least 1, got ${trials}`);
    this.seed = seed;
    this.trials = trials;
    this.mostNumbers = mostNumbers;
  }

  /** Deviations of the source from its estimate for a distribution of scale 1, trial by trial; multiply by `scaleOf`. */
  unitColumn(source: Source): Float64Array {
    let column = this.bySource.get(source);
    if (column === undefined) {
      column = this.columnOf(source);
      this.bySource.set(source, column);
    }
    return column;
  }

  private columnOf({ id, distribution, varianceEstimate }: Source): Float64Array {
    if (varianceEstimate !== undefined && distribution.shape === "scaledT" && Number.isFinite(distribution.degreesOfFreedom))
      return this.studentColumn(id, distribution.degreesOfFreedom, varianceEstimate);
    const unit = withScale(distribution, 1);
    return this.column(`${distribution.shape} ${shapeParameter(distribution)} ${id}`, id, (probability) => quantileOf(unit, probability));
  }

  /** A normal deviation over the common error of the estimate, s/σ = √(χ²/ν): what rests on one estimate is too wide in the same trials. */
  private studentColumn(id: string, degreesOfFreedom: number, estimate: string): Float64Array {
    return this.kept(`shared t ${degreesOfFreedom} ${estimate} ${id}`, () => {
      const normal = this.column(`normal 0 ${id}`, id, normalQuantile);
      const widening = this.column(`widening ${degreesOfFreedom} ${estimate}`, `estimate ${estimate}`, (probability) =>
        Math.sqrt(degreesOfFreedom / chiSquareQuantile(probability, degreesOfFreedom)),
      );
      return normal.map((deviation, trial) => deviation * (widening[trial] as number));
    });
  }

  private column(key: string, id: string, valueAt: (probability: number) => number): Float64Array {
    return this.kept(key, () => Float64Array.from(uniformDraws(this.seed, id, this.trials), valueAt));
  }

  private kept(key: string, make: () => Float64Array): Float64Array {
    let column = this.columns.get(key);
    if (column === undefined) {
      column = make();
      if (this.columns.size >= Math.min(mostColumns, this.mostNumbers / this.trials)) this.columns.clear();
      this.columns.set(key, column);
    }
    return column;
  }
}

/** Names come and go while a person types, and from one of many documents to the next: what is kept of them has an end. */
const mostColumns = 1000;

/** What a shape needs besides its scale. */
function shapeParameter(distribution: SourceDistribution): number {
  return distribution.shape === "trapezoidal" || distribution.shape === "curvilinearTrapezoidal"
    ? distribution.topRatio
    : distribution.shape === "scaledT"
      ? distribution.degreesOfFreedom
      : 0;
}

/** Numbers in (0, 1), 53 bits each: two Philox words per trial. */
function uniformDraws(seed: number, id: string, trials: number): Float64Array {
  const [low, high] = wordsOfName(id);
  const words = new Uint32Array(4);
  const draws = new Float64Array(trials);
  for (let trial = 0; trial < trials; trial++) {
    if (trial % 2 === 0) philox([trial / 2, 0, low, 0], [seed, high], words);
    const a = words[(trial % 2) * 2] as number;
    const b = words[(trial % 2) * 2 + 1] as number;
    // The middle of one of 2^53 equal cells: never 0, never 1.
    draws[trial] = ((a >>> 5) * 0x4000000 + (b >>> 6) + 0.5) / 0x20000000000000;
  }
  return draws;
}
