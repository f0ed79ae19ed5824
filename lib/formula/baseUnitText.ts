import type { Dimension } from "./dimension.ts";

/** The unit of a dimension inside the library: mm, rad, K, and products of their powers, such as `mm^2` and `mm/K`; `1` for a number. */
export function baseUnitText({ length, angle, temperature }: Dimension): string {
  const parts = [
    ["mm", length],
    ["rad", angle],
    ["K", temperature],
  ] as const;
  const text = (sign: 1 | -1) =>
    parts.flatMap(([unit, power]) => (sign * power > 0 ? [Math.abs(power) === 1 ? unit : `${unit}^${Math.abs(power)}`] : []));
  const below = text(-1);
  return `${text(1).join("*") || "1"}${below.map((unit) => `/${unit}`).join("")}`;
}
