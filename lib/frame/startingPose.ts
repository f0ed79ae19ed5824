import { addScaled, turnAboutZ, type Vector } from "../base/vector.ts";
import type { Surface } from "../contacts/surface.ts";
import type { ContactGeometry, Pose } from "./contactResidual.ts";

/** A pose from which the solver's steps converge: the rotation from the touched face with the longest baseline, the origin from a round wall. */
export function startingPose(contacts: readonly ContactGeometry[], rotates: boolean): Pose {
  const groups = bySurface(contacts);
  const rotation = rotates ? rotationFromFaces(groups) : 0;
  for (const [surface, centres] of groups) {
    if (surface.kind === "plane") continue;
    return { origin: addScaled(circleCentre(centres), -1, turnAboutZ(surface.axis, rotation)), rotation };
  }
  return { origin: [0, 0, 0], rotation };
}

function bySurface(contacts: readonly ContactGeometry[]): Map<Surface, Vector[]> {
  const groups = new Map<Surface, Vector[]>();
  for (const { surface, centre } of contacts) groups.set(surface, [...(groups.get(surface) ?? []), centre]);
  return groups;
}

function rotationFromFaces(groups: Map<Surface, Vector[]>): number {
  let longest = 0;
  let rotation = 0;
  for (const [surface, centres] of groups) {
    if (surface.kind !== "plane" || surface.outward[2] !== 0) continue;
    const along = Math.atan2(surface.outward[0], -surface.outward[1]);
    for (const a of centres) {
      for (const b of centres) {
        const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
        if (length <= longest) continue;
        longest = length;
        // A face has no direction: take the turn that is nearer to none.
        const turn = Math.atan2(b[1] - a[1], b[0] - a[0]) - along;
        rotation = turn - Math.PI * Math.round(turn / Math.PI);
      }
    }
  }
  return rotation;
}

/** Centre of a circle through the points in the algebraic least-squares sense (Kåsa, IEEE Trans. Instrum. Meas. 25 (1976) 8-14); their mean when they fix none. */
function circleCentre(points: readonly Vector[]): Vector {
  const n = points.length;
  const mean: Vector = [points.reduce((s, p) => s + p[0], 0) / n, points.reduce((s, p) => s + p[1], 0) / n, 0];
  let uu = 0;
  let uv = 0;
  let vv = 0;
  let ru = 0;
  let rv = 0;
  for (const [x, y] of points) {
    const u = x - mean[0];
    const v = y - mean[1];
    const square = u * u + v * v;
    uu += u * u;
    uv += u * v;
    vv += v * v;
    ru += (square * u) / 2;
    rv += (square * v) / 2;
  }
  const determinant = uu * vv - uv * uv;
  if (!(determinant > 1e-12 * (uu + vv) ** 2)) return mean;
  return addScaled(mean, 1, [(ru * vv - rv * uv) / determinant, (rv * uu - ru * uv) / determinant, 0]);
}
