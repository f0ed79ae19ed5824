import type { FrameSolution } from "./solveFrame.ts";

/** Whether the frame of the part, whose sizes are all preferred, was asked to turn: its unknowns are X, Y, Z and the rotation then. */
export function frameTurns({ unknowns }: Pick<FrameSolution, "unknowns">): boolean {
  return unknowns === 4;
}
