import { wordsOfName } from "../internals/wordsOfName.ts";
import { philox } from "../philox.ts";
import { xoshiroWords } from "./xoshiro.ts";

/** Trials of one block; a block is what can be computed by itself. */
export const blockSize = 1024;
/** From one column of a block to the next: columns whose distance is a power of two would share the same few lines of the cache. */
export const columnStride = blockSize + 16;

/**
 * Random words of one name in one block: the same on any machine and however trials are split, because nothing else enters than seed, name
 * and number of the block.
 *
 * @param seed an unsigned 32-bit integer
 * @param words receives `blockSize` words
 */
export function blockWords(seed: number, name: string, block: number, words: Uint32Array): void {
  xoshiroWords(blockStart(seed, name, block), words);
}

/** Where the generator of one name starts in one block. Philox (a counter) gives the state of xoshiro, which is ten times faster word by word. */
function blockStart(seed: number, name: string, block: number): Uint32Array {
  const [low, high] = knownWordsOf(name);
  // The last word of the counter tells these draws from those of single trials.
  philox([block >>> 0, Math.floor(block / 2 ** 32), low, 1], [seed, high], state);
  return state;
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
