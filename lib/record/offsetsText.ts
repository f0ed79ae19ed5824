import type { SetupEvaluation } from "../decision/setupEvaluation.ts";
import type { OffsetsInForce } from "../offsets/offsetTable.ts";
import { figuresIn } from "./internals/figures.ts";
import { offsetTableText } from "./internals/summariseOffsets.ts";

/** The sums in force as a sheet of plain text, now or as they were after an earlier row. */
export function offsetsText({ setup }: Pick<SetupEvaluation, "setup">, table: OffsetsInForce): string {
  return `${offsetTableText(table, figuresIn(setup.unit)).join("\n")}\n`;
}
