import type { PartLocation } from "../../datum/locatePart.ts";
import { measureSizes } from "../../datum/measureSizes.ts";
import { foreseeChecks } from "../../decision/foreseeChecks.ts";
import type { Uncertain } from "../../uncertainty/uncertain.ts";

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
  const { thisPart, sizes, counted, setup } = location;
  if (!thisPart.ok) return [];
  const frame = thisPart.value;
  const bySize = measureSizes(location).flatMap(({ id, nominal, size, difference }): Discrepancy[] => {
    const drawn = sizes.sizes.find((each) => each.id === id);
    const dimension = setup.part.dimensions.find((each) => each.id === id);
    const isLimited =
      dimension !== undefined ||
      setup.part.elements.some((each) => `${each.id}, diameter` === id && "diameterLimits" in each && each.diameterLimits);
    if (drawn === undefined || !isLimited) return [];
    const by = drawn.measured === undefined ? "the drawing" : "its measurement";
    const at = dimension === undefined ? "part.elements" : `part.dimensions.${id}`;
    return [{ name: `"${id}" by touches beside ${by}`, at, value: difference ?? size.minus(nominal).minus(drawn.batch) }];
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
