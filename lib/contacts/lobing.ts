import type { Element } from "../part/part.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";

/** What a wall of evenly spaced lobes does to the circle through evenly spaced touches, as multiples of the lobes' amplitude. */
export interface LobingEffect {
  /** How far the centre moves, in a direction that the unknown phase gives: 1 or 0. */
  readonly centre: number;
  /** How far the diameter can be off, either way: 2 or 0. */
  readonly diameter: number;
}

/**
 * How `touches` evenly spaced touches take a wall whose radius is off by A·cos(kθ + φ), k = `lobes`. The least-squares circle through n such touches
 * is their mean and first harmonic; the kth harmonic of the wall shows there as the one that it cannot be told from at the touched places
 * (cos kθ at θ = 2πi/n has the same values as cos (k ± n)θ):
 *
 * - k one more or one less than a multiple of n: taken for a shift of the centre by A, whatever the phase;
 * - k a multiple of n: taken for a radius that is larger by A·cos φ;
 * - else not seen at all by centre and diameter.
 *
 * Four touches shift by all of a wall of three lobes, three take it for size, eight see neither.
 *
 * @param lobes k, a whole number of 2 or more
 * @param touches n, a whole number of 3 or more
 * @throws RangeError if one of them is less, or not whole
 */
export function lobingEffect(lobes: number, touches: number): LobingEffect {
  if (!(Number.isInteger(lobes) && lobes >= 2)) throw new RangeError(`lobes: expected a whole number of 2 or more, got ${lobes}`);
  if (!(Number.isInteger(touches) && touches >= 3)) throw new RangeError(`touches: expected a whole number of 3 or more, got ${touches}`);
  const left = lobes % touches;
  return { centre: left === 1 || left === touches - 1 ? 1 : 0, diameter: left === 0 ? 2 : 0 };
}

/**
 * How far the metal of a lobed wall lies off its mean circle at an angle, mm: A·cos(kθ + φ) with a phase φ that is equally likely anywhere, which is a
 * point on a circle of radius A seen along two directions. Nothing for other walls.
 *
 * @param angle round the wall as it lies in the machine, radians, from any direction that is the same for all touches of the wall
 */
export function lobingAt(element: Element, angle: number, book: SourceBook): Uncertain {
  if (element.kind !== "bore" && element.kind !== "boss") return certain(0);
  if (element.lobing === undefined) return certain(0);
  const { lobes, amplitude, signs: [x, y] = [1, 1] } = element.lobing;
  const onDrawing = x === 1 && y === 1 ? angle : Math.atan2(y * Math.sin(angle), x * Math.cos(angle));
  const component = (which: "cosine" | "sine") =>
    book.value({
      id: lobingId(element.id, which),
      label: `lobes of ${element.id}, ${which} part`,
      family: "part",
      // A fixed amount in an unknown direction, seen along one axis.
      distribution: { shape: "arcsine", halfWidth: amplitude },
      evidence: { kind: "stated" },
      circle: `element ${element.id}, lobing`,
    });
  return component("cosine")
    .times(Math.cos(lobes * onDrawing))
    .minus(component("sine").times(Math.sin(lobes * onDrawing)));
}

/** Names of the two sources of a lobed wall. */
export function lobingId(element: string, which: "cosine" | "sine"): string {
  return `element ${element}, lobing ${which}`;
}
