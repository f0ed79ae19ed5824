import type { Limits, Round } from "./part.ts";

/** A diameter with its limits, mm: what the maximum-material requirement goes by. */
export interface LimitedSize {
  readonly kind: Round["kind"];
  readonly nominal: number;
  readonly limits: Limits;
}

/**
 * By how much an actual size widens a zone at maximum material, mm: its departure from that size (ASME Y14.5-2009, 7.3.4; ISO 2692). Negative for a size
 * beyond that limit: such a part is no good for its size, and what the boundary of `virtualCondition` leaves it is less than the zone.
 */
export function bonusOf(size: LimitedSize, actual: number): number {
  return size.kind === "bore" ? actual - maximumMaterialSize(size) : maximumMaterialSize(size) - actual;
}

/** Diameter of the boundary at the basic place that the wall must not cross (ISO 2692, maximum material virtual size): size and zone in one. */
export function virtualCondition(size: LimitedSize, zone: number): number {
  return maximumMaterialSize(size) + (size.kind === "bore" ? -zone : zone);
}

/** The size with most metal: the smallest bore, the largest boss (ISO 2692, maximum material size). */
export function maximumMaterialSize({ kind, nominal, limits }: LimitedSize): number {
  return nominal + (kind === "bore" ? limits.lower : limits.upper);
}
