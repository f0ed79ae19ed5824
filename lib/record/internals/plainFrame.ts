import type { Contact } from "../../contacts/contact.ts";
import type { FrameSolution } from "../../frame/solveFrame.ts";

/**
 * What the contacts determine, what they leave free, and how they agree, as plain data.
 *
 * @param rotates whether the frame was asked to turn; if not, nothing is said about its rotation
 */
export function plainDeterminacy(frame: FrameSolution, contacts: readonly Contact[], rotates: boolean) {
  const [x, y, z, rotation] = frame.determined;
  return {
    determined: { X: x, Y: y, Z: z, rotation: rotates ? rotation : null },
    rank: frame.rank,
    unknowns: frame.unknowns,
    freeMotions: frame.freeMotions.map(({ words, shift, turn }) => ({ words, shift: { X: shift[0], Y: shift[1], Z: shift[2] }, turn })),
    redundancy: frame.redundancy,
    residuals: frame.residuals.map((residual, i) => ({ touch: (contacts[i] as Contact).touch, residual, unit: "mm" as const })),
  };
}
