import { type Axis, axes } from "../base/vector.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";

/** What follows from how a part was turned by half a turn, per axis. */
export interface TurnedPart {
  /** The machine's axis about which it was turned: X and Y turn it over, Z turns it end for end. */
  readonly about: Axis;
  /**
   * Along which axes the new zero sits at the opposite face, and where that is from the old zero, mm: the thickness or length between them, measured
   * or as drawn, negative where the part lies at the negative side of its zero, as below one at the top. Undefined where the zero stays at the same physical face.
   */
  readonly across: readonly [Uncertain | undefined, Uncertain | undefined, Uncertain | undefined];
}

/** Which coordinates change their sign: both that lie across the axis of the turn (a rotation by 180° about a coordinate axis). */
export function signsAfterTurn(about: Axis): readonly [1 | -1, 1 | -1, 1 | -1] {
  return axes.map((axis) => (axis === about ? 1 : -1)) as unknown as readonly [1 | -1, 1 | -1, 1 | -1];
}

/**
 * Coordinates of a feature of the first operation in those of the second, after the part was turned over or end for end. A coordinate that changes its sign
 * is p → -p where the zero stays at the same physical face, and p → T - p where it goes to the opposite one: (x, y, z) → (x, -y, T - z) about X,
 * (-x, y, T - z) about Y, (-x, -y, z) about Z. T brings its doubt along, with the sensitivity 1: what is cut from either side differs by it.
 *
 * @throws RangeError if a size is given along the axis of the turn, where nothing changes
 */
export function turnedOver(
  place: readonly [Uncertain, Uncertain, Uncertain],
  { about, across }: TurnedPart,
): [Uncertain, Uncertain, Uncertain] {
  const signs = signsAfterTurn(about);
  return place.map((coordinate, i) => {
    const size = across[i as 0 | 1 | 2];
    if (signs[i] === 1) {
      if (size !== undefined) throw new RangeError(`across: expected nothing along ${about}, about which the part is turned`);
      return coordinate;
    }
    return (size ?? certain(0)).minus(coordinate);
  }) as [Uncertain, Uncertain, Uncertain];
}
