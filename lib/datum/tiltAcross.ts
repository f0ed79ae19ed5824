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
  readonly across: TiltAcross | NotAcross;
  /** How far the metal that a contact meets stands out along its normal from where a part without tilt would have it, mm; undefined for not at all. */
  readonly standOff: (contact: Contact) => Uncertain | undefined;
}

/** Heights nearer to each other than this, mm, are one height: a tilt of a hundredth over its length moves nothing there. */
const oneHeight = 1e-9;

/**
 * What a tilt does to touches. A part that rises by slopes a and b along X and Y is turned by (b, -a) about X and Y, and ω × p moves a point of it at the
 * height z by -a·z along X and -b·z along Y (rotation of a rigid body, to first order in angles of some hundredths of a millimetre over a length). A touch
 * from the side at the height z so finds its face (a, b)·(z - z0) from where it stands at the height z0; here z0 is the mean height of all of them, so that
 * touches at one height find what they find. A touch from above finds a level face, whichever it is, as much higher as the plane is there.
 *
 * The slopes are those of the drawing's frame only where the face is a datum before those that were touched from the side (ISO 5459); otherwise places across do not follow.
 *
 * @param contacts that the part rests on
 * @param datumOf datum letter by element, empty for none
 */
export function followTilt(tilt: Tilt, contacts: readonly Contact[], frame: Placing, datumOf: (element: string) => string): FollowedTilt {
  const lift = (contact: Contact) => liftOfMetal(tilt, contact, frame);
  const aside = contacts.filter(({ surface }) => !isLevel(surface));
  const letter = datumOf(tilt.face);
  const others = aside.map(({ element }) => datumOf(element)).filter((other) => other !== "");
  if (letter === "" || others.some((other) => other < letter)) return { across: "other datum first", standOff: lift };
  const placed = aside.filter(({ metal }) => metal.known[2]);
  if (placed.length === 0) return { across: "no height", standOff: lift };
  const height = placed.reduce((total, contact) => total + placeOnPart(contact, frame)[2] / placed.length, 0);
  const standOff = (contact: Contact): Uncertain | undefined => {
    const [nx, ny] = outwardOf(contact, frame.rotation.value);
    const z = placeOnPart(contact, frame)[2];
    const lifted = lift(contact);
    const parts = lifted === undefined ? [] : [lifted];
    if (contact.metal.known[2] && Math.abs(z - height) > oneHeight)
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

/** Where the part lies in the machine. */
type Placing = Pick<FrameSolution, "origin" | "rotation">;

/** How much of the plane's rise above the touches' middle a contact meets along its normal, mm; undefined for an upright face, and where its place is not known. */
export function liftOfMetal(tilt: Tilt, contact: Contact, frame: Placing): Uncertain | undefined {
  const nz = outwardOf(contact, frame.rotation.value)[2];
  const [knowsX, knowsY] = contact.metal.known;
  if (nz === 0 || !knowsX || !knowsY) return undefined;
  const [x, y] = placeOnPart(contact, frame);
  return liftAt(tilt, x, y).times(nz);
}

function placeOnPart({ metal: { place } }: Contact, { origin, rotation }: Placing): Vector {
  return turnAboutZ(place.map((value, axis) => value - (origin[axis] as Uncertain).value) as unknown as Vector, -rotation.value);
}

/** How far a tilt moves a place at this height on the drawing along X and Y, against where places across count by themselves, mm. */
export function leanAt({ slopes, across }: Tilt & { readonly across: TiltAcross }, z: number): readonly [x: Uncertain, y: Uncertain] {
  return [slopes[0].times(z - across.height), slopes[1].times(z - across.height)];
}
