import type { PartLocation } from "../../datum/locatePart.ts";
import { foreseeChecks } from "../../decision/foreseeChecks.ts";
import type { Uncertain } from "../../uncertainty/uncertain.ts";
import { sizesKnownTwice } from "../internals/sizesKnownTwice.ts";

/** Two pieces of evidence about the same thing, one less the other: 0 but for doubt where nobody slipped. */
export interface Discrepancy {
  readonly name: string;
  readonly at: string;
  /** mm. */
  readonly value: Uncertain;
}

/**
 * Everything in a setup that is known twice: sizes by touches and otherwise (measured, or as the drawing allows), touches that are more than just
 * enough, and checks beside their predictions.
 */
export function discrepanciesOf(location: PartLocation): Discrepancy[] {
  const { thisPart, counted, setup } = location;
  if (!thisPart.ok) return [];
  const frame = thisPart.value;
  const bySize = sizesKnownTwice(location).map(({ size: { id }, difference, isMeasured }): Discrepancy => {
    const isDimension = setup.part.dimensions.some((each) => each.id === id);
    return {
      name: `"${id}" by touches beside ${isMeasured ? "its measurement" : "the drawing"}`,
      at: isDimension ? `part.dimensions.${id}` : "part.elements",
      value: difference,
    };
  });
  // Without more touches than needed every remainder is 0 whatever was typed.
  const remainders = frame.agreement === undefined ? [] : frame.remainders;
  const byTouch = remainders.map((value, i): Discrepancy => {
    const touch = counted[i]?.touch ?? "";
    return { name: `touch "${touch}" beside the other touches`, at: `touches.${touch}`, value };
  });
  const byCheck = foreseeChecks(setup.checks, location).flatMap((foreseen): Discrepancy[] => {
    if (!foreseen.ok || foreseen.value.difference === undefined) return [];
    const { id } = foreseen.value.check;
    return [{ name: `check "${id}" beside its prediction`, at: `checks.${id}`, value: foreseen.value.difference }];
  });
  return [...bySize, ...byTouch, ...byCheck];
}
