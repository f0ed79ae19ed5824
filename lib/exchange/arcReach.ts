/** How far a part of a circle reaches along X and Y. */
export interface ArcReach {
  readonly x: readonly [low: number, high: number];
  readonly y: readonly [low: number, high: number];
}

type Point = readonly [x: number, y: number];

const turn = 2 * Math.PI;

/**
 * The reach of an arc about a centre, anticlockwise from one angle to the other: its ends, and those of the four outermost points of its circle that it passes.
 *
 * @param from radians; @param to radians, a whole turn where both are the same
 */
export function reachOfArc([x, y]: Point, radius: number, from: number, to: number): ArcReach {
  const sweep = (((to - from) % turn) + turn) % turn || turn;
  const passed = [0, 1, 2, 3].map((quarter) => (quarter * Math.PI) / 2).filter((angle) => (((angle - from) % turn) + turn) % turn <= sweep);
  const points = [from, from + sweep, ...passed].map((angle) => [x + radius * Math.cos(angle), y + radius * Math.sin(angle)] as const);
  return reachOf(points);
}

/** The radius and the reach of an arc from point to point whose bulge is the tangent of a quarter of its angle, above 0 anticlockwise. */
export function reachOfBulge(from: Point, to: Point, bulge: number): { readonly radius: number; readonly reach: ArcReach } {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const radius = (Math.hypot(dx, dy) * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
  // Half-way, and from there square to the chord, to its left.
  const aside = (1 - bulge * bulge) / (4 * bulge);
  const centre: Point = [(from[0] + to[0]) / 2 - aside * dy, (from[1] + to[1]) / 2 + aside * dx];
  const angleOf = ([x, y]: Point) => Math.atan2(y - centre[1], x - centre[0]);
  const [start, end] = bulge > 0 ? [from, to] : [to, from];
  return { radius, reach: reachOfArc(centre, radius, angleOf(start), angleOf(end)) };
}

function reachOf(points: readonly Point[]): ArcReach {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return { x: [Math.min(...xs), Math.max(...xs)], y: [Math.min(...ys), Math.max(...ys)] };
}
