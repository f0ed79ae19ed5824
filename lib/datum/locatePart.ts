import { once } from "../base/once.ts";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { type Axis, axes, turnAboutZ, type Vector } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import { cannotBeHonest, makeContacts } from "../contacts/makeContacts.ts";
import { isLevel } from "../contacts/surface.ts";
import type { Movement } from "../frame/contactResidual.ts";
import { type FrameSize, type FrameSolution, solveFrame } from "../frame/solveFrame.ts";
import { type DatumSystem, ranksOf } from "../part/datumSystem.ts";
import { locateElements } from "../part/locateElements.ts";
import type { RelatedPair } from "../uncertainty/relateSources.ts";
import { SourceBook } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { partFirst, weightsByPrecedence } from "./contactWeights.ts";
import { metFromBehind } from "./metFromBehind.ts";
import { type PartSizes, partSizes } from "./partSizes.ts";
import { type KnownPose, plannedContacts } from "./plannedContacts.ts";
import { relateSetup } from "./relateSetup.ts";
import { type Seated, seatedPart, tellsHeights, touchedFeatures, withFeatures } from "./seated.ts";
import type { DrawnLocation, Seating, SeatingOf } from "./seating.ts";
import type { Setup } from "./setup.ts";
import { type Tilt, tiltOf } from "./tilt.ts";
import { type FollowedTilt, followTilt, liftOfMetal, type NotAcross, type TiltAcross } from "./tiltAcross.ts";

/** A setup's readings, understood: contacts, sizes, and where this part is, judged by every touch. */
export interface PartLocation extends DrawnLocation {
  /** How the sizes move the surface that a contact meets. */
  readonly movementsOf: (contact: Contact) => readonly Movement[];
  readonly contacts: readonly Contact[];
  /** Touches on features of the fixture, on which a zero may rest as well; those that are still to be taken are among the planned ones. */
  readonly onFixture: readonly Contact[];
  /** What touches and checks can name: the elements of the part, and of the fixture what they do name. */
  readonly touchable: Pick<PartLocation, "setup" | "located">;
  /** Whether a touch that names this is one on the fixture. */
  readonly isOnFixture: (element: string) => boolean;
  /** Of touches that are still to be taken (plannedContacts). */
  readonly planned: readonly Contact[];
  /** Axes along which no touch tells where the part lies, and planned touches are taken to lie about its middle. */
  readonly guessedAlong: readonly Axis[];
  /** The part of the batch in the drawing's frame where the fixture has it, by some of the contacts; undefined where no touch is one on the fixture. */
  readonly seatedBy: ((contacts: readonly Contact[]) => Outcome<Seated>) | undefined;
  /** A contact as this part's frame takes it: with what the metal that it meets stands off there. */
  readonly standing: (contact: Contact) => Outcome<Contact>;
  /** How far what a contact meets stands out because the part lies askew in height, mm; undefined for not at all. */
  readonly offByTilt: (contact: Contact) => Uncertain | undefined;
  /** Those that this part rests on, in the order of its residuals. */
  readonly counted: readonly Contact[];
  /** How much each of those counts (weightsByPrecedence). */
  readonly weights: readonly number[];
  /**
   * Where this part is known by touches on the fixture and by what its locators do, because none on the part tell: the frame of `thisPart` is then the
   * drawing's where the fixture has it, and the part lies displaced in it. Undefined where touches on the part tell by themselves.
   */
  readonly seated: Seated | undefined;
  /** How the part lies askew in height, where touches from above tell. */
  readonly tilt: Tilt | undefined;
  /** What that does to places across, or why they do not follow it; undefined without a tilt. */
  readonly tiltAcross: TiltAcross | NotAcross | undefined;
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

/**
 * Makes contacts of the touches and finds this part from all of them.
 *
 * @param seatingOf the fixture's part in it (`locateSetup`); without it touches on the fixture name nothing that there is
 */
export function locatePart(stated: Setup, seatingOf?: SeatingOf): PartLocation {
  const located = locateElements(stated.part);
  const statesNone = stated.operation !== undefined || (stated.relations.length === 0 && !stated.unread.has("correlations"));
  const related = statesNone || stated.unread.has("machine") ? undefined : relateSetup(stated, located);
  const setup =
    related === undefined || related.problems.length === 0 ? stated : { ...stated, unread: new Set([...stated.unread, "correlations"]) };
  const book = setup.operation?.book ?? new SourceBook(setup.sources, related);
  const named = seatingOf && touchedFeatures(setup);
  const drawn = once(
    (): DrawnLocation => ({ setup, book, located, sizes: partSizes(setup.part, located, book, setup.operation?.earlier) }),
  );
  const seating = named && named.size > 0 ? seatingOf(drawn(), named) : undefined;
  const bench = seating ? withFeatures(setup, located, seating) : { setup, located };
  const all = makeContacts({ ...bench.setup, located: bench.located }, book);
  const isOnFixture = ({ element }: Pick<Contact, "element">) => named?.has(element) === true;
  const onFixture = all.contacts.filter(isOnFixture);
  const made = { contacts: onFixture.length === 0 ? all.contacts : all.contacts.filter((contact) => !isOnFixture(contact)) };
  const { sizes } = drawn();
  const rules: FrameSize[] = sizes.sizes.map(({ batch, measured, earlier, scale }) => ({
    mode: "preferred",
    scale,
    given: measured ?? earlier ?? batch,
  }));
  const letters = new Map(setup.part.elements.map(({ id, datum }) => [id, datum]));
  const datumLetterOf = (element: string) => letters.get(element) ?? "";
  const weightsOf = (contacts: readonly Contact[], datumOf = datumLetterOf) => {
    const weights = weightsByPrecedence(contacts, datumOf);
    return onFixture.length === 0 ? weights : partFirst(contacts, weights, isOnFixture);
  };
  const solveWith =
    (movementsOf: PartLocation["movementsOf"], datumOf?: (element: string) => string): Solve =>
    (contacts, rotates) => {
      const weights = weightsOf(contacts, datumOf);
      return solveFrame(
        contacts.map((contact, i) => ({ ...contact, movements: movementsOf(contact), weight: weights[i] as number })),
        rules,
        rotates,
      );
    };
  const locateBy = (contacts: readonly Contact[], mayTurn = true) => {
    const find = (movementsOf: PartLocation["movementsOf"], datumOf?: (element: string) => string) =>
      mayTurn
        ? turnedIfDetermined(contacts, solveWith(movementsOf, datumOf))
        : { frame: solveWith(movementsOf, datumOf)(contacts, false), counted: contacts, problems: [] };
    const unturned = (contact: Contact) => sizes.movementsOf(contact.element);
    const turning = contacts.filter(({ element }) => sizes.indexOfTurn(element) !== undefined);
    const first = find(unturned);
    const met = metPlaces(turning, first.frame);
    const metAt = (contact: Contact) =>
      met.places.get(contact) ?? met.places.get(turning.find(({ touch }) => touch === contact.touch) as Contact);
    const movementsOf = turning.length === 0 ? unturned : (contact: Contact) => sizes.movementsOf(contact.element, metAt(contact));
    return { find, movementsOf, found: turning.length === 0 ? first : find(movementsOf), problems: met.problems };
  };
  const byPart = locateBy(made.contacts);
  // A face of the part and a feature beside it are two surfaces: a turn comes from touches that are all on the part, or all on the fixture.
  const mayTurn = turnsAlone(byPart.found.frame) || (onFixture.length > 0 && turnsAlone(locateBy(onFixture).found.frame));
  const onBoth = onFixture.length === 0 ? byPart : locateBy([...made.contacts, ...onFixture], mayTurn);
  const isSeated = onFixture.length > 0 && tellsMore(onBoth.found.frame, made.contacts.length === 0 ? undefined : byPart.found.frame);
  const heightsByTouches = tellsHeights(made.contacts);
  const seatedIn =
    (partSizes: PartSizes, heights: boolean) =>
    (contacts: readonly Contact[]): Outcome<Seated> => {
      const displaced = (seating as Seating).displacement(partSizes);
      if (!displaced.ok) return failure(fixtureUnknown(setup));
      const frame = onBoth.found.frame;
      return frame.ok
        ? success(
            seatedPart(seating as Seating, displaced.value, {
              isOnFixture,
              contacts,
              frame: frame.value,
              heightsByTouches: heights,
            }),
          )
        : frame;
    };
  const seated = isSeated ? seatedIn(asKnown(sizes), heightsByTouches)([...made.contacts, ...onFixture]) : undefined;
  const alone = made.contacts.length === 0 ? undefined : byPart.found.frame;
  const stood = seated?.ok ? standOffs([...made.contacts, ...askedOf(onFixture, alone)], seated.value) : undefined;
  const untilted = stood ? locateBy(stood.contacts, mayTurn) : byPart;
  const firstFound = untilted.found;
  const tilt = tiltOf({
    thisPart: firstFound.frame,
    counted: firstFound.counted,
    weights: weightsOf(firstFound.counted),
    setup,
    isOnFixture: (element) => isOnFixture({ element }),
  });
  const followed: FollowedTilt | undefined =
    tilt === undefined || !firstFound.frame.ok
      ? undefined
      : isSeated
        ? { across: "by the fixture", standOff: liftIn(tilt, firstFound.frame.value) }
        : followTilt(tilt, firstFound.counted, firstFound.frame.value, datumLetterOf);
  const offByTilt = (contact: Contact) => (isOnFixture(contact) ? undefined : followed?.standOff(contact));
  const asTilted = (contact: Contact): Contact => {
    const off = offByTilt(contact);
    return off === undefined ? contact : { ...contact, reach: contact.reach.plus(off) };
  };
  const {
    find,
    movementsOf,
    found,
    problems: metProblems,
  } = followed === undefined ? untilted : stood ? locateBy(stood.contacts.map(asTilted), mayTurn) : locateBy(made.contacts.map(asTilted));
  const bySystem = new Map<DatumSystem, Outcome<FrameSolution>>();
  const solveBy = (system: DatumSystem) => {
    const ranks = ranksOf(system, new Map(setup.part.elements.map((element) => [element.id, element])));
    return find(movementsOf, (element) => String(ranks.get(element) ?? ""));
  };
  const impossible = found.frame.ok ? metFromBehind(found.counted, found.frame.value) : [];
  const thisPart =
    all.contacts.length === 0
      ? failure(withheld(setup, "touches") ?? noTouch(setup))
      : stood === undefined && made.contacts.length === 0
        ? failure(...(seated?.ok === false ? seated.problems : [fixtureUnknown(setup)]))
        : impossible.length > 0
          ? failure(...impossible)
          : found.frame;
  const planned = plannedContacts(bench.setup, bench.located, sizes, knownPose(thisPart), book);
  const location: PartLocation = {
    setup,
    book,
    located,
    sizes,
    movementsOf,
    contacts: made.contacts,
    onFixture,
    touchable: bench,
    isOnFixture: (element) => named?.has(element) === true,
    seatedBy: seating && seatedIn(sizes, false),
    standing: (contact) => {
      if (seated === undefined) return isOnFixture(contact) ? failure(notSeated(contact)) : success(asTilted(contact));
      if (!seated.ok) return seated;
      const off = seated.value.standOff(contact);
      return off.ok ? success(asTilted({ ...contact, reach: contact.reach.plus(off.value) })) : off;
    },
    offByTilt,
    seated: seated?.ok ? seated.value : undefined,
    planned: planned.contacts,
    guessedAlong: planned.guessedAlong,
    counted: found.counted,
    weights: weightsOf(found.counted),
    tilt,
    tiltAcross: followed?.across,
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
      ...all.problems,
      ...(seating?.features.problems.values() ?? []),
      ...planned.problems,
      ...(seated?.ok === false ? seated.problems : []),
      ...(stood?.problems ?? []),
      ...found.problems,
      ...impossible,
      ...metProblems,
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
    const isFlat = isLevel(surface);
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

/** Touches that were taken, of the part and of its fixture. */
export function takenContacts({ contacts, onFixture }: Pick<PartLocation, "contacts" | "onFixture">): readonly Contact[] {
  return onFixture.length === 0 ? contacts : [...contacts, ...onFixture];
}

/** Everything that strategies can be put together of: touches that were taken, and those that are still to be. */
export function strategyContacts({
  contacts,
  planned,
  onFixture,
}: Pick<PartLocation, "contacts" | "planned" | "onFixture">): readonly Contact[] {
  const taken = takenContacts({ contacts, onFixture });
  return planned.length === 0 ? taken : [...taken, ...planned];
}

/** Whether touches on the fixture tell something of this part that those on the part leave open. */
function tellsMore(both: Outcome<FrameSolution>, alone: Outcome<FrameSolution> | undefined): boolean {
  if (!both.ok) return false;
  if (alone?.ok !== true) return true;
  return (
    (both.value.turnsByTouches && !alone.value.turnsByTouches) ||
    [0, 1, 2].some((axis) => both.value.determined[axis] && !alone.value.determined[axis])
  );
}

function turnsAlone(frame: Outcome<FrameSolution>): boolean {
  return frame.ok && frame.value.turnsByTouches;
}

/** Touches on the fixture that tell what those on the part leave open: along an axis, or, at two places of one feature, the turn. */
function askedOf(onFixture: readonly Contact[], alone: Outcome<FrameSolution> | undefined): readonly Contact[] {
  if (alone?.ok !== true) return onFixture;
  const { determined, turnsByTouches } = alone.value;
  return onFixture.filter(
    ({ travel, element, touch }) =>
      travel.some((along, axis) => along !== 0 && !determined[axis]) ||
      (!turnsByTouches && travel[2] === 0 && onFixture.some((other) => other.element === element && other.touch !== touch)),
  );
}

/** Sizes of this part as they are known without its touches, in the place of the batch's. */
function asKnown(sizes: PartSizes): PartSizes {
  return { ...sizes, sizes: sizes.sizes.map((size) => ({ ...size, batch: size.measured ?? size.earlier ?? size.batch })) };
}

/** Contacts with what the metal that they meet stands off; those of which that is not known are told and left out. */
function standOffs(
  contacts: readonly Contact[],
  { standOff }: Seated,
): { readonly contacts: readonly Contact[]; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const standing = contacts.flatMap((contact) => {
    const off = standOff(contact);
    if (off.ok) return [{ ...contact, reach: contact.reach.plus(off.value) }];
    problems.push(...off.problems);
    return [];
  });
  return { contacts: standing, problems };
}

function fixtureUnknown({ fixture }: Setup): Problem {
  return {
    at: "fixture.locators",
    what: "touches on the fixture tell where the part lies only if it is known how the locators hold it",
    remedy: fixture.locators.length === 0 ? "state the locators" : "see what is said at them",
  };
}

function notSeated({ touch, element }: Contact): Problem {
  return {
    at: `touches.${touch}`,
    what: `this part is found by touches on the part itself, so nothing is foreseen on the fixture at "${element}"`,
  };
}

/** Whether a contact can take part in a frame that turns: its place across the travel matters then. */
export function canTurn({ surface, noted }: Contact): boolean {
  return isLevel(surface) || (noted[0] && noted[1]);
}

function liftIn(tilt: Tilt, frame: FrameSolution): FollowedTilt["standOff"] {
  return (contact) => liftOfMetal(tilt, contact, frame);
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
