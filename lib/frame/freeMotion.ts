import type { Vector } from "../base/vector.ts";

/** A motion of the part, or a size, that no contact limits. */
export interface FreeMotion {
  /** In words, for example `X and Y together` or `a turn about Z at X -12.0, Y 30.5`. */
  readonly words: string;
  /** Movement of the part's origin per unit, machine axes. */
  readonly shift: Vector;
  /** Turn about Z per unit, radians. */
  readonly turn: number;
}

/** Parts of a unit direction below this are rounding. */
const notMoved = 1e-7;
/** A share below this is not worth an axis of its own in words: a part that lies a little skewed shifts nearly along X. */
const slight = 0.05;

/**
 * Tells a free direction of the solver's unknowns as a motion of the part.
 *
 * @param direction scaled unknowns, in the order of `firm`
 * @param firm unknown numbers: 0 to 2 for X, Y, Z, 3 for the rotation, 4 and above for free sizes
 */
export function freeMotionOf(direction: Float64Array, firm: readonly number[], units: Float64Array, origin: Vector): FreeMotion {
  const amount = (unknown: number) => {
    const k = firm.indexOf(unknown);
    const scaled = k < 0 ? 0 : (direction[k] as number);
    return Math.abs(scaled) <= notMoved ? 0 : scaled * (units[unknown] as number);
  };
  const shift: Vector = [amount(0), amount(1), amount(2)];
  const turn = amount(3);
  const resizes = firm.some((unknown, k) => unknown > 3 && Math.abs(direction[k] as number) > notMoved);
  return { words: inWords(shift, turn, origin, resizes), shift, turn };
}

function inWords(shift: Vector, turn: number, origin: Vector, resizes: boolean): string {
  const together = resizes ? " together with an unknown size" : "";
  if (turn !== 0) {
    // The point that stays: origin + turn × (point - origin) + shift = origin.
    const x = origin[0] - shift[1] / turn;
    const y = origin[1] + shift[0] / turn;
    return `a turn about Z at X ${x.toFixed(1)}, Y ${y.toFixed(1)}${together}`;
  }
  const largest = Math.max(...shift.map(Math.abs));
  const mainly = ["X", "Y", "Z"].filter((_, i) => Math.abs(shift[i] as number) > slight * largest);
  if (mainly.length === 0) return "a size that no touch measures";
  const nearly = shift.filter((amount) => amount !== 0).length > mainly.length ? "nearly " : "";
  return `a shift ${nearly}along ${mainly.join(" and ")}${together}`;
}
