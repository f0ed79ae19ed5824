import { failure, type Outcome, type Problem } from "../base/outcome.ts";
import type { Contact } from "../contacts/contact.ts";
import { makeContacts } from "../contacts/makeContacts.ts";
import { type FrameSize, type FrameSolution, solveFrame } from "../frame/solveFrame.ts";
import { type LocatedPart, locateElements } from "../part/locateElements.ts";
import { SourceBook } from "../uncertainty/sourceBook.ts";
import { type PartSizes, partSizes } from "./partSizes.ts";
import type { Setup } from "./setup.ts";

/** A setup's readings, understood: contacts, sizes, and where this part is, judged by every touch. */
export interface PartLocation {
  readonly setup: Setup;
  readonly book: SourceBook;
  readonly located: LocatedPart;
  readonly sizes: PartSizes;
  readonly contacts: readonly Contact[];
  /**
   * This part: the drawing's frame and the part's sizes by all touches together.
   * A size that the touches determine is theirs; one that they do not keeps its
   * measured value, or the drawing's with its tolerance.
   */
  readonly thisPart: Outcome<FrameSolution>;
  readonly problems: readonly Problem[];
}

/** Makes contacts of the touches and finds this part from all of them. */
export function locatePart(setup: Setup): PartLocation {
  const book = new SourceBook();
  const located = locateElements(setup.part);
  const made = makeContacts({ ...setup, located }, book);
  const sizes = partSizes(setup.part, located, book);
  const rules: FrameSize[] = sizes.sizes.map(({ batch, measured, scale }) => ({ mode: "preferred", scale, given: measured ?? batch }));
  const frameContacts = made.contacts.map((contact) => ({ ...contact, movements: sizes.movementsOf(contact.element) }));
  const solve = (rotates: boolean) => solveFrame(frameContacts, rules, rotates);
  const thisPart =
    made.contacts.length === 0
      ? failure<FrameSolution>({ at: "touches", what: "there is no touch yet", remedy: "add one" })
      : turnedIfDetermined(made.contacts, solve);
  return { setup, book, located, sizes, contacts: made.contacts, thisPart, problems: [...located.problems, ...made.problems] };
}

/** Whether a contact can take part in a frame that turns: its place across the travel matters then. */
export function canTurn({ surface, noted }: Contact): boolean {
  return surface.kind === "plane" && surface.outward[2] !== 0 ? true : noted[0] && noted[1];
}

function turnedIfDetermined(contacts: readonly Contact[], solve: (rotates: boolean) => Outcome<FrameSolution>): Outcome<FrameSolution> {
  if (contacts.every(canTurn)) {
    const turned = solve(true);
    if (turned.ok && turned.value.determined[3]) return turned;
  }
  return solve(false);
}
