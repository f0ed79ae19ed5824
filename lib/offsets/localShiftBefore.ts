import { type OffsetCoordinate, offsetCoordinates } from "../equipment/offsetLog.ts";
import type { LoggedValue, OffsetHistory, OffsetTable } from "./offsetHistory.ts";

/** What a new local shift of a register finds there. */
export interface LocalShiftBefore {
  /** What is in force and not 0, mm and radians. */
  readonly inForce: readonly { readonly coordinate: OffsetCoordinate; readonly entry: LoggedValue }[];
  /** Coordinates of which the new shift must say 0, since it says nothing of them otherwise and the one before may have moved them. */
  readonly toEnd: readonly OffsetCoordinate[];
}

/**
 * The local shift that a new one takes the place of. A row of the log changes the coordinates that it states and no other, so that a shift of X and Y alone
 * would leave an earlier turn in force.
 *
 * @param states the coordinates that the new shift states
 */
export function localShiftBefore(
  history: OffsetHistory | undefined,
  register: string,
  states: readonly OffsetCoordinate[],
): LocalShiftBefore {
  const table: OffsetTable | undefined = history?.tables.at(-1);
  const state = table?.registers.get(register);
  const isKnown = (state?.unread.length ?? 0) === 0 && (table?.unread.length ?? 0) === 0;
  const inForce = offsetCoordinates.flatMap((coordinate, i) => {
    const entry = state?.localShift[i as 0 | 1 | 2 | 3];
    return entry === undefined || entry.value.value === 0 ? [] : [{ coordinate, entry }];
  });
  const moved = isKnown ? inForce.map(({ coordinate }) => coordinate) : offsetCoordinates;
  return { inForce, toEnd: moved.filter((coordinate) => !states.includes(coordinate)) };
}
