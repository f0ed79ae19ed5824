import { wordsOfName } from "../internals/wordsOfName.ts";
import { philox } from "../philox.ts";
import type { WordSource } from "./blockSampler.ts";
import { blockWords } from "./blockWords.ts";
import { sobolNumbers } from "./sobolNumbers.ts";

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
  return (name, block, words) => {
    const dimension = dimensions.get(name);
    if (dimension === undefined) blockWords(seed, name, block, words);
    else fillWords(dimension, block * words.length, words);
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
  const words = new Uint32Array(4);
  const randomWord = (k: number) => {
    philox([Math.floor(k / 4), 0, low, 2], [seed, high], words);
    return words[k % 4] as number;
  };
  // Row i of the matrix makes bit i (from the top) out of itself and random bits above it.
  const rows = Uint32Array.from({ length: bits }, (_, i) => {
    const above = i === 0 ? 0 : randomWord(i) & (0xffffffff << (bits - i));
    return above | (1 << (bits - 1 - i));
  });
  const directions = sobolDirections(dimension).map((direction) => {
    let scrambled = 0;
    for (let i = 0; i < bits; i++) if (parity(direction & (rows[i] as number))) scrambled |= 1 << (bits - 1 - i);
    return scrambled;
  });
  return { directions, shift: randomWord(0) };
}

function parity(word: number): boolean {
  let folded = word ^ (word >>> 16);
  folded ^= folded >>> 8;
  folded ^= folded >>> 4;
  return ((0x6996 >>> (folded & 15)) & 1) === 1;
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
