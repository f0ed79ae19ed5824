import { quantileOf } from "../quantileOf.ts";
import type { Source } from "../source.ts";
import { type SourceDistribution, scaleOf, withScale } from "../sourceDistribution.ts";
import { chiSquareQuantile } from "../special/chiSquare.ts";
import { normalQuantile } from "../special/normalQuantile.ts";
import { blockSize, blockWords, columnStride } from "./blockWords.ts";
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
  private readonly wordsOf: WordSource;
  private readonly words = new Uint32Array(blockSize);
  private readonly widenings = new Map<string, Float64Array>();

  /** @param wordsOf pseudo-random words for a seed unless given */
  constructor(sources: readonly Source[], seed: number, wordsOf?: WordSource) {
    if (!(Number.isInteger(seed) && seed >= 0 && seed <= 0xffffffff))
      throw new RangeError(`seed: expected an integer from 0 to 4294967295, got ${seed}`);
    this.wordsOf = wordsOf ?? ((name, block, words) => blockWords(seed, name, block, words));
    this.sources = sources.map(sampledSource);
    const room = new Float64Array(sources.length * columnStride);
    this.columns = sources.map(({ estimate }, k) => room.subarray(k * columnStride, k * columnStride + blockSize).fill(estimate));
  }

  /** Fills the columns with the values of a block; they are written over by the next call. */
  fill(block: number): readonly Float64Array[] {
    this.widenings.clear();
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
    table.fill(this.words, into, scale, shift);
  }

  private widening({ name, table }: SharedEstimate, block: number): Float64Array {
    let column = this.widenings.get(name);
    if (column === undefined) {
      column = new Float64Array(blockSize);
      this.draw(`estimate ${name}`, block, table, column, 1, 0);
      this.widenings.set(name, column);
    }
    return column;
  }
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
  readonly table: WordValues;
}

function sampledSource(source: Source): SampledSource {
  const { distribution, varianceEstimate } = source;
  const scale = scaleOf(distribution);
  if (varianceEstimate === undefined || distribution.shape !== "scaledT" || !Number.isFinite(distribution.degreesOfFreedom))
    return { source, scale, table: tableOf(distribution), estimate: undefined };
  const { degreesOfFreedom } = distribution;
  const table = tableFor(`widening ${degreesOfFreedom}`, (chance) =>
    Math.sqrt(degreesOfFreedom / chiSquareQuantile(chance, degreesOfFreedom)),
  );
  return { source, scale, table: tableFor("normal", normalQuantile), estimate: { name: `${degreesOfFreedom} ${varianceEstimate}`, table } };
}

function tableOf(distribution: SourceDistribution): WordValues {
  if (distribution.shape === "rectangular") return evenValues;
  const unit = withScale(distribution, 1);
  return unit.shape === "normal"
    ? tableFor("normal", normalQuantile)
    : tableFor(JSON.stringify(unit), (chance) => quantileOf(unit, chance));
}

/** Tables take some milliseconds to make, and shapes are few. */
const tables = new Map<string, QuantileTable>();
const mostTables = 200;

function tableFor(key: string, valueAt: (chance: number) => number): QuantileTable {
  const known = tables.get(key);
  if (known !== undefined) return known;
  const made = new QuantileTable(valueAt);
  if (tables.size >= mostTables) tables.clear();
  tables.set(key, made);
  return made;
}

function widen(column: Float64Array, by: Float64Array, shift: number): void {
  for (let i = 0; i < column.length; i++) column[i] = shift + (column[i] as number) * (by[i] as number);
}
