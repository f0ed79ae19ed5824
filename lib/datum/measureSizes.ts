import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { PartLocation } from "./locatePart.ts";

/** A size of this part that the touches determine. */
export interface MeasuredSize {
  readonly id: string;
  readonly nominal: number;
  /** By the touches, mm. */
  readonly size: Uncertain;
  /** Touches less the measurement by other means, where there is one; its doubt includes what both share (nothing, as a rule). */
  readonly difference: Uncertain | undefined;
}

/** Sizes that redundant touches have measured on the way, and how they agree with what was measured otherwise. */
export function measureSizes({ thisPart, sizes }: PartLocation): MeasuredSize[] {
  if (!thisPart.ok) return [];
  return sizes.sizes.flatMap(({ id, kind, nominal, measured }, i) => {
    const deviation = thisPart.value.sizes[i];
    if (deviation === undefined || !thisPart.value.sizesDetermined[i] || kind === "turn") return [];
    return [{ id, nominal, size: deviation.plus(nominal), difference: measured && deviation.minus(measured) }];
  });
}
