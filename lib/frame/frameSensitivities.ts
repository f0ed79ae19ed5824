import { addMatrix, entryOf, identity, type Matrix, matrixOf, multiply, pseudoInverse, transpose } from "../base/matrix.ts";
import { type ContactBend, type ContactResidual, poseUnknowns } from "./contactResidual.ts";
import type { SizeRule } from "./frameSolver.ts";
import { columnsOf, type Linearisation } from "./linearisation.ts";

/**
 * Derivatives of a frame's unknowns by its inputs, row-major unknown × input:
 * the implicit function theorem on the normal equations Jᵀg = 0, with the terms
 * in which the residuals g multiply second derivatives, so that the result is
 * exact also where redundant contacts disagree.
 *
 * @param bends second derivatives by contact; undefined where its residual is nothing
 */
export function frameSensitivities(
  linear: Linearisation,
  bends: readonly (ContactBend | undefined)[],
  sizes: readonly SizeRule[],
): Float64Array {
  const { residuals, firm, soft, units, firmResponse, softResponse, softColumns } = linear;
  const contacts = residuals.length;
  const inputs = 2 * contacts + sizes.length;
  const held = sizes.flatMap(({ mode }, s) => (mode === "held" ? [poseUnknowns + s] : []));

  // What the inputs do directly: to the residuals, and to the sizes that follow their given value.
  const direct = matrixOf(contacts, inputs, (i, input) => {
    if (input === 2 * i) return (residuals[i] as ContactResidual).byAdvance;
    return input === 2 * i + 1 ? (residuals[i] as ContactResidual).byReach : 0;
  });
  const given = (unknowns: readonly number[]) =>
    matrixOf(unknowns.length, inputs, (k, input) => {
      const unknown = unknowns[k] as number;
      return input === 2 * contacts + unknown - poseUnknowns ? 1 / (units[unknown] as number) : 0;
    });
  const heldChange = given(held);
  const withHeld = addMatrix(direct, 1, multiply(columnsOf(residuals, held, units), heldChange));

  // The soft sizes answer to what the firm unknowns cannot take up; the firm unknowns then settle.
  const softGiven = given(soft);
  const softChange = addMatrix(softGiven, -1, multiply(softResponse, addMatrix(withHeld, 1, multiply(softColumns, softGiven))));
  const change = addMatrix(withHeld, 1, multiply(softColumns, softChange));

  const settledFlat = multiply(firmResponse, change);
  const firmChange = bends.some((bend) => bend !== undefined) ? bent() : settledFlat;

  /** With the turning of the gradients, where residuals are left for it to act on. */
  function bent(): Matrix {
    const bend = (a: readonly number[], b: readonly number[]) => curvatureOf(residuals, bends, a, b, units);
    const gradientChange = addMatrix(
      addMatrix(advanceBend(linear, bends, inputs), 1, multiply(bend(firm, held), heldChange)),
      1,
      multiply(bend(firm, soft), softChange),
    );
    const inverseNormal = multiply(firmResponse, transpose(firmResponse));
    const settled = addMatrix(settledFlat, 1, multiply(inverseNormal, gradientChange));
    const correction = addMatrix(identity(firm.length), 1, multiply(inverseNormal, bend(firm, firm)));
    return multiply(pseudoInverse(correction, 0), settled);
  }

  const result = new Float64Array((poseUnknowns + sizes.length) * inputs);
  const write = (unknowns: readonly number[], changes: Matrix, sign: number) => {
    unknowns.forEach((unknown, k) => {
      for (let input = 0; input < inputs; input++)
        result[unknown * inputs + input] = sign * entryOf(changes, k, input) * (units[unknown] as number);
    });
  };
  write(firm, firmChange, -1);
  write(soft, softChange, 1);
  write(held, heldChange, 1);
  return result;
}

/** Σ residual · second derivative, scaled. */
function curvatureOf(
  residuals: readonly ContactResidual[],
  bends: readonly (ContactBend | undefined)[],
  a: readonly number[],
  b: readonly number[],
  units: Float64Array,
): Matrix {
  const unknowns = units.length;
  return matrixOf(a.length, b.length, (i, j) => {
    const row = a[i] as number;
    const column = b[j] as number;
    let total = 0;
    for (let k = 0; k < residuals.length; k++) {
      const bend = bends[k];
      if (bend) total += weighted(residuals[k] as ContactResidual) * (bend.curvature[row * unknowns + column] as number);
    }
    return total * (units[row] as number) * (units[column] as number);
  });
}

/** The residual, which has its weight, times the weight that second derivatives do not have. */
function weighted({ value, byReach }: ContactResidual): number {
  return -value * byReach;
}

/** The part of the normal equations' change that comes from the gradients turning as a tool advances. */
function advanceBend({ residuals, firm, units }: Linearisation, bends: readonly (ContactBend | undefined)[], inputs: number): Matrix {
  return matrixOf(firm.length, inputs, (k, input) => {
    if (input >= 2 * residuals.length || input % 2 !== 0) return 0;
    const bend = bends[input / 2];
    if (bend === undefined) return 0;
    const unknown = firm[k] as number;
    return weighted(residuals[input / 2] as ContactResidual) * (bend.gradientByAdvance[unknown] as number) * (units[unknown] as number);
  });
}
