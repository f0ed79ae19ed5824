import type { Fixture } from "../equipment/fixture.ts";
import { type AxisSigns, turnedDirection, turnedPart, turnedPlace } from "../part/partLies.ts";
import type { Operation } from "./earlierWork.ts";
import type { Setup } from "./setup.ts";
import type { ZeroPlace } from "./strategy.ts";

/**
 * A setup as one of several operations: what is said of the part (elements, places of zero and of moves, locators, clamps) is said in the drawing's frame and is
 * carried into the axes of the machine, as the part lies there; what the machine shows (readings, directions of travel) is the machine's already.
 *
 * @param unknown elements of earlier operations of which nobody can tell where they are
 */
export function operationSetup(setup: Setup, operation: Operation, unknown: readonly string[]): Setup {
  const { signs } = operation;
  const part = turnedPart(setup.part, signs);
  return {
    ...setup,
    part: { ...part, elements: part.elements.filter(({ id }) => !unknown.includes(id)) },
    machine: { ...setup.machine, operation: operation.id },
    fixture: turnedFixture(setup.fixture, signs),
    strategies: setup.strategies.map((strategy) => {
      const [x, y, z] = strategy.zero;
      return { ...strategy, zero: [turnedZero(x, signs[0]), turnedZero(y, signs[1]), turnedZero(z, signs[2])] as const };
    }),
    checkMoves: setup.checkMoves.map((move) => ({ ...move, place: turnedPlace(move.place, signs) })),
    unread: new Set([...setup.unread, ...unknown.map((id) => `part.elements.${id}`)]),
    operation,
  };
}

/** Where part zero sits along an axis of the machine that may point against the drawing's. */
export function turnedZero(zero: ZeroPlace, sign: 1 | -1): ZeroPlace {
  return zero.kind === "element" || sign === 1 || zero.value === 0 ? zero : { ...zero, value: -zero.value as typeof zero.value };
}

function turnedFixture(fixture: Fixture, signs: AxisSigns): Fixture {
  type Place = Fixture["clamps"][number]["at"];
  return {
    ...fixture,
    locators: fixture.locators.map((locator) => ({
      ...locator,
      at: locator.at.map((value, axis) =>
        value === undefined || signs[axis] === 1 || value === 0 ? value : -value,
      ) as unknown as typeof locator.at,
      facing: locator.facing && turnedDirection(locator.facing, signs),
    })),
    clamps: fixture.clamps.map((clamp) => ({
      ...clamp,
      at: turnedPlace(clamp.at, signs) as unknown as Place,
      pressing: turnedDirection(clamp.pressing, signs),
    })),
    seatTouches: fixture.seatTouches.map((touch) => {
      const [x, y] = turnedPlace([touch.x, touch.y, 0], signs);
      return { ...touch, x: x as typeof touch.x, y: y as typeof touch.y };
    }),
  };
}
