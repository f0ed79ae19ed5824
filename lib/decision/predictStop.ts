import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Axis, addScaled, axes, turnAboutZ } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import { isLevel } from "../contacts/surface.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import { isAskew } from "../datum/tilt.ts";
import { contactResidual, poseUnknowns } from "../frame/contactResidual.ts";
import { poseOf } from "../frame/solveFrame.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";

/** Where a tool must stop, by this part as all touches together place it. */
export interface StopPrediction {
  readonly axis: Axis;
  /** Index of the axis. */
  readonly index: 0 | 1 | 2;
  /** Machine coordinate, mm, with all doubt of the part, the tool and this touch. */
  readonly reading: Uncertain;
}

const maximumIterations = 20;
/** A tool this near to its stop, mm, stands there. */
const placed = 1e-12;
/** A share of the travel by which another axis counts less than this is rounding. */
const aside = 1e-12;

/**
 * The machine coordinate at which a tool on its way along an axis meets its surface. The equation behind every touch (`contactResidual`) is solved for
 * the place of the tool, and its derivatives carry the doubt of the part, its sizes, the reach and the advance into the reading, to first order; whatever
 * they share with the touches that place the part goes out by itself.
 *
 * @param touching the touch; its centre along the travel is only where the search starts
 */
export function predictStop(touching: Contact, location: PartLocation, at: string): Outcome<StopPrediction> {
  const { thisPart, sizes } = location;
  if (!thisPart.ok) return thisPart;
  const standing = location.standing(touching);
  if (!standing.ok) return standing;
  const contact = standing.value;
  const { travel, noted, surface, element, reach, advance, scaleError } = contact;
  const index = travel.findIndex((component) => Math.abs(component) === 1);
  if ((index !== 0 && index !== 1 && index !== 2) || surface.kind === "axis")
    return failure({ at, what: "only a touch along one axis can be foreseen" });
  const frame = thisPart.value;
  const part = frame.inTruth;
  const pose = poseOf(part);
  const found = Float64Array.from(part.sizes, ({ value }) => value);
  const lengths = new Float64Array([0, reach.value]);
  // What an earlier operation has cut turned moves by where it is met.
  const met = sizes.indexOfTurn(element) !== undefined ? turnAboutZ(addScaled(contact.centre, -1, pose.origin), -pose.rotation) : undefined;
  const geometry = { surface, travel, movements: sizes.movementsOf(element, met), weight: 1 };
  let { centre } = contact;
  let residual = contactResidual({ ...geometry, centre }, pose, found, lengths);
  for (let i = 0; i < maximumIterations && residual !== undefined && Math.abs(residual.value) > placed; i++) {
    centre = addScaled(centre, -residual.value / residual.byAdvance, travel);
    residual = contactResidual({ ...geometry, centre }, pose, found, lengths);
  }
  if (residual === undefined || !(Math.abs(residual.byAdvance) > aside) || !Number.isFinite(centre[index]))
    return failure({ at, what: "the tool does not meet this surface on its way", remedy: "look at where it stands on the other axes" });
  const { gradient, byAdvance, byReach } = residual;
  const open = ([0, 1, 2] as const).find(
    (axis) =>
      axis !== index && !noted[axis] && (Math.abs(gradient[axis] as number) > aside || (frame.turnsByTouches && index !== 2 && axis !== 2)),
  );
  if (open !== undefined)
    return failure({
      at: `${at}.${(axes[open] as Axis).toLowerCase()}`,
      what: `the ${axes[open]} where the face is touched must be known, since the part is turned or the wall is round`,
      got: "",
      remedy: `note the ${axes[open]} of the touch`,
    });
  const askew = openOnTilt(contact, location);
  if (askew !== undefined)
    return failure({
      at: `${at}.${askew.toLowerCase()}`,
      what: `the ${askew} where the face is touched must be known, since the part lies askew in height`,
      got: "",
      remedy: `note the ${askew} of the touch`,
    });
  const lost = ([0, 1, 2] as const).find((axis) => Math.abs(gradient[axis] as number) > aside && !frame.determined[axis]);
  if (lost !== undefined)
    return failure({
      at,
      what: `no touch fixes ${axes[lost]}, so nothing is foreseen there`,
      remedy: `add a touch that meets the part along ${axes[lost]}`,
    });
  // Each enters by its share; the rest of the coordinate is a plain number. Along an axis that share is 1, and nothing more has to be worked out.
  let reading = advance.plus(scaleError).times(-travel[index]);
  let known = centre[index];
  const add = (value: Uncertain, share: number): void => {
    if (share === 0) return;
    reading = reading.plus(value.times(share));
    known -= share * value.value;
  };
  const side = travel[index] / byAdvance;
  for (let k = 0; k < 3; k++) add(part.origin[k] as Uncertain, -(gradient[k] as number) * side);
  if (frame.turnsByTouches) add(part.rotation, -(gradient[3] as number) * side);
  part.sizes.forEach((size, k) => {
    add(size, -(gradient[poseUnknowns + k] as number) * side);
  });
  add(reach, -byReach * side);
  return success({ axis: axes[index] as Axis, index, reading: reading.plus(known) });
}

/** On a part that lies askew, a face that is level on the drawing is met higher here and lower there. */
function openOnTilt({ surface, metal: { known } }: Contact, { tilt }: PartLocation): Axis | undefined {
  if (tilt === undefined || !isLevel(surface) || (known[0] && known[1]) || !isAskew(tilt)) return undefined;
  return known[0] ? "Y" : "X";
}
