import { entryOf, type Matrix, matrixOf, multiply, pseudoInverse } from "../base/matrix.ts";
import type { Vector } from "../base/vector.ts";
import { poseUnknowns } from "./contactResidual.ts";
import { type FreeMotion, freeMotionOf } from "./freeMotion.ts";
import { freeDirections, type Linearisation, unweightedColumnsOf } from "./linearisation.ts";

/** What the contacts of a solved frame are to it, and to each other. Contacts are told by their numbers. */
export interface ContactRoles {
  /** Motions that would become free if these contacts were not there. */
  readonly freedWithout: (contacts: readonly number[]) => readonly FreeMotion[];
  /** For every size: whether the contacts would find it if none were held; without some of them where those are named. */
  readonly measured: (without?: readonly number[]) => readonly boolean[];
  /**
   * Whether an error of one contact shows in what is left of another: they check each other. No size stands between them then, since all sizes of
   * the part are taken as unknown here.
   */
  readonly check: (one: number, other: number) => boolean;
  /** How many equations are more than just enough, all sizes being unknown. */
  readonly spare: number;
  /** For every size: whether the frame takes it as known although the contacts contradict it, so that what it is off spoils their agreement. */
  readonly pulled: readonly boolean[];
}

/** Parts of a unit direction, and of a unit error, below this are rounding. */
const nothing = 1e-7;
/**
 * A motion that no contact limits by more than this share of it counts as free here (columns are scaled to order 1): a touch of a round wall a little off
 * its middle line, or of a face that is a little skewed, says nothing worth having about the other axis. Common practice, no source.
 */
const weakest = 0.02;

/**
 * Roles from the contacts' linear equations. What a contact errs by is left over in the pattern of the redundancy matrix I - A·A⁺ of least squares;
 * an error of which nothing is left is one that nobody would notice (redundancy numbers, W. Baarda, A testing procedure for use in geodetic
 * networks, 1968). Touches whose errors leave something in each other's residuals form the blocks of that matrix.
 *
 * @param isPartOfPart for every size: whether it is one of the part's own; the others only stand for such, so that a strategy can free them
 * @param origin machine coordinates of the part, about which turns are told, mm
 */
export function contactRoles(linear: Linearisation, isPartOfPart: readonly boolean[], origin: Vector): ContactRoles {
  const { residuals, firm, units } = linear;
  const own = unweightedColumnsOf(residuals, firm, units);
  const freedAt = (contacts: readonly number[], tolerance?: number) =>
    freeDirections(withRows(rowsWithout(own, contacts), freeDirections(own, tolerance)), tolerance);
  const ownSizes = isPartOfPart.flatMap((is, s) => (is ? [poseUnknowns + s] : []));
  const open = [...firm.filter((unknown) => unknown < poseUnknowns), ...ownSizes];
  // Sizes in mm, however little they may be off: here only what can be told counts.
  const ones = units.map((unit, unknown) => (unknown < poseUnknowns ? unit : 1));
  const whole = unweightedColumnsOf(residuals, open, ones);
  const left = redundancyOf(whole);
  const taken = [...firm, ...linear.soft];
  const leftOfTaken = redundancyOf(unweightedColumnsOf(residuals, taken, ones));
  const isLeft = (size: number) =>
    multiply(leftOfTaken, unweightedColumnsOf(residuals, [poseUnknowns + size], ones)).entries.some((entry) => Math.abs(entry) > nothing);
  return {
    freedWithout: (contacts) => {
      const weakly = freedAt(contacts, weakest);
      // What was held weakly by all of them may be held by nothing without some.
      const freed = weakly.length > 0 ? weakly : freedAt(contacts);
      return freed.map((direction) => freeMotionOf(direction, firm, units, origin));
    },
    measured: (without = []) => {
      const free = freeDirections(rowsWithout(whole, without), weakest);
      return isPartOfPart.map(
        (is, s) => is && free.every((direction) => Math.abs(direction[open.indexOf(poseUnknowns + s)] as number) <= nothing),
      );
    },
    check: (one, other) => Math.abs(entryOf(left, one, other)) > nothing,
    spare: Math.max(0, Math.round(traceOf(left))),
    pulled: isPartOfPart.map((is, s) => is && !taken.includes(poseUnknowns + s) && isLeft(s)),
  };
}

/** The roles where there is no contact. */
export const noRoles: ContactRoles = { freedWithout: () => [], measured: () => [], check: () => false, spare: 0, pulled: [] };

function redundancyOf(columns: Matrix): Matrix {
  const taken = multiply(columns, pseudoInverse(columns, weakest));
  return matrixOf(columns.rows, columns.rows, (i, j) => (i === j ? 1 : 0) - entryOf(taken, i, j));
}

function traceOf(square: Matrix): number {
  let sum = 0;
  for (let i = 0; i < square.rows; i++) sum += entryOf(square, i, i);
  return sum;
}

function rowsWithout(columns: Matrix, contacts: readonly number[]): Matrix {
  const kept = Array.from({ length: columns.rows }, (_, i) => i).filter((i) => !contacts.includes(i));
  return matrixOf(kept.length, columns.columns, (i, k) => entryOf(columns, kept[i] as number, k));
}

/** With directions that are free anyway ruled out, so that only new ones are found. */
function withRows(columns: Matrix, more: readonly Float64Array[]): Matrix {
  return matrixOf(columns.rows + more.length, columns.columns, (i, k) =>
    i < columns.rows ? entryOf(columns, i, k) : ((more[i - columns.rows] as Float64Array)[k] as number),
  );
}
