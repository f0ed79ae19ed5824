import { dot, unitVector, type Vector } from "../../base/vector.ts";
import { type PartLocation, takenContacts } from "../../datum/locatePart.ts";
import type { Setup } from "../../datum/setup.ts";
import { normalOf } from "../../part/part.ts";
import type { Touch } from "../../readings/touch.ts";

/** One touch or check at which somebody may have slipped. */
export interface TakenReading {
  /** `touches.left` or `checks.back`. */
  readonly at: string;
  readonly kind: "touches" | "checks";
  readonly touch: Touch;
  /** Unit vector along which the tool travelled, machine axes. */
  readonly travel: Vector;
  /** How far along the travel one mm of the tool's radius, of its length and of a block between moves the metal: 1 or 0 where the travel is square to the face. */
  readonly shares: { readonly radius: number; readonly length: number; readonly block: number };
}

/** Every touch that this part rests on and every check with a reading. A swept indicator has no travel along which it could be off. */
export function takenReadings(location: PartLocation): TakenReading[] {
  const { setup } = location;
  const contacts = takenContacts(location);
  const touches = setup.touches.flatMap((touch): TakenReading[] => {
    const contact = contacts.find((each) => each.touch === touch.id);
    return contact === undefined || contact.surface.kind === "axis"
      ? []
      : [
          {
            at: `touches.${touch.id}`,
            kind: "touches",
            touch,
            travel: contact.travel,
            shares: sharesOf(touch.element, contact.travel, location),
          },
        ];
  });
  const checks = setup.checks.flatMap((check): TakenReading[] => {
    const travel = unitVector(check.travelling);
    return check.positions.length === 0
      ? []
      : [{ at: `checks.${check.id}`, kind: "checks", touch: check, travel, shares: sharesOf(check.element, travel, location) }];
  });
  return [...touches, ...checks];
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

/** An angled face is one reach off along its normal n, 1/(-n · travel) as much along the travel; an inclined one by (1 - n_z) r + n_z L (`makeContacts`). */
function sharesOf(id: string, travel: Vector, { setup }: PartLocation): TakenReading["shares"] {
  const element = setup.part.elements.find((each) => each.id === id);
  if (element?.kind !== "angled face") return travel[2] === 0 ? { radius: 1, length: 0, block: 1 } : { radius: 0, length: 1, block: 1 };
  const normal = normalOf(element);
  const steep = -dot(normal, travel);
  return { radius: (1 - normal[2]) / steep, length: normal[2] / steep, block: 1 / steep };
}
