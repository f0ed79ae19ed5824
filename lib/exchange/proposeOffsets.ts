import { axes } from "../base/vector.ts";
import { blankEntries } from "../document/blankEntries.ts";
import type { SetupDocument } from "../document/setupDocument.ts";
import { lengthEntry } from "./lengthText.ts";
import { freeName, type ProposedLine } from "./proposal.ts";
import type { ReadRegister } from "./readMtconnect.ts";

/**
 * Registers as the control holds them, as rows of the log of offsets. Each asks: what a control holds is a sum, and only a person knows whether nothing but a measured
 * zero is in it. Where the log has the register already, comparing comes first.
 */
export function proposeOffsets(registers: readonly ReadRegister[], when: string, document: SetupDocument): readonly ProposedLine[] {
  return registers.map(({ at, register, values }, i): ProposedLine => {
    const places = axes.flatMap((axis) => {
      const value = values.get(axis);
      return value === undefined ? [] : [{ axis, key: axis.toLowerCase(), entry: lengthEntry(value, document.unit), digits: value.digits }];
    });
    const isLogged = document.offsets.some((row) => row.register.trim().toUpperCase() === register);
    return {
      at,
      read: `${register}: ${places.map(({ axis, digits }) => `${axis} ${digits} mm`).join(", ")}`,
      becomes: `a measured zero of ${register} in the log of offsets, as read from the control`,
      doubt: [
        ...(isLogged ? [`the log has ${register}: compare first, since this row would take the place of its zero`] : []),
        ...(registers.some((other, k) => k !== i && other.register === register) ? [`the document states ${register} more than once`] : []),
        "corrections and shifts may be in what the control holds beside the measured zero",
      ].join("; "),
      change: (changed) => {
        const row = blankEntries.offset(freeName(`${register} as read`, changed.offsets));
        const entries = Object.fromEntries(places.map(({ key, entry }) => [key, entry]));
        return { ...changed, offsets: [...changed.offsets, { ...row, ...entries, register, when, why: "read from the control" }] };
      },
    };
  });
}
