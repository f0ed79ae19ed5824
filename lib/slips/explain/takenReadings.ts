import { unitVector, type Vector } from "../../base/vector.ts";
import { type PartLocation, takenContacts } from "../../datum/locatePart.ts";
import type { Setup } from "../../datum/setup.ts";
import type { Touch } from "../../readings/touch.ts";

/** One touch or check at which somebody may have slipped. */
export interface TakenReading {
  /** `touches.left` or `checks.back`. */
  readonly at: string;
  readonly kind: "touches" | "checks";
  readonly touch: Touch;
  /** Unit vector along which the tool travelled, machine axes. */
  readonly travel: Vector;
}

/** Every touch that this part rests on and every check with a reading. A swept indicator has no travel along which it could be off. */
export function takenReadings(location: PartLocation): TakenReading[] {
  const { setup } = location;
  const contacts = takenContacts(location);
  const touches = setup.touches.flatMap((touch): TakenReading[] => {
    const contact = contacts.find((each) => each.touch === touch.id);
    return contact === undefined || contact.surface.kind === "axis"
      ? []
      : [{ at: `touches.${touch.id}`, kind: "touches", touch, travel: contact.travel }];
  });
  const checks = setup.checks.flatMap((check): TakenReading[] =>
    check.positions.length === 0 ? [] : [{ at: `checks.${check.id}`, kind: "checks", touch: check, travel: unitVector(check.travelling) }],
  );
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
