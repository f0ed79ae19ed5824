import type { Problem } from "../base/outcome.ts";
import type { Contact } from "../contacts/contact.ts";
import { isMetFromBehind } from "../frame/contactResidual.ts";
import { type FrameEstimate, poseOf } from "../frame/solveFrame.ts";

/**
 * Flat faces that the tool would have met from within the metal: where touches together turn the part by more than a right angle against the drawing, a face
 * looks the other way than its touch says, and a radius is put on the wrong side. Either the touches name other features than they met, or the part lies
 * otherwise than it is drawn.
 */
export function metFromBehind(contacts: readonly Contact[], frame: Pick<FrameEstimate, "origin" | "rotation">): Problem[] {
  const pose = poseOf(frame);
  return contacts.flatMap((contact): Problem[] => {
    if (!isMetFromBehind(contact, pose)) return [];
    const degrees = Math.round((withinHalfTurn(pose.rotation) * 180) / Math.PI);
    return [
      {
        at: `touches.${contact.touch}.travelling`,
        what: `all touches together have the part lie turned by ${degrees} degrees, and there a tool on this way would come to "${contact.element}" out of the metal`,
        remedy: "look at the features that the touches name, or state the elements as they look on the machine",
      },
    ];
  });
}

function withinHalfTurn(angle: number): number {
  return Math.atan2(Math.sin(angle), Math.cos(angle));
}
