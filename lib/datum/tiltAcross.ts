import { turnAboutZ, type Vector } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import { outwardOf } from "../contacts/outwardOf.ts";
import { isLevel } from "../contacts/surface.ts";
import type { FrameSolution } from "../frame/solveFrame.ts";
import { sum, type Uncertain } from "../uncertainty/uncertain.ts";
import { liftAt, type Tilt } from "./tilt.ts";

/** How a tilt moves what lies at different heights across. */
export interface TiltAcross {
  /** Height on the drawing at which places across count by themselves, mm: the mean of the touches from the side whose height is known. */
  readonly height: number;
  /** Touches from the side whose height is not known: they are taken to stand at that one. */
  readonly unplaced: readonly string[];
}

/** Why a tilt is not followed across. */
export type NotAcross = "no height" | "other datum first" | "by the fixture";

export interface FollowedTilt {
  readonly across: TiltAcross;
  /** How far the metal that a contact meets stands out along its normal from where a part without tilt would have it, mm; undefined for not at all. */
  readonly standOff: (contact: Contact) => Uncertain | undefined;
}

/** Heights nearer to each other than this, mm, are one height: a tilt of a hundredth over its length moves nothing there. */
const oneHeight = 1e-9;

/**
 * What a tilt does to touches. A part that rises by slopes a and b along X and Y is turned by (b, -a) about X and Y, and ω × p moves a point of it at the
 * height z by -a·z along X and -b·z along Y (rotation of a rigid body, to first order in angles of some hundredths of a millimetre over a length). A touch
 * from the side at the height z so finds its face (a, b)·(z - z0) from where it stands at the height z0; here z0 is the mean height of all of them, so that
 * touches at one height find what they find.
 *
 * The slopes are those of the drawing's frame only where the face is a datum before those that were touched from the side (ISO 5459).
 *
 * @param contacts that the part rests on
 * @param datumOf datum letter by element, empty for none
 */
export function followTilt(
  tilt: Tilt,
  contacts: readonly Contact[],
  { origin, rotation }: Pick<FrameSolution, "origin" | "rotation">,
  datumOf: (element: string) => string,
): FollowedTilt | NotAcross {
  const aside = contacts.filter(({ surface }) => !isLevel(surface));
  const letter = datumOf(tilt.face);
  const others = aside.map(({ element }) => datumOf(element)).filter((other) => other !== "");
  if (letter === "" || others.some((other) => other < letter)) return "other datum first";
  const frame = { origin, rotation };
  const placed = aside.filter(({ metal }) => metal.known[2]);
  if (placed.length === 0) return "no height";
  const height = placed.reduce((total, contact) => total + placeOnPart(contact, frame)[2] / placed.length, 0);
  const standOff = (contact: Contact): Uncertain | undefined => {
    const [nx, ny, nz] = outwardOf(contact, rotation.value);
    const [x, y, z] = placeOnPart(contact, frame);
    const [knowsX, knowsY, knowsZ] = contact.metal.known;
    const parts: Uncertain[] = [];
    if (nz !== 0 && knowsX && knowsY) parts.push(liftAt(tilt, x, y).times(nz));
    if (knowsZ && Math.abs(z - height) > oneHeight)
      for (const [n, slope] of [
        [nx, tilt.slopes[0]],
        [ny, tilt.slopes[1]],
      ] as const)
        if (n !== 0) parts.push(slope.times(-n * (z - height)));
    return parts.length === 0 ? undefined : sum(parts);
  };
  const unplaced = [...new Set(aside.filter(({ metal }) => !metal.known[2]).map(({ touch }) => touch))];
  return { across: { height, unplaced }, standOff };
}

/** How far the tilted face itself stands out where a contact meets it, by the plane through its touches, mm; undefined elsewhere, and where the place is not known. */
export function standOffOfFace(tilt: Tilt, contact: Contact, frame: Pick<FrameSolution, "origin" | "rotation">): Uncertain | undefined {
  const [knowsX, knowsY] = contact.metal.known;
  if (contact.element !== tilt.face || !isLevel(contact.surface) || !knowsX || !knowsY) return undefined;
  const [x, y] = placeOnPart(contact, frame);
  return liftAt(tilt, x, y);
}

function placeOnPart({ metal: { place } }: Contact, { origin, rotation }: Pick<FrameSolution, "origin" | "rotation">): Vector {
  return turnAboutZ(place.map((value, axis) => value - (origin[axis] as Uncertain).value) as unknown as Vector, -rotation.value);
}

/** How far a tilt moves a place at this height on the drawing along X and Y, against where places across count by themselves, mm. */
export function leanAt({ slopes, across }: Tilt & { readonly across: TiltAcross }, z: number): readonly [x: Uncertain, y: Uncertain] {
  return [slopes[0].times(z - across.height), slopes[1].times(z - across.height)];
}
