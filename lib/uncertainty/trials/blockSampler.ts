import { type BlockKernels, plainKernels } from "../kernels/blockKernels.ts";
import { quantileOf } from "../quantileOf.ts";
import type { Source } from "../source.ts";
import { type SourceDistribution, scaleOf, withScale } from "../sourceDistribution.ts";
import { chiSquareQuantile } from "../special/chiSquare.ts";
import { normalQuantile } from "../special/normalQuantile.ts";
import { blockSize, blockStarts, columnStride, wordLanes } from "./blockWords.ts";
import { evenValues, QuantileTable, type WordValues } from "./quantileTable.ts";

/** Where random words come from: the draws of one name in one block of trials. */
export type WordSource = (name: string, block: number, words: Uint32Array) => void;

/**
 * Values of sources, block of trials by block, each from its own distribution about its own estimate. Sources whose scatter rests on one
 * estimate share the error of that estimate, as in `Draws`.
 */
export class BlockSampler {
  readonly columns: readonly Float64Array[];
  private readonly sources: readonly SampledSource[];
  private readonly kernels: BlockKernels;
  private readonly wordsOf: WordSource;
  private readonly words: Uint32Array;
  private readonly widenings: ReadonlyMap<string, Widening>;

  /** @param wordsOf pseudo-random words for a seed unless given */
  constructor(sources: readonly Source[], seed: number, { wordsOf, kernels = plainKernels }: SamplerOptions = {}) {
    if (!(Number.isInteger(seed) && seed >= 0 && seed <= 0xffffffff))
      throw new RangeError(`seed: expected an integer from 0 to 4294967295, got ${seed}`);
    this.kernels = kernels;
    const starts = kernels.words(startLength);
    this.wordsOf =
      wordsOf ??
      ((name, block, words) => {
        blockStarts(seed, name, block, starts);
        kernels.fillWords(starts, words);
      });
    this.words = kernels.words(blockSize);
    this.sources = sources.map(sampledSource);
    const room = kernels.numbers(sources.length * columnStride);
    this.columns = sources.map(({ estimate }, k) => room.subarray(k * columnStride, k * columnStride + blockSize).fill(estimate));
    const estimates = [...new Set(this.sources.flatMap(({ estimate }) => estimate?.name ?? []))];
    this.widenings = new Map(estimates.map((name) => [name, { column: kernels.numbers(blockSize), block: undefined }]));
  }

  /** How many numbers of the kernels' memory a sampler of these sources takes, its words among them. */
  static roomFor(sources: readonly Source[]): number {
    const estimates = new Set(sources.flatMap((source) => estimateOf(source)?.name ?? []));
    return (sources.length + estimates.size + 1) * columnStride;
  }

  /** Fills the columns with the values of a block; they are written over by the next call. */
  fill(block: number): readonly Float64Array[] {
    for (let k = 0; k < this.sources.length; k++) {
      const { source, scale, table, estimate } = this.sources[k] as SampledSource;
      if (scale === 0) continue;
      const column = this.columns[k] as Float64Array;
      if (estimate === undefined) this.draw(source.id, block, table, column, scale, source.estimate);
      else {
        this.draw(source.id, block, table, column, scale, 0);
        widen(column, this.widening(estimate, block), source.estimate);
      }
    }
    return this.columns;
  }

  private draw(name: string, block: number, table: WordValues, into: Float64Array, scale: number, shift: number): void {
    this.wordsOf(name, block, this.words);
    this.kernels.fillValues(table, this.words, into, scale, shift);
  }

  private widening({ name, table }: SharedEstimate, block: number): Float64Array {
    const widening = this.widenings.get(name) as Widening;
    if (widening.block !== block) {
      this.draw(`estimate ${name}`, block, table(), widening.column, 1, 0);
      widening.block = block;
    }
    return widening.column;
  }
}

export interface SamplerOptions {
  /** Pseudo-random words for the seed unless given. */
  readonly wordsOf?: WordSource;
  /** The plain ones unless given. */
  readonly kernels?: BlockKernels;
}

/** The states of the generators. */
const startLength = 4 * wordLanes;

/** What the error of one estimate of scatter does to all that rest on it, in the block that it was drawn for. */
interface Widening {
  readonly column: Float64Array;
  block: number | undefined;
}

interface SampledSource {
  readonly source: Source;
  readonly scale: number;
  readonly table: WordValues;
  /** Of the standard deviation, where others rest on the same. */
  readonly estimate: SharedEstimate | undefined;
}

interface SharedEstimate {
  readonly name: string;
  /** s/σ turned over, √(ν/χ²). */
  readonly table: () => WordValues;
}

function sampledSource(source: Source): SampledSource {
  const scale = scaleOf(source.distribution);
  const estimate = estimateOf(source);
  return { source, scale, table: estimate === undefined ? tableOf(source.distribution) : normalTable(), estimate };
}

function estimateOf({ distribution, varianceEstimate }: Source): SharedEstimate | undefined {
  if (varianceEstimate === undefined || distribution.shape !== "scaledT" || !Number.isFinite(distribution.degreesOfFreedom))
    return undefined;
  const { degreesOfFreedom } = distribution;
  const table = () =>
    tableFor(`widening ${degreesOfFreedom}`, (chance) => Math.sqrt(degreesOfFreedom / chiSquareQuantile(chance, degreesOfFreedom)), false);
  return { name: `${degreesOfFreedom} ${varianceEstimate}`, table };
}

function tableOf(distribution: SourceDistribution): WordValues {
  if (distribution.shape === "rectangular") return evenValues;
  const unit = withScale(distribution, 1);
  return unit.shape === "normal"
    ? normalTable()
    : tableFor(JSON.stringify(unit), (chance) => quantileOf(unit, chance), unit.shape !== "exponential");
}

function normalTable(): QuantileTable {
  return tableFor("normal", normalQuantile, true);
}

/** Tables take some milliseconds to make, and shapes are few. */
const tables = new Map<string, QuantileTable>();
const mostTables = 200;

function tableFor(key: string, valueAt: (chance: number) => number, isOdd: boolean): QuantileTable {
  const known = tables.get(key);
  if (known !== undefined) return known;
  const made = new QuantileTable(valueAt, isOdd);
  if (tables.size >= mostTables) tables.clear();
  tables.set(key, made);
  return made;
}

function widen(column: Float64Array, by: Float64Array, shift: number): void {
  for (let i = 0; i < column.length; i++) column[i] = shift + (column[i] as number) * (by[i] as number);
}
