import { type Axis, indexOfAxis, turnAboutZ, unitVector, type Vector } from "../base/vector.ts";
import type { ReadingsSolution } from "./solveStrategy.ts";

type Turned = Pick<ReadingsSolution, "appliesRotation" | "fromReadings">;

/** A part is never quite square to the machine: of a direction across another, less than this share is nothing (0.6 degrees). */
export const leastShare = 0.01;

/** An axis of the drawing in the machine's coordinates: as the part is found where the programme is turned with it, otherwise the same axis. */
export function drawingAxisInMachine(axis: Axis, { appliesRotation, fromReadings }: Turned): Vector {
  return turnAboutZ(unitVector(`+${axis}`), appliesRotation ? fromReadings.rotation.value : 0);
}

/** How much of a step along an axis of the machine goes along one of the drawing, from 0 to 1; without a strategy the axes are taken for the same. */
export function shareAlong(drawing: Axis, machine: Axis, solution: Turned | undefined): number {
  if (solution === undefined) return drawing === machine ? 1 : 0;
  const share = Math.abs(drawingAxisInMachine(drawing, solution)[indexOfAxis(machine)]);
  return share < leastShare ? 0 : share;
}
