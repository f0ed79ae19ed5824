import { addScaled } from "../base/vector.ts";
import { contactResidual, type Pose } from "../frame/contactResidual.ts";
import type { FrameContact } from "../frame/solveFrame.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import type { PartSize } from "./partSizes.ts";

const maximumIterations = 20;
/** A tool this near to its stop, mm, stands there. */
const placed = 1e-12;

/** The readings that the same touches would give on a part out of the batch, see `simulateReading`. */
export function simulateReadings(contacts: readonly FrameContact[], sizes: readonly PartSize[], pose: Pose): FrameContact[] {
  return contacts.map((contact) => ({ ...contact, ...simulateReading(contact, sizes, pose) }));
}

/** What is other about a touch of a part out of the batch. */
export type SimulatedReading = Pick<FrameContact, "centre" | "advance" | "reach" | "scaleError">;

/**
 * The reading that the same touch would give on a part out of the batch that
 * lies where this one lies: the tool stops where it meets the true surface (sizes
 * as they vary, reach and errors as they are), and the setter corrects by the
 * estimated reach. The estimate is the nominal part; the doubt of a reading is
 * first-order in the sources.
 *
 * @param contact whose movements are by `sizes`, and by others that are as drawn
 */
export function simulateReading(contact: FrameContact, sizes: readonly PartSize[], pose: Pose): SimulatedReading {
  const nominal = new Float64Array(Math.max(sizes.length, ...contact.movements.map(({ size }) => size + 1)));
  const lengths = new Float64Array([0, contact.reach.value]);
  let { centre } = contact;
  let residual = contactResidual(contact, pose, nominal, lengths);
  for (let i = 0; i < maximumIterations && residual !== undefined && Math.abs(residual.value) > placed; i++) {
    centre = addScaled(centre, -residual.value / residual.byAdvance, contact.travel);
    residual = contactResidual({ ...contact, centre }, pose, nominal, lengths);
  }
  if (residual === undefined) throw new Error("simulateReading: expected a tool off the axis of its round wall");
  const { byAdvance, byReach, gradient } = residual;
  // residual + byAdvance · (reading + advance) + Σ gradient · size + byReach · (reach - its estimate) = 0, solved for the reading.
  const reach = contact.reach.value;
  const stop = sizes.reduce<Uncertain>(
    (total, { batch }, s) => ((gradient[4 + s] as number) === 0 ? total : total.minus(batch.times(gradient[4 + s] as number))),
    contact.reach.minus(reach - (contact.unforeseen ?? 0)).times(-byReach),
  );
  const errors = contact.advance.plus(contact.scaleError ?? 0);
  return { centre, advance: stop.over(byAdvance).minus(errors), reach: certain(reach), scaleError: certain(0) };
}
