import type { Tool } from "../equipment/equipment.ts";
import type { Setup } from "./setup.ts";
import type { Strategy } from "./strategy.ts";

/** What it takes to carry a strategy out. */
export interface Effort {
  /** Places that are touched. */
  readonly touches: number;
  /** Readings that are taken there, repeats counted. */
  readonly readings: number;
  /** Rough time for all readings, minutes; without changes of tools and thinking. */
  readonly minutes: number;
  /** Whether the time of a touch is stated for every tool that is used; else some of it is a shop default. */
  readonly isStated: boolean;
}

/**
 * Minutes for one reading, the way to it and the note of it included, by kind of tool: shop defaults, common practice without a source, there to be
 * replaced by the shop's own.
 */
export const usualMinutes: Readonly<Record<Tool["kind"], number>> = {
  "turning edge finder": 1,
  "touch probe": 0.25,
  "tool or pin": 1,
  "swept indicator": 3,
};

/** Touches that cannot be read count none; those whose tool is not known take no time, and leave the time not stated. */
export function effortOf({ touches: wanted }: Strategy, { touches, planned, tools }: Pick<Setup, "touches" | "planned" | "tools">): Effort {
  const own = [...touches, ...planned.map((touch) => ({ ...touch, positions: [touch.place] }))].filter(({ id }) => wanted.includes(id));
  let minutes = 0;
  let readings = 0;
  let isStated = true;
  for (const { tool: id, positions } of own) {
    const tool = tools.find((each) => each.id === id);
    isStated &&= tool?.touchMinutes !== undefined;
    readings += positions.length;
    minutes += positions.length * (tool === undefined ? 0 : (tool.touchMinutes ?? usualMinutes[tool.kind]));
  }
  return { touches: own.length, readings, minutes, isStated };
}
