import type { Problem } from "../base/outcome.ts";
import { turnAboutZ, type Vector } from "../base/vector.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import { type Extent, extentAlong } from "../part/extentAlong.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";

/** What lies beyond the part by more than this, mm, or by this share of its size, is not on it: sizes of blanks, and places noted in passing (common practice, no source). */
const beside = 5;
const share = 0.1;

/**
 * Touches on the part and locators that stand where the part is not: a slip in a place, which makes a turn of nothing or hides one. Looked at along X and Y,
 * where the drawing says how far the part reaches; touches only where those that were taken tell where it lies.
 */
export function placesOffPart({ setup, located, contacts, thisPart }: PartLocation): Problem[] {
  return (["X", "Y"] as const).flatMap((axis, i) => {
    const extent = extentAlong(setup.part, located, axis);
    if (extent === undefined) return [];
    const touches = contacts.flatMap(({ touch, element, metal, travel }): Problem[] => {
      if (!thisPart.ok || !thisPart.value.determined[i] || !metal.known[i] || travel[i] !== 0) return [];
      const { origin, rotation } = thisPart.value;
      const from = metal.place.map((value, k) => value - (origin[k] as Uncertain).value) as unknown as Vector;
      const off = beyond(turnAboutZ(from, -rotation.value)[i] as number, extent);
      if (off === 0) return [];
      return [
        {
          at: `touches.${touch}.${axis.toLowerCase()}`,
          what: `there the tool stood ${off.toFixed(0)} mm beyond the end of the part along ${axis}, so it cannot have met "${element}"`,
          remedy: `look for a slip in the ${axis} of the touch, or in the sizes of the part`,
        },
      ];
    });
    const locators = setup.fixture.locators.flatMap(({ id, kind, at }): Problem[] => {
      const place = at[i];
      const off = place === undefined || kind === "tooling hole" ? 0 : beyond(place, extent);
      if (off === 0) return [];
      return [
        {
          at: `fixture.locators.${id}.${axis.toLowerCase()}`,
          what: `there it stands ${off.toFixed(0)} mm beyond the end of the part along ${axis}, so it cannot hold it`,
          remedy: "correct the place, or the sizes of the part",
        },
      ];
    });
    return [...touches, ...locators];
  });
}

/** How far a place lies beyond an extent, mm; 0 within it, and a little beside. */
function beyond(place: number, { low, high }: Extent): number {
  const off = Math.max(low - place, place - high);
  return off > Math.max(beside, share * (high - low)) ? off : 0;
}
