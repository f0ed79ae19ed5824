import type { SectionName } from "../pages/layout.ts";

/** One stop of the walk through the sheet. */
export interface WalkStep {
  readonly section: SectionName;
  readonly words: string;
}

/** What the demo job shows, in the order in which a setup is thought through. */
export const walk: readonly WalkStep[] = [
  {
    section: "touches",
    words:
      "A bearing cover lies in the vice for its second side. Each row is one touch: which face, which way the tool went, what the screen showed. Behind the double rule stands where the metal is, and how sure that is.",
  },
  {
    section: "strategies",
    words:
      "From the same touches the zero can be made in several ways. The middle of the length knows its zero best, and is still not the one to take: the sentences beneath say why. Choose another row and watch the title block.",
  },
  {
    section: "demands",
    words:
      "What the drawing asks of what is cut here. Each row tells how much of its tolerance the setup uses up, for this part and for the batch.",
  },
  {
    section: "zero",
    words:
      "The zero with its uncertainty, what to look at before anything is typed, and the line for the register. Type 1 mm more into a reading of the bore above, and the line follows.",
  },
  {
    section: "checks",
    words:
      "What the display must show when a face is touched again. Typed readings are judged here; what does not agree is explained, and never corrected.",
  },
  {
    section: "help",
    words: "The question turned round: what would raise the chance most, and how large each doubt may be.",
  },
  {
    section: "ledger",
    words:
      "Quantities of your own: a name, a formula over anything that has a name, and a doubt if it has one. F1 on any entry tells what it is.",
  },
];
