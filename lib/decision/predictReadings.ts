import { type Axis, axes, turnAboutZ } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import { turnBy, turned } from "../datum/turn.ts";
import type { FrameSolution } from "../frame/solveFrame.ts";
import { certain, sum, type Uncertain } from "../uncertainty/uncertain.ts";

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
 * Predicted readings R = F - a · r of a repeat of every touch along an axis, from
 * this part as all touches together place it. The prediction and the new
 * reading share the tool's radius and the face, and the prediction already rests
 * on the old reading; all of that is in the common computation, so the limits are
 * those of a real check and not a sum of budgets.
 */
export function predictReadings(location: PartLocation): PredictedReading[] {
  const { thisPart } = location;
  if (!thisPart.ok) return [];
  return location.contacts.flatMap((contact) => {
    const predicted = predict(contact, thisPart.value, location);
    return predicted === undefined ? [] : [{ touch: contact.touch, element: contact.element, tool: contact.tool, ...predicted }];
  });
}

function predict(contact: Contact, frame: FrameSolution, { movementsOf }: PartLocation): { axis: Axis; reading: Uncertain } | undefined {
  const { surface, travel, centre, noted, reach, next, scaleError } = contact;
  const index = travel.findIndex((component) => Math.abs(component) === 1);
  if (index !== 0 && index !== 1 && index !== 2) return undefined;
  if (surface.kind !== "plane" || !frame.determined[index]) return undefined;
  const part = frame.inTruth;
  const axis = axes[index] as Axis;
  const [mx, my, mz] = turnAboutZ(surface.outward, part.rotation.value);
  // The face's point that the tool meets, carried out: normal · (tool - origin) = normal · point + reach.
  const shifts = movementsOf(contact).map(({ size, shift }) => {
    const along = shift[0] * surface.outward[0] + shift[1] * surface.outward[1] + shift[2] * surface.outward[2];
    return (part.sizes[size] as Uncertain).times(along);
  });
  const along = sum([
    certain(surface.point[0] * surface.outward[0] + surface.point[1] * surface.outward[1] + surface.point[2] * surface.outward[2]),
    ...shifts,
  ]);
  const normal = turned([certain(surface.outward[0]), certain(surface.outward[1]), certain(surface.outward[2])], turnBy(part.rotation));
  const others = ([0, 1, 2] as const).filter((each) => each !== index);
  if (others.some((each) => Math.abs([mx, my, mz][each] as number) > 0 && !noted[each])) return undefined;
  const aside = sum(others.map((each) => (normal[each] as Uncertain).times(certain(centre[each]).minus(part.origin[each]))));
  const stop = along
    .plus(reach)
    .minus(aside)
    .over(normal[index] as Uncertain)
    .plus(part.origin[index]);
  return { axis, reading: stop.minus(next.advance.plus(scaleError).times(travel[index])) };
}
