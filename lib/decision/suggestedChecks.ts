import { type AxisDirection, opposite } from "../base/vector.ts";
import type { Setup } from "../datum/setup.ts";
import { touchedForZero } from "./judgeChecks.ts";

/** A face that is worth a check, with the tool at hand for it. */
export interface SuggestedCheck {
  readonly element: string;
  readonly travelling: AxisDirection;
  readonly tool: string;
  /** Whether the zero in use rests on a touch of it: such a check sees less. */
  readonly usedForZero: boolean;
}

/** Every flat face that no check looks at yet, with the tool that last touched that way; those that the zero in use does not rest on come first. */
export function suggestedChecks(setup: Setup): SuggestedCheck[] {
  const { part, tools, touches, checks } = setup;
  const rests = touchedForZero(setup);
  const found = part.elements.flatMap((element): SuggestedCheck[] => {
    if (element.kind !== "face" || element.made !== "before" || element.outward === "-Z") return [];
    if (checks.some((check) => check.element === element.id)) return [];
    const travelling = opposite(element.outward);
    const isDown = travelling === "-Z";
    const like = touches.filter((touch) => touch.travelling !== "sweep" && (touch.travelling === "-Z") === isDown).at(-1)?.tool;
    const tool = like ?? tools.find(({ radius, length }) => (isDown ? length : radius) !== undefined)?.id;
    return tool === undefined ? [] : [{ element: element.id, travelling, tool, usedForZero: rests.has(element.id) }];
  });
  return [...found.filter(({ usedForZero }) => !usedForZero), ...found.filter(({ usedForZero }) => usedForZero)];
}
