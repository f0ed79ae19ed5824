import { turnAboutZ, type Vector } from "../base/vector.ts";
import type { Contact } from "./contact.ts";

/**
 * The unit vector out of the metal that a contact met, in the drawing's frame.
 *
 * @param rotation of the part about Z, radians
 */
export function outwardOf({ surface, travel }: Contact, rotation: number): Vector {
  if (surface.kind === "plane") return surface.outward;
  if (surface.kind === "axis") return surface.along;
  return turnAboutZ([-travel[0], -travel[1], -travel[2]], -rotation);
}
