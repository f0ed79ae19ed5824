import type { Axis } from "../base/vector.ts";
import { type PartLocation, takenContacts } from "../datum/locatePart.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { predictStop } from "./predictStop.ts";

/** What the display must show when a face is touched again with the same tool. */
export interface PredictedReading {
  readonly touch: string;
  readonly element: string;
  readonly tool: string;
  readonly axis: Axis;
  /** Machine coordinate, mm. Its doubt is that of one new reading against this prediction: what both share has cancelled. */
  readonly reading: Uncertain;
}

/**
 * Predicted readings R = F - a · r of a repeat of every touch of a flat face along an axis, from
 * this part as all touches together place it. The prediction and the new
 * reading share the tool's radius and the face, and the prediction already rests
 * on the old reading; all of that is in the common computation, so the limits are
 * those of a real check and not a sum of budgets.
 */
export function predictReadings(location: PartLocation): PredictedReading[] {
  return takenContacts(location).flatMap((contact) => {
    const { touch, element, tool, surface, next } = contact;
    if (surface.kind !== "plane") return [];
    const predicted = predictStop({ ...contact, ...next }, location, `touches.${touch}`);
    return predicted.ok ? [{ touch, element, tool, axis: predicted.value.axis, reading: predicted.value.reading }] : [];
  });
}
