import { once } from "../base/once.ts";
import { failure, type Outcome, type Problem } from "../base/outcome.ts";
import { axes, turnAboutZ, type Vector } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import { cannotBeHonest, makeContacts } from "../contacts/makeContacts.ts";
import type { Movement } from "../frame/contactResidual.ts";
import { type FrameSize, type FrameSolution, solveFrame } from "../frame/solveFrame.ts";
import { type DatumSystem, ranksOf } from "../part/datumSystem.ts";
import { type LocatedPart, locateElements } from "../part/locateElements.ts";
import type { RelatedPair } from "../uncertainty/relateSources.ts";
import { SourceBook } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { weightsByPrecedence } from "./contactWeights.ts";
import { type PartSizes, partSizes } from "./partSizes.ts";
import { type KnownPose, plannedContacts } from "./plannedContacts.ts";
import { relateSetup } from "./relateSetup.ts";
import type { Setup } from "./setup.ts";
import { type Tilt, tiltOf } from "./tilt.ts";

/** A setup's readings, understood: contacts, sizes, and where this part is, judged by every touch. */
export interface PartLocation {
  readonly setup: Setup;
  readonly book: SourceBook;
  readonly located: LocatedPart;
  readonly sizes: PartSizes;
  /** How the sizes move the surface that a contact meets. */
  readonly movementsOf: (contact: Contact) => readonly Movement[];
  readonly contacts: readonly Contact[];
  /** Of touches that are still to be taken (plannedContacts). */
  readonly planned: readonly Contact[];
  /** Those that this part rests on, in the order of its residuals. */
  readonly counted: readonly Contact[];
  /** How much each of those counts (weightsByPrecedence). */
  readonly weights: readonly number[];
  /** How the part lies askew in height, where touches from above tell. Worked out when it is first asked for. */
  readonly tilt: Tilt | undefined;
  /**
   * This part: the drawing's frame and the part's sizes by all touches together.
   * A size that the touches determine is theirs; one that they do not keeps its
   * measured value, or the drawing's with its tolerance.
   */
  readonly thisPart: Outcome<FrameSolution>;
  /** The same where touches that disagree count in the order of a datum system instead of the letters' (ISO 5459). */
  readonly thisPartBy: (system: DatumSystem) => Outcome<FrameSolution>;
  /** Sources of the setup that go together. */
  readonly related: readonly RelatedPair[];
  /** Sources that entries can name, with their values, without what they have in common: also while a correlation cannot be used. */
  readonly nameable: ReadonlyMap<string, Uncertain>;
  readonly problems: readonly Problem[];
}

/** Makes contacts of the touches and finds this part from all of them. */
export function locatePart(stated: Setup): PartLocation {
  const located = locateElements(stated.part);
  const statesNone = stated.operation !== undefined || (stated.relations.length === 0 && !stated.unread.has("correlations"));
  const related = statesNone || stated.unread.has("machine") ? undefined : relateSetup(stated, located);
  const setup =
    related === undefined || related.problems.length === 0 ? stated : { ...stated, unread: new Set([...stated.unread, "correlations"]) };
  const book = setup.operation?.book ?? new SourceBook(setup.sources, related);
  const made = makeContacts({ ...setup, located }, book);
  const sizes = partSizes(setup.part, located, book, setup.operation?.earlier);
  const rules: FrameSize[] = sizes.sizes.map(({ batch, measured, earlier, scale }) => ({
    mode: "preferred",
    scale,
    given: measured ?? earlier ?? batch,
  }));
  const letters = new Map(setup.part.elements.map(({ id, datum }) => [id, datum]));
  const datumLetterOf = (element: string) => letters.get(element) ?? "";
  const solveWith =
    (movementsOf: PartLocation["movementsOf"], datumOf: (element: string) => string): Solve =>
    (contacts, rotates) => {
      const weights = weightsByPrecedence(contacts, datumOf);
      return solveFrame(
        contacts.map((contact, i) => ({ ...contact, movements: movementsOf(contact), weight: weights[i] as number })),
        rules,
        rotates,
      );
    };
  const find = (movementsOf: PartLocation["movementsOf"], datumOf = datumLetterOf) =>
    turnedIfDetermined(made.contacts, solveWith(movementsOf, datumOf));
  const unturned = (contact: Contact) => sizes.movementsOf(contact.element);
  const turning = made.contacts.filter(({ element }) => sizes.indexOfTurn(element) !== undefined);
  const first = find(unturned);
  const met = metPlaces(turning, first.frame);
  const movementsOf = turning.length === 0 ? unturned : (contact: Contact) => sizes.movementsOf(contact.element, met.places.get(contact));
  const found = turning.length === 0 ? first : find(movementsOf);
  const bySystem = new Map<DatumSystem, Outcome<FrameSolution>>();
  const solveBy = (system: DatumSystem) => {
    const ranks = ranksOf(system, new Map(setup.part.elements.map((element) => [element.id, element])));
    return find(movementsOf, (element) => String(ranks.get(element) ?? ""));
  };
  const thisPart = made.contacts.length === 0 ? failure(withheld(setup, "touches") ?? noTouch(setup)) : found.frame;
  const planned = plannedContacts(setup, located, sizes, knownPose(thisPart), book);
  const tilt = once(() => tiltOf(location));
  const location: PartLocation = {
    setup,
    book,
    located,
    sizes,
    movementsOf,
    contacts: made.contacts,
    planned: planned.contacts,
    counted: found.counted,
    weights: weightsByPrecedence(found.counted, datumLetterOf),
    get tilt() {
      return tilt();
    },
    thisPart,
    thisPartBy: (system) => {
      if (!thisPart.ok) return thisPart;
      const frame = bySystem.get(system) ?? solveBy(system).frame;
      bySystem.set(system, frame);
      return frame;
    },
    related: related?.pairs ?? [],
    nameable: related?.made ?? book.made,
    problems: [
      ...located.problems,
      ...(related?.problems ?? []),
      ...made.problems,
      ...planned.problems,
      ...found.problems,
      ...met.problems,
    ],
  };
  return location;
}

/**
 * Where contacts meet what an earlier operation may have cut turned, part coordinates: from the part as found without that, which is off by the turn
 * alone, a millionth of a length.
 */
function metPlaces(
  contacts: readonly Contact[],
  frame: Outcome<FrameSolution>,
): { readonly places: ReadonlyMap<Contact, Vector>; readonly problems: readonly Problem[] } {
  if (!frame.ok) return { places: new Map(), problems: [] };
  const { origin, rotation, determined } = frame.value;
  const places = new Map<Contact, Vector>();
  const problems: Problem[] = [];
  for (const contact of contacts) {
    const { centre, travel, noted, touch, surface } = contact;
    const across = travel[0] !== 0 ? 1 : 0;
    const isFlat = surface.kind === "plane" && surface.outward[2] !== 0;
    if (!isFlat && !(noted[across] && determined[across])) {
      const axis = axes[across];
      problems.push({
        at: `touches.${touch}.${axis.toLowerCase()}`,
        what: `an earlier operation may have cut "${contact.element}" turned, so what "${touch}" tells rests on where along ${axis} it was taken, which is not known; no turn is counted there`,
        got: "",
        remedy: `note the ${axis} of the touch, and touch the part along ${axis}`,
      });
      continue;
    }
    const [x, y, z] = centre.map((value, axis) => value - (origin[axis] as Uncertain).value);
    places.set(contact, turnAboutZ([x as number, y as number, z as number], -rotation.value));
  }
  return { places, problems };
}

/** Everything that strategies can be put together of: touches that were taken, and those that are still to be. */
export function strategyContacts({ contacts, planned }: Pick<PartLocation, "contacts" | "planned">): readonly Contact[] {
  return planned.length === 0 ? contacts : [...contacts, ...planned];
}

/** Whether a contact can take part in a frame that turns: its place across the travel matters then. */
export function canTurn({ surface, noted }: Contact): boolean {
  return surface.kind === "plane" && surface.outward[2] !== 0 ? true : noted[0] && noted[1];
}

type Solve = (contacts: readonly Contact[], rotates: boolean) => Outcome<FrameSolution>;

interface Found {
  readonly frame: Outcome<FrameSolution>;
  readonly counted: readonly Contact[];
  readonly problems: readonly Problem[];
}

/**
 * Turned where the touches tell the turn by themselves; a touch whose place along
 * its face was not noted then says nothing, and is asked for its place.
 */
function turnedIfDetermined(contacts: readonly Contact[], solve: Solve): Found {
  const placed = contacts.filter(canTurn);
  if (placed.length > 1) {
    const frame = solve(placed, true);
    if (frame.ok && frame.value.turnsByTouches)
      return { frame, counted: placed, problems: contacts.filter((contact) => !canTurn(contact)).map(askForPlace) };
  }
  return { frame: solve(contacts, false), counted: contacts, problems: [] };
}

function askForPlace({ touch, travel }: Contact): Problem {
  const axis = travel[0] !== 0 ? "Y" : "X";
  return {
    at: `touches.${touch}.${axis.toLowerCase()}`,
    what: `this part is turned, so "${touch}" tells nothing until the ${axis} where it was taken is known; it is left out`,
    got: "",
    remedy: `note the ${axis} of the touch`,
  };
}

/** Why nothing is worked out while an entry cannot be read that every result rests on; undefined where there is none. */
export function withheld(setup: Pick<Setup, "unread">, at: string): Problem | undefined {
  if (!cannotBeHonest(setup)) return undefined;
  if (setup.unread.has("machine")) return { at, what: withheldFor.machine, remedy: "see what is said at the machine" };
  return { at, what: withheldFor.correlations, remedy: "see what is said at the correlations" };
}

/** Whether a problem is one of these. */
export function isWithheld({ what }: Pick<Problem, "what">): boolean {
  return what === withheldFor.machine || what === withheldFor.correlations;
}

const withheldFor = {
  machine: "an entry of the machine cannot be read, and its doubt would be missing here",
  correlations: "a correlation of doubts cannot be used, and the uncertainties here would be wrong without it",
} as const;

/** What no touch tells of where the part lies is taken as 0. */
function knownPose(thisPart: Outcome<FrameSolution>): KnownPose {
  if (!thisPart.ok) return { origin: [0, 0, 0], rotation: 0, determined: [false, false, false, false] };
  const { origin, rotation, determined } = thisPart.value;
  return {
    origin: origin.map(({ value }, axis) => (determined[axis] ? value : 0)) as unknown as Vector,
    rotation: determined[3] ? rotation.value : 0,
    determined,
  };
}

function noTouch({ touches, planned }: Setup): Problem {
  if (touches.length === 0 && planned.length > 0)
    return { at: "touches", what: "nothing has been touched yet", remedy: "type the readings when the part is there" };
  return touches.length === 0
    ? { at: "touches", what: "there is no touch yet", remedy: "add one" }
    : { at: "touches", what: "none of the touches can be used", remedy: "see what is said at each" };
}
