import { wordsOfName } from "../internals/wordsOfName.ts";
import { philox } from "../philox.ts";
import type { WordSource } from "./blockSampler.ts";
import { blockStarts, wordLanes, wordsFrom } from "./blockWords.ts";
import { sobolNumbers } from "./sobolNumbers.ts";
import { xoshiroWords } from "./xoshiro.ts";

const bits = 32;
/** Dimensions with direction numbers; names beyond them get pseudo-random words. */
const sobolDimensions = sobolNumbers.length + 1;

/**
 * Words of a scrambled Sobol sequence: points that fill the unit cube more evenly than chance. Each name has a dimension of its own, the first
 * name the first and most even one, so that what matters most should come first. Scrambled by random lower triangular matrices and a
 * random shift (J. Matoušek, J. Complexity 14 (1998) 527): every seed is an independent set of points, whose scatter tells the error.
 *
 * @param names in falling order of what they contribute
 */
export function sobolWords(seed: number, names: readonly string[]): WordSource {
  const dimensions = new Map(names.slice(0, sobolDimensions).map((name, d) => [name, scrambledDimension(seed, d)]));
  const starts = new Uint32Array(4 * wordLanes);
  return (name, block, words) => {
    const dimension = dimensions.get(name);
    if (dimension === undefined) {
      blockStarts(seed, name, block, starts);
      wordsFrom(starts, words);
    } else fillWords(dimension, block * words.length, words);
  };
}

interface Dimension {
  readonly directions: Uint32Array;
  readonly shift: number;
}

/** Direction vectors of one dimension, highest bit first: column k is what bit k of a point's number changes. */
export function sobolDirections(dimension: number): Uint32Array {
  const directions = new Uint32Array(bits);
  const numbers = sobolNumbers[dimension - 1];
  // The first dimension is van der Corput's: every bit turned round.
  if (numbers === undefined) return directions.map((_, k) => 2 ** (bits - 1 - k));
  const [polynomial, first] = numbers;
  const degree = first.length;
  for (let k = 0; k < bits; k++) {
    if (k < degree) {
      directions[k] = (first[k] as number) * 2 ** (bits - 1 - k);
      continue;
    }
    const before = directions[k - degree] as number;
    let value = before ^ (before >>> degree);
    // The coefficients between the first and the last, which are 1.
    for (let j = 1; j < degree; j++) if ((polynomial >>> (degree - j)) & 1) value ^= directions[k - j] as number;
    directions[k] = value;
  }
  return directions;
}

function scrambledDimension(seed: number, dimension: number): Dimension {
  const [low, high] = wordsOfName(`sobol ${dimension}`);
  const start = new Uint32Array(4);
  philox([0, 0, low, 2], [seed, high], start);
  const random = new Uint32Array(bits + 1);
  xoshiroWords(start, random);
  // Column j of the matrix: what bit j (from the top) of a point sets, itself and random bits below it.
  const columns = Uint32Array.from({ length: bits }, (_, j) => (0x80000000 >>> j) | ((random[j] as number) & (0x7fffffff >>> j)));
  const directions = unscrambledDirections(dimension).map((direction) => {
    let scrambled = 0;
    for (let rest = direction; rest !== 0; rest &= ~(0x80000000 >>> Math.clz32(rest))) scrambled ^= columns[Math.clz32(rest)] as number;
    return scrambled;
  });
  return { directions, shift: random[bits] as number };
}

/** Worked out once for each dimension. */
const knownDirections: Uint32Array[] = [];

function unscrambledDirections(dimension: number): Uint32Array {
  knownDirections[dimension] ??= sobolDirections(dimension);
  return knownDirections[dimension] as Uint32Array;
}

/** Points in the order of the Gray code (I. A. Antonov, V. M. Saleev 1979): each differs from the one before by one direction. */
function fillWords({ directions, shift }: Dimension, first: number, words: Uint32Array): void {
  let word = shift;
  const gray = first ^ (first >>> 1);
  for (let k = 0; k < bits; k++) if ((gray >>> k) & 1) word ^= directions[k] as number;
  for (let i = 0; i < words.length; i++) {
    words[i] = word;
    const next = first + i + 1;
    word ^= directions[31 - Math.clz32(next & -next)] as number;
  }
}
