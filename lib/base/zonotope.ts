/**
 * Largest distance from the origin of centre + Σ tᵢ·generatorᵢ with every tᵢ in
 * [-1, 1]: the exact worst case of a position whose sources may act on both
 * coordinates at once. The sum is a centrally symmetric polygon (a zonotope); its
 * corners are met by turning through the generators in the order of their angle.
 */
export function farthestOfZonotope(centre: readonly [number, number], generators: readonly (readonly [number, number])[]): number {
  const upward = generators
    .filter(([x, y]) => x !== 0 || y !== 0)
    .map(([x, y]) => (y < 0 || (y === 0 && x < 0) ? ([-x, -y] as const) : ([x, y] as const)))
    .sort((a, b) => Math.atan2(a[1], a[0]) - Math.atan2(b[1], b[0]));
  // From the corner with all generators reversed, each generator in turn leads to the next corner of one half.
  let x = -upward.reduce((total, generator) => total + generator[0], 0);
  let y = -upward.reduce((total, generator) => total + generator[1], 0);
  const distance = () => Math.max(Math.hypot(centre[0] + x, centre[1] + y), Math.hypot(centre[0] - x, centre[1] - y));
  let farthest = distance();
  for (const [dx, dy] of upward) {
    x += 2 * dx;
    y += 2 * dy;
    farthest = Math.max(farthest, distance());
  }
  return farthest;
}
