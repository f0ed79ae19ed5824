/**
 * Words of the generator xoshiro128** (D. Blackman, S. Vigna, ACM Trans. Math. Softw. 47 (2021) 36). Its state stands in variables of this one loop,
 * so that it stays in registers: an object may end up in memory, at twice the time.
 *
 * @param start four words of each generator, all first words first; the last is made odd, since none must start from four zeros
 * @param words receives the words of this generator in every `lanes`th place, as many as there are
 * @param lane which of the generators, from 0
 * @param lanes how many of them take turns in `words`
 */
export function xoshiroWords(start: Uint32Array, words: Uint32Array, lane = 0, lanes = 1): void {
  // Signed, so that they stay integers of the machine.
  let a = (start[lane] as number) | 0;
  let b = (start[lane + lanes] as number) | 0;
  let c = (start[lane + 2 * lanes] as number) | 0;
  let d = (start[lane + 3 * lanes] as number) | 1;
  for (let i = lane; i < words.length; i += lanes) {
    const product = Math.imul(b, 5);
    words[i] = Math.imul((product << 7) | (product >>> 25), 9);
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
  }
}
