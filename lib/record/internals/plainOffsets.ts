import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import type { CoordinateInForce, OffsetPart, OffsetsEvaluation, RegisterInForce } from "../../offsets/offsetTable.ts";
import type { Budget } from "../../uncertainty/budget.ts";
import { writtenOffsets } from "../writtenOffsets.ts";
import { plainOutcome } from "./plainProblem.ts";
import { plainQuantity } from "./plainQuantity.ts";

/** What is in force in the controller's offsets, and the rows of the log that it comes from. Lengths in mm, turns in radians. */
export function plainOffsets(evaluation: Pick<SetupEvaluation, "setup">, offsets: OffsetsEvaluation) {
  return {
    registers: offsets.registers.map(plainRegister),
    lastRow: offsets.history.rows.at(-1)?.id ?? null,
    notes: offsets.history.notes.map(({ row, text }) => ({ row, text })),
    lines: plainOutcome(writtenOffsets(evaluation, offsets), (lines) => [...lines]),
  };
}

function plainRegister({ register, nest, coordinates: [x, y, z, turn] }: RegisterInForce) {
  const lengths = (coordinate: CoordinateInForce) => plainCoordinate(coordinate, "mm");
  return { register, nest: nest === "" ? null : nest, X: lengths(x), Y: lengths(y), Z: lengths(z), turn: plainCoordinate(turn, "rad") };
}

function plainCoordinate({ measured, corrections, localShift, globalShift, held, sum, doubtStated }: CoordinateInForce, unit: string) {
  const part = (each: OffsetPart | undefined) => (each === undefined ? null : { row: each.row, ...plainQuantity(each.budget, unit) });
  const quantity = (budget: Budget) => plainQuantity(budget, unit);
  return {
    measured: part(measured),
    corrections: corrections.map(part),
    localShift: part(localShift),
    globalShift: part(globalShift),
    held: plainOutcome(held, quantity),
    sum: plainOutcome(sum, quantity),
    // Where the measured zero states no doubt, the uncertainty of the sums is only that of the other rows.
    doubtStated,
  };
}
