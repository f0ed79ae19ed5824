/** Two words from a name: FNV-1a (draft-eastlake-fnv), forwards and backwards. */
export function wordsOfName(name: string): readonly [number, number] {
  const fnv = (codes: readonly number[]) => codes.reduce((hash, code) => Math.imul(hash ^ code, 0x01000193) >>> 0, 0x811c9dc5);
  const codes = Array.from(name, (letter) => letter.codePointAt(0) as number);
  return [fnv(codes), fnv(codes.reverse())];
}
