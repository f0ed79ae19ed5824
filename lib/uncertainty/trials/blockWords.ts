import { wordsOfName } from "../internals/wordsOfName.ts";
import { philox } from "../philox.ts";
import { xoshiroWords } from "./xoshiro.ts";

/** Trials of one block; a block is what can be computed by itself. */
export const blockSize = 1024;
/** From one column of a block to the next: columns whose distance is a power of two would share the same few lines of the cache. */
export const columnStride = blockSize + 16;

/** Generators that take turns in the words of a block, since a processor does four of them as fast as one. */
export const wordLanes = 4;

/**
 * Where the random words of one name in one block start: the same on any machine and however trials are split, because nothing else enters than
 * seed, name and number of the block. Philox (a counter) gives the states of xoshiro, which is ten times faster word by word.
 *
 * @param seed an unsigned 32-bit integer
 * @param starts receives the states of `wordLanes` generators, four words each, all first words first
 */
export function blockStarts(seed: number, name: string, block: number, starts: Uint32Array): void {
  const [low, high] = knownWordsOf(name);
  for (let lane = 0; lane < wordLanes; lane++) {
    // The last word of the counter tells these draws from those of single trials, and the lanes from each other.
    philox([block >>> 0, Math.floor(block / 2 ** 32), low, 1 + 256 * lane], [seed, high], state);
    for (let k = 0; k < state.length; k++) starts[lane + k * wordLanes] = state[k] as number;
  }
}

/** The words that follow from starts. */
export function wordsFrom(starts: Uint32Array, words: Uint32Array): void {
  for (let lane = 0; lane < wordLanes; lane++) xoshiroWords(starts, words, lane, wordLanes);
}

const state = new Uint32Array(4);

/** The same few names come again for every block. */
const known = new Map<string, readonly [number, number]>();
const mostNames = 10_000;

function knownWordsOf(name: string): readonly [number, number] {
  let words = known.get(name);
  if (words === undefined) {
    words = wordsOfName(name);
    if (known.size >= mostNames) known.clear();
    known.set(name, words);
  }
  return words;
}
