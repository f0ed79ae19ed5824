import { addScaled } from "../base/vector.ts";
import { contactResidual, type Pose } from "../frame/contactResidual.ts";
import type { FrameContact } from "../frame/solveFrame.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import type { PartSize } from "./partSizes.ts";

const maximumIterations = 20;
/** A tool this near to its stop, mm, stands there. */
const placed = 1e-12;

/**
 * The readings that the same touches would give on a part out of the batch that
 * lies where this one lies: the tool stops where it meets the true surface (sizes
 * as they vary, reach and errors as they are), and the setter corrects by the
 * estimated reach. The estimate is the nominal part; the doubt of a reading is
 * first-order in the sources.
 */
export function simulateReadings(contacts: readonly FrameContact[], sizes: readonly PartSize[], pose: Pose): FrameContact[] {
  const nominal = new Float64Array(sizes.length + contacts.length);
  return contacts.map((contact) => {
    const reach = contact.reach.value;
    let { centre } = contact;
    let residual = contactResidual(contact, pose, nominal, new Float64Array([0, reach]));
    for (let i = 0; i < maximumIterations && residual !== undefined && Math.abs(residual.value) > placed; i++) {
      centre = addScaled(centre, -residual.value / residual.byAdvance, contact.travel);
      residual = contactResidual({ ...contact, centre }, pose, nominal, new Float64Array([0, reach]));
    }
    if (residual === undefined) throw new Error("simulateReadings: expected a tool off the axis of its round wall");
    const { byAdvance, byReach, gradient } = residual;
    // residual + byAdvance · (reading + advance) + Σ gradient · size + byReach · (reach - its estimate) = 0, solved for the reading.
    const stop = sizes.reduce<Uncertain>(
      (total, { batch }, s) => total.minus(batch.times(gradient[4 + s] as number)),
      contact.reach.minus(reach - (contact.unforeseen ?? 0)).times(-byReach),
    );
    const errors = contact.advance.plus(contact.scaleError ?? 0);
    return { ...contact, centre, advance: stop.over(byAdvance).minus(errors), reach: certain(reach), scaleError: certain(0) };
  });
}
