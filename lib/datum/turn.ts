import { type Uncertain, unary } from "../uncertainty/uncertain.ts";

/** A turn about Z by an uncertain angle, its cosine and sine made once. */
export interface Turn {
  readonly cosine: Uncertain;
  readonly sine: Uncertain;
}

export function turnBy(angle: Uncertain): Turn {
  return { cosine: unary("cosine", angle), sine: unary("sine", angle) };
}

/** The vector turned, anticlockwise seen from +Z. */
export function turned(
  [x, y, z]: readonly [Uncertain, Uncertain, Uncertain],
  { cosine, sine }: Turn,
): readonly [Uncertain, Uncertain, Uncertain] {
  return [x.times(cosine).minus(y.times(sine)), x.times(sine).plus(y.times(cosine)), z];
}
