import type { Contact } from "../../contacts/contact.ts";
import type { FrameSolution } from "../../frame/solveFrame.ts";
import { plainNumber } from "./plainNumber.ts";

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
    agreement: plainAgreement(frame, contacts),
    residuals: frame.residuals.map((residual, i) => ({ touch: (contacts[i] as Contact).touch, residual, unit: "mm" as const })),
  };
}

/** The test of the residuals; null where the touches are just enough and nothing could disagree. */
function plainAgreement({ agreement }: FrameSolution, contacts: readonly Contact[]) {
  if (agreement === undefined) return null;
  const { chance, statistic, degreesOfFreedom, worst } = agreement;
  const { contact, residual, standardUncertainty } = worst;
  return {
    chance,
    statistic: plainNumber(statistic),
    degreesOfFreedom,
    worst: { touch: (contacts[contact] as Contact).touch, residual, standardUncertainty, unit: "mm" as const },
  };
}
