const multiplier0 = 0xd2511f53;
const multiplier1 = 0xcd9e8d57;
const weyl0 = 0x9e3779b9;
const weyl1 = 0xbb67ae85;
const rounds = 10;

/**
 * Philox4x32-10: four random words from a counter and a key, with no state
 * between calls, so that any trial of any source can be drawn alone and on any
 * machine with the same result (Salmon, Moraes, Dror, Shaw, Parallel random
 * numbers: as easy as 1, 2, 3, SC 2011; constants from its section 3.3).
 *
 * @param counter four unsigned 32-bit words
 * @param key two unsigned 32-bit words
 * @param words receives the four words
 */
export function philox(counter: readonly [number, number, number, number], key: readonly [number, number], words: Uint32Array): void {
  // Signed, so that they stay integers of the machine.
  let a = counter[0] | 0;
  let b = counter[1] | 0;
  let c = counter[2] | 0;
  let d = counter[3] | 0;
  let k0 = key[0] | 0;
  let k1 = key[1] | 0;
  for (let round = 0; round < rounds; round++) {
    const high0 = highWord(multiplier0, a);
    const low0 = Math.imul(multiplier0, a);
    const high1 = highWord(multiplier1, c);
    const low1 = Math.imul(multiplier1, c);
    a = high1 ^ b ^ k0;
    b = low1;
    c = high0 ^ d ^ k1;
    d = low0;
    k0 = (k0 + weyl0) | 0;
    k1 = (k1 + weyl1) | 0;
  }
  words[0] = a;
  words[1] = b;
  words[2] = c;
  words[3] = d;
}

/** The upper 32 bits of a product of two unsigned 32-bit words, signed: no sum of its parts goes beyond 32 bits. */
function highWord(x: number, y: number): number {
  const xl = x & 0xffff;
  const xh = x >>> 16;
  const yl = y & 0xffff;
  const yh = y >>> 16;
  const middle = (Math.imul(xh, yl) + (Math.imul(xl, yl) >>> 16)) | 0;
  const cross = (Math.imul(xl, yh) + (middle & 0xffff)) | 0;
  return (Math.imul(xh, yh) + (middle >>> 16) + (cross >>> 16)) | 0;
}
