import { circleCentre } from "../base/circleCentre.ts";
import { addScaled, turnAboutZ, type Vector } from "../base/vector.ts";
import type { Surface } from "../contacts/surface.ts";
import type { ContactGeometry, Pose } from "./contactResidual.ts";

/** One touched surface: its contacts with the reach that each has at its estimate. */
interface Touched {
  readonly surface: Surface;
  readonly contacts: readonly { readonly contact: ContactGeometry; readonly reach: number }[];
}

/**
 * A pose from which the solver's steps converge to the right one of several
 * solutions: the rotation from the longest baseline (two places on a face, or
 * the axes of two round walls), the origin from a round wall. The travel says on
 * which side of a touch an axis lies.
 *
 * @param inputs advance and reach of every contact, in turn
 */
export function startingPose(contacts: readonly ContactGeometry[], inputs: ArrayLike<number>, rotates: boolean): Pose {
  const touched = bySurface(contacts, inputs);
  const round = touched.flatMap(({ surface, contacts: own }) =>
    surface.kind === "plane" ? [] : [{ nominal: surface.axis, found: axisOf(surface, own) }],
  );
  const rotation = rotates ? longestTurn([...touched.flatMap(faceBaselines), ...axisBaselines(round)]) : 0;
  const [first] = round;
  const origin: Vector = first === undefined ? [0, 0, 0] : addScaled(first.found, -1, turnAboutZ(first.nominal, rotation));
  return { origin: [origin[0], origin[1], 0], rotation };
}

function bySurface(contacts: readonly ContactGeometry[], inputs: ArrayLike<number>): Touched[] {
  const groups = new Map<Surface, { contact: ContactGeometry; reach: number }[]>();
  contacts.forEach((contact, i) => {
    groups.set(contact.surface, [...(groups.get(contact.surface) ?? []), { contact, reach: inputs[2 * i + 1] as number }]);
  });
  return [...groups].map(([surface, own]) => ({ surface, contacts: own }));
}

/** A line known on the part and found in the machine. */
interface Baseline {
  readonly length: number;
  readonly turn: number;
}

function longestTurn(baselines: readonly Baseline[]): number {
  return baselines.reduce((best, each) => (each.length > best.length ? each : best), { length: 0, turn: 0 }).turn;
}

function faceBaselines({ surface, contacts }: Touched): Baseline[] {
  if (surface.kind !== "plane" || surface.outward[2] !== 0) return [];
  const along = Math.atan2(surface.outward[0], -surface.outward[1]);
  return pairs(contacts.map(({ contact }) => contact.centre)).map(([a, b]) => {
    const turn = Math.atan2(b[1] - a[1], b[0] - a[0]) - along;
    // A face has no direction: take the turn that is nearer to none.
    return { length: Math.hypot(b[0] - a[0], b[1] - a[1]), turn: turn - Math.PI * Math.round(turn / Math.PI) };
  });
}

function axisBaselines(round: readonly { readonly nominal: Vector; readonly found: Vector }[]): Baseline[] {
  return pairs(round).map(([a, b]) => {
    const [nx, ny] = addScaled(b.nominal, -1, a.nominal);
    const [fx, fy] = addScaled(b.found, -1, a.found);
    const turn = Math.atan2(fy, fx) - Math.atan2(ny, nx);
    return { length: Math.hypot(nx, ny), turn: turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI)) };
  });
}

function pairs<T>(items: readonly T[]): [T, T][] {
  return items.flatMap((a, i) => items.slice(i + 1).map((b): [T, T] => [a, b]));
}

/** Machine place of a round wall's axis: from the circle through its touches, or from their travel and the drawn diameter. */
function axisOf(surface: Exclude<Surface, { kind: "plane" }>, contacts: Touched["contacts"]): Vector {
  const centres = contacts.map(({ contact }) => contact.centre);
  const circle = surface.kind === "axis" ? undefined : circleCentre(centres);
  if (circle !== undefined) return circle;
  const guesses = contacts.map(({ contact, reach }) => {
    if (surface.kind === "axis") return contact.centre;
    const distance = surface.kind === "bore" ? reach - surface.radius : surface.radius + reach;
    return addScaled(contact.centre, distance, contact.travel);
  });
  return guesses.reduce<Vector>((sum, guess) => addScaled(sum, 1 / guesses.length, guess), [0, 0, 0]);
}
