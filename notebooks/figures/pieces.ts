/** Rows and columns of a large figure that a piece of it holds, from one to before the other. */
export interface Piece {
  readonly rows: readonly [from: number, before: number];
  readonly columns: readonly [from: number, before: number];
}

/** A count in as few stretches as hold so many each, all of them about equally long: a last one with a single row looks like a mistake. */
export function stretches(count: number, each: number): (readonly [from: number, before: number])[] {
  const pieces = Math.max(1, Math.ceil(count / each));
  return Array.from({ length: pieces }, (_, i) => [Math.round((i * count) / pieces), Math.round(((i + 1) * count) / pieces)] as const);
}
