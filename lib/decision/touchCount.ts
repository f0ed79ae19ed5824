import type { StrategySolution } from "../datum/solveStrategy.ts";

/** How many touches a strategy takes: a touch in one place counts once, however often it was read; none where zero stays in a fixture's frame. */
export function touchCount({ contacts }: StrategySolution): number {
  return new Set(contacts.map(({ touch }) => touch)).size;
}
