import { addScaled, type Vector } from "./vector.ts";

/** Determinant of the points' scatter, relative to its square, below which they lie on a line. */
const onALine = 1e-9;

/** Centre of a circle through three or more points in the algebraic least-squares sense (Kåsa, IEEE Trans. Instrum. Meas. 25 (1976) 8-14); undefined when they fix none. */
export function circleCentre(points: readonly Vector[]): Vector | undefined {
  const n = points.length;
  if (n < 3) return undefined;
  const mean = points.reduce<Vector>((sum, point) => addScaled(sum, 1 / n, point), [0, 0, 0]);
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
  if (!(determinant > onALine * (uu + vv) ** 2)) return undefined;
  return addScaled(mean, 1, [(ru * vv - rv * uv) / determinant, (rv * uu - ru * uv) / determinant, 0]);
}
