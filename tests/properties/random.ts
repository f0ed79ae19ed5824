/** Numbers in (0, 1): a generator of the tests' own (Lehmer's with Park and Miller's multiplier 48271, modulus 2³¹ - 1). */
export function generator(start: number): () => number {
  let state = (start % 2_147_483_646) + 1;
  return () => {
    state = Number((BigInt(state) * 48_271n) % 2_147_483_647n);
    return state / 2_147_483_647;
  };
}

/** Box and Muller. */
export function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());
}
