/**
 * Words of the generator xoshiro128** (D. Blackman, S. Vigna, ACM Trans. Math. Softw. 47 (2021) 36). Its state stands in variables of this one loop,
 * so that it stays in registers: an object may end up in memory, at twice the time.
 *
 * @param start four words; the last is made odd, since the generator must not start from four zeros
 * @param words receives the words, as many as it holds
 */
export function xoshiroWords(start: Uint32Array, words: Uint32Array): void {
  // Signed, so that they stay integers of the machine.
  let a = (start[0] as number) | 0;
  let b = (start[1] as number) | 0;
  let c = (start[2] as number) | 0;
  let d = (start[3] as number) | 1;
  for (let i = 0; i < words.length; i++) {
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
