import { entryOf, rankOf, singularValues, transpose } from "../base/matrix.ts";
import { sum, type Uncertain } from "../uncertainty/uncertain.ts";
import { type ContactResidual, poseUnknowns } from "./contactResidual.ts";
import { type Linearisation, unweightedColumnsOf } from "./linearisation.ts";

/** Singular values up to this (columns are scaled to order 1) are those of what no contact limits. */
const rankTolerance = 1e-9;

/**
 * The combinations of contacts that no place of the part and no size that is sought can change: as many as there are contacts more than just
 * enough, orthonormal, mm. True contacts make every one of them 0, so what one shows is error and nothing else. Linear about the solution, so
 * that the frame's own curvature brings none of the unknowns into them.
 *
 * @param inputs advance and reach of every contact, then the given value of every size, as of the frame
 */
export function contrastsOf({ residuals, firm, soft, units }: Linearisation, inputs: readonly Uncertain[]): Uncertain[] {
  const found = [...firm, ...soft];
  const columns = unweightedColumnsOf(residuals, found, units);
  // The directions of contacts that the columns do not reach are the right singular vectors of the transpose without a value.
  const decomposition = singularValues(transpose(columns));
  const { right, values } = decomposition;
  const errors = residuals.map((residual, i) => errorOf(residual, i, found, inputs, residuals.length));
  return Array.from({ length: values.length }, (_, k) => k)
    .slice(rankOf(decomposition, rankTolerance))
    .map((k) => sum(errors.map((error, i) => error.times(entryOf(right, i, k)))));
}

/** What is left of a contact's equation, and what its own lengths and the sizes that are held do to that. */
function errorOf(
  { value, gradient, byAdvance, byReach }: ContactResidual,
  i: number,
  found: readonly number[],
  inputs: readonly Uncertain[],
  contacts: number,
): Uncertain {
  const change = (input: Uncertain, by: number) => input.minus(input.value).times(by);
  const own = [change(inputs[2 * i] as Uncertain, -byAdvance / byReach), change(inputs[2 * i + 1] as Uncertain, -1)];
  const held = inputs.slice(2 * contacts).flatMap((given, s) => {
    const unknown = poseUnknowns + s;
    const by = -(gradient[unknown] as number) / byReach;
    return by === 0 || found.includes(unknown) ? [] : [change(given, by)];
  });
  return sum([...own, ...held]).plus(-value / byReach);
}
