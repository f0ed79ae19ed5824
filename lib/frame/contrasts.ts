import { addMatrix, entryOf, type Matrix, matrixOf, multiply, pseudoInverse, rankOf, singularValues, transpose } from "../base/matrix.ts";
import { isLevel } from "../contacts/surface.ts";
import { sum, type Uncertain } from "../uncertainty/uncertain.ts";
import { type ContactGeometry, type ContactResidual, poseUnknowns } from "./contactResidual.ts";
import { type Linearisation, unweightedColumnsOf } from "./linearisation.ts";

/** Singular values up to this (columns are scaled to order 1) are those of what no contact limits. */
const rankTolerance = 1e-9;
/** Touches whose triangle is flatter than this share of their spread tell no tilt. */
const onALine = 1e-6;

/** A contact, whether X, Y and Z of its place are known, and what is to be expected of its metal, which no setter foresees (`FrameContact`). */
type PlacedContact = ContactGeometry & { readonly noted?: readonly boolean[]; readonly unforeseen?: number };

/**
 * The combinations of contacts that no place of the part, no tilt and no size that is sought can change: as many as there are contacts more than
 * just enough, orthonormal, mm. True contacts make every one of them 0, so what one shows is error and nothing else. Linear about the
 * solution, so that the frame's own curvature brings none of the unknowns into them.
 *
 * @param inputs advance and reach of every contact, then the given value of every size, as of the frame
 */
export function contrastsOf(linear: Linearisation, inputs: readonly Uncertain[], contacts: readonly PlacedContact[]): Uncertain[] {
  const { residuals, firm, soft, units } = linear;
  const found = [...firm, ...soft];
  const tilts = tiltPatterns(linear, contacts);
  const own = unweightedColumnsOf(residuals, found, units);
  const columns = matrixOf(own.rows, own.columns + tilts.length, (i, j) =>
    j < own.columns ? entryOf(own, i, j) : ((tilts[j - own.columns] as Float64Array)[i] as number),
  );
  // The directions of contacts that the columns do not reach are the right singular vectors of the transpose without a value.
  const decomposition = singularValues(transpose(columns));
  const { right, values } = decomposition;
  const errors = residuals.map((residual, i) =>
    errorOf(residual, i, found, inputs, residuals.length).minus((contacts[i] as PlacedContact).unforeseen ?? 0),
  );
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

/**
 * What small tilts of the part about X and Y leave of the contacts' equations when the frame, which knows no tilt, has taken up what it can: two
 * orthonormal patterns over the contacts where touches from above determine both tilts, none elsewhere. Contacts of upright walls are taken to
 * stand at one height.
 */
export function tiltPatterns({ residuals, firm, soft, units }: Linearisation, contacts: readonly PlacedContact[]): readonly Float64Array[] {
  const fromAbove = contacts.filter(facesAlongZ);
  if (fromAbove.length < 3 || fromAbove.some(({ noted }) => noted !== undefined && !(noted[0] && noted[1]))) return [];
  const [x, y] = fromAbove.reduce(([px, py], { centre }) => [px + centre[0] / fromAbove.length, py + centre[1] / fromAbove.length], [0, 0]);
  const arms = matrixOf(contacts.length, 2, (i, axis) => {
    const { surface, centre } = contacts[i] as PlacedContact;
    if (surface.kind !== "plane" || surface.outward[2] === 0) return 0;
    return surface.outward[2] * (centre[axis as 0 | 1] - (axis === 0 ? x : y));
  });
  const weighted = (a: Matrix) => matrixOf(a.rows, a.columns, (i, j) => (contacts[i] as PlacedContact).weight * entryOf(a, i, j));
  const columns = unweightedColumnsOf(residuals, [...firm, ...soft], units);
  const taken = multiply(columns, multiply(pseudoInverse(weighted(columns), rankTolerance), weighted(arms)));
  const decomposition = singularValues(addMatrix(arms, -1, taken));
  const spread = Math.max(...arms.entries.map(Math.abs));
  if (rankOf(decomposition, onALine * spread) < 2) return [];
  const { left, values } = decomposition;
  return Array.from(values, (_, k) => Float64Array.from(contacts, (_contact, i) => entryOf(left, i, k)));
}

function facesAlongZ({ surface }: ContactGeometry): boolean {
  return isLevel(surface);
}

/** Residuals of a frame without what tilts leave of them. */
export function withoutTilts(residuals: readonly Uncertain[], patterns: readonly Float64Array[]): readonly Uncertain[] {
  if (patterns.length === 0) return residuals;
  const amounts = patterns.map((pattern) => sum(residuals.map((residual, i) => residual.times(pattern[i] as number))));
  return residuals.map((residual, i) =>
    residual.minus(sum(amounts.map((amount, k) => amount.times((patterns[k] as Float64Array)[i] as number)))),
  );
}
