import { dot, type Vector } from "../../base/vector.ts";
import type { Contact } from "../../contacts/contact.ts";
import { outwardOf } from "../../contacts/outwardOf.ts";
import { type PartLocation, takenContacts } from "../../datum/locatePart.ts";
import type { Setup } from "../../datum/setup.ts";
import { checkContact } from "../../decision/foreseeChecks.ts";
import { outwardInMachine } from "../../frame/contactResidual.ts";
import { poseOf } from "../../frame/solveFrame.ts";
import type { Touch } from "../../readings/touch.ts";

/** How far along the travel one mm of the tool's radius, of its length and of a block between moves the metal: 1 or 0 where the travel is square to the face. */
export interface ReachShares {
  readonly radius: number;
  readonly length: number;
  readonly block: number;
}

/** One touch or check at which somebody may have slipped. */
export interface TakenReading {
  /** `touches.left` or `checks.back`. */
  readonly at: string;
  readonly kind: "touches" | "checks";
  readonly touch: Touch;
  /** Unit vector along which the tool travelled, machine axes. */
  readonly travel: Vector;
  /** As the part lies, turned or not. */
  readonly shares: ReachShares;
  /** As somebody corrects by hand, who knows the drawing's angle and not how the part is turned. */
  readonly sharesByHand: ReachShares;
}

/** Every touch that this part rests on and every check that is foreseen and has a reading. A swept indicator has no travel along which it could be off. */
export function takenReadings(location: PartLocation): TakenReading[] {
  const { setup } = location;
  const contacts = takenContacts(location);
  const touches = setup.touches.flatMap((touch) =>
    takenReading(
      "touches",
      touch,
      contacts.find((each) => each.touch === touch.id),
      location,
    ),
  );
  const checks = setup.checks.flatMap((check) => {
    const contact = check.positions.length === 0 ? undefined : checkContact(check, location);
    return contact?.ok ? takenReading("checks", check, contact.value, location) : [];
  });
  return [...touches, ...checks];
}

function takenReading(kind: TakenReading["kind"], touch: Touch, contact: Contact | undefined, location: PartLocation): TakenReading[] {
  if (contact === undefined || contact.surface.kind === "axis") return [];
  const { travel } = contact;
  const sharesByHand = reachShares(outwardOf(contact, 0), travel);
  const shares = sharesAsItLies(contact, location) ?? sharesByHand;
  return [{ at: `${kind}.${touch.id}`, kind, touch, travel, shares, sharesByHand }];
}

/** What a reach does along the travel as this part lies; undefined where nobody knows how it does. */
export function sharesAsItLies(contact: Contact, { thisPart }: PartLocation): ReachShares | undefined {
  const outward = thisPart.ok ? outwardInMachine(contact, poseOf(thisPart.value)) : undefined;
  return outward && reachShares(outward, contact.travel);
}

/**
 * A surface is one reach off along its normal n, 1/(-n · travel) as much along the travel; one that is inclined by (1 - n_z) r + n_z L (`makeContacts`).
 *
 * @param outward n, in the axes of the travel
 */
function reachShares(outward: Vector, travel: Vector): ReachShares {
  const steep = -dot(outward, travel);
  return { radius: (1 - outward[2]) / steep, length: outward[2] / steep, block: 1 / steep };
}

/** The setup as it would be if readings had been written down otherwise: by reading, mm along its travel. */
export function withShifts(setup: Setup, taken: readonly TakenReading[], shifts: ReadonlyMap<number, number>): Setup {
  const moved = new Map([...shifts].map(([i, shift]) => [taken[i]?.at, { shift, travel: taken[i]?.travel as Vector }]));
  const move = <T extends Touch>(touch: T, kind: TakenReading["kind"]): T => {
    const by = moved.get(`${kind}.${touch.id}`);
    if (by === undefined) return touch;
    const positions = touch.positions.map((position) =>
      position.map((value, axis) =>
        value === undefined || by.travel[axis] === 0 ? value : value + by.shift * (by.travel[axis] as number),
      ),
    ) as unknown as Touch["positions"];
    return { ...touch, positions };
  };
  return {
    ...setup,
    touches: setup.touches.map((touch) => move(touch, "touches")),
    checks: setup.checks.map((check) => move(check, "checks")),
  };
}
