/** The name by which formulas know what rows call by free text: `front 1`, `face` -> `front_1_face`. */
export function nameOf(...words: readonly string[]): string {
  const joined = words
    .join("_")
    .normalize("NFKC")
    .replace(/[^\p{L}\p{M}\d_]+/gu, "_");
  return /^[\p{L}_]/u.test(joined) ? joined : `_${joined}`;
}
