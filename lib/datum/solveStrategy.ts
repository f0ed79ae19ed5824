import { quotedList } from "../base/listText.ts";
import { suggestName } from "../base/nearestName.ts";
import { failure, type Outcome, type Problem, success, within } from "../base/outcome.ts";
import { axes, unitVector, type Vector } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import { halfLostMotion } from "../equipment/halfLostMotion.ts";
import type { Movement, Pose } from "../frame/contactResidual.ts";
import {
  type FrameContact,
  type FrameEstimate,
  type FrameOptions,
  type FrameSize,
  type FrameSolution,
  poseOf,
  solveFrame,
} from "../frame/solveFrame.ts";
import type { Face, Middle } from "../part/part.ts";
import { axesOf } from "../part/part.ts";
import { certain, sum, type Uncertain } from "../uncertainty/uncertain.ts";
import { weightsByUncertainty } from "./contactWeights.ts";
import { canTurn, type PartLocation, strategyContacts, withheld } from "./locatePart.ts";
import { metFromBehind } from "./metFromBehind.ts";
import { halfOutward } from "./partSizes.ts";
import type { Displacement, Seated } from "./seated.ts";
import { type SimulatedReading, simulateReading, simulateReadings } from "./simulateReadings.ts";
import type { Strategy, ZeroPlace } from "./strategy.ts";
import { turnBy, turned } from "./turn.ts";

/** A work frame: the machine coordinates of part zero and the turn of the coordinates. */
export interface WorkFrameEstimate {
  readonly zero: readonly [Uncertain, Uncertain, Uncertain];
  readonly rotation: Uncertain;
}

/** How a part lies in the frame of a zero that rests on its fixture. */
export interface SeatedStrategy extends Pick<Seated, "displacement" | "turn"> {
  /** Whether touches on the part itself tell how it is turned. */
  readonly isTurnedByPart: boolean;
}

/** How a strategy finds the part, before its zero is asked for. */
export interface StrategyFrame {
  readonly strategy: Strategy;
  /** By the readings; that of the batch where nobody asked for them. */
  readonly frame: FrameSolution;
  /** Part zero in the drawing's frame at nominal sizes, mm. */
  readonly zeroOnPart: Vector;
  /** Which of X, Y, Z, rotation are determined. */
  readonly determined: FrameSolution["determined"];
  /** Whether the programme's coordinates are turned with the part. */
  readonly appliesRotation: boolean;
  /** Its contacts, in the order of the frame's residuals. */
  readonly contacts: readonly Contact[];
  /** Touches of it that are still to be taken: while there are any, nothing follows from readings, and only the batch can be told. */
  readonly waiting: readonly string[];
  /**
   * How a part of the batch lies against where the strategy takes it to be, where no touch on the part has looked: a zero that rests on the fixture. Left out where
   * touches on the part find every one anew.
   */
  readonly seated?: SeatedStrategy;
}

/** What this part is judged by. */
export interface ReadingsSolution extends StrategyFrame {
  /** From the readings just taken. */
  readonly fromReadings: WorkFrameEstimate;
}

/** What the batch is judged by. */
export interface BatchSolution extends StrategyFrame {
  /** Before touching: from readings that the batch would give, sizes varying as the drawing allows. */
  readonly inTheBatch: WorkFrameEstimate;
}

/** What a strategy makes of the touches. */
export interface StrategySolution extends ReadingsSolution, BatchSolution {}

/**
 * Solves one strategy: its contacts and free sizes through the one frame solver.
 * Sizes between touched faces and the datum are held as drawn (or as measured);
 * a held middle frees the width between its faces; diameters are found where the
 * touches determine them.
 */
export function solveStrategy(strategy: Strategy, location: PartLocation): Outcome<StrategySolution> {
  const prepared = prepare(strategy, location);
  if (!prepared.ok) return prepared;
  const solved = solvePrepared(prepared.value, location);
  if (!solved.ok) return solved;
  const pose = poseOf(foundPart(prepared.value, location) ?? solved.value.frame);
  const inBatch = batchFrame(prepared.value, location, pose, simulateReadings(prepared.value.frameContacts, location.sizes.sizes, pose));
  if (!inBatch.ok) return inBatch;
  return success({ ...solved.value, inTheBatch: workFrame(inBatch.value, strategy, location, givenInBatch(strategy, location)) });
}

/** What a strategy makes of the readings alone. */
export function solveByReadings(strategy: Strategy, location: PartLocation): Outcome<ReadingsSolution> {
  const prepared = prepare(strategy, location);
  return prepared.ok ? solvePrepared(prepared.value, location) : prepared;
}

/**
 * What strategies make of the batch alone, for many of one location: in half the time where it is known where this part lies, since the readings need
 * no frame of their own, and what a touch reads on a part out of the batch is the same in all strategies.
 */
export function solverInTheBatch(location: PartLocation): (strategy: Strategy) => Outcome<BatchSolution> {
  const known = new Map<Contact, SimulatedReading>();
  return (strategy) => {
    const prepared = prepare(strategy, location);
    if (!prepared.ok) return prepared;
    const part = foundPart(prepared.value, location);
    if (part === undefined) return solveStrategy(strategy, location);
    const pose = poseOf(part);
    const { contacts, frameContacts } = prepared.value;
    const simulated = contacts.map((contact, i): FrameContact => {
      const own = frameContacts[i] as FrameContact;
      const reading = known.get(contact) ?? simulateReading(own, location.sizes.sizes, pose);
      known.set(contact, reading);
      return { ...own, ...reading };
    });
    const frame = batchFrame(prepared.value, location, pose, simulated);
    if (!frame.ok) return frame;
    const inTheBatch = workFrame(frame.value, strategy, location, givenInBatch(strategy, location));
    return success({ ...frameWith(prepared.value, location, frame.value), inTheBatch });
  };
}

interface PreparedStrategy {
  readonly strategy: Strategy;
  readonly contacts: readonly Contact[];
  readonly waiting: readonly string[];
  readonly frameContacts: readonly FrameContact[];
  readonly seated: Seated | undefined;
  /** Fails where a size that the strategy frees is not found. */
  readonly frameOf: (from: readonly FrameContact[], given: (size: number) => Uncertain, options: FrameOptions) => Outcome<FrameSolution>;
}

function prepare(strategy: Strategy, location: PartLocation): Outcome<PreparedStrategy> {
  const at = `strategies.${strategy.id}`;
  const isOwn = ({ touch }: Contact) => strategy.touches.includes(touch);
  const waiting = [...new Set(location.planned.filter(isOwn).map(({ touch }) => touch))];
  const contacts = strategyContacts(location).filter(isOwn);
  const problems = unusable(strategy, location, contacts, at);
  if (problems.length > 0) return failure(...problems);

  const freed = freedSizes(strategy, location);
  const onFixture = contacts.filter(({ element }) => location.isOnFixture(element));
  const seated = onFixture.length > 0 ? location.seatedBy?.(contacts) : undefined;
  if (seated?.ok === false) return failure(...seated.problems);
  const standing = contacts.map((contact) => seated?.value.standOff(contact));
  const unplaced = standing.flatMap((off) => (off?.ok === false ? off.problems : []));
  if (unplaced.length > 0) return failure(...unplaced);
  const weights = weightsByUncertainty(contacts);
  const frameContacts = contacts.map((contact, i): FrameContact => {
    const movements = { movements: movementsOf(contact, location, freed), weight: weights[i] as number };
    const off = standing[i];
    const byTilt = location.offByTilt(contact)?.value ?? 0;
    // A setter knows of no tilt; touches that it sets apart do not disagree.
    if (!off?.ok) return { ...contact, ...movements, ...(byTilt !== 0 && { unforeseen: byTilt }) };
    // A setter takes the metal that is touched for what it should be: what is to be expected of it is in the readings, and not in the formula.
    const { value } = off;
    return { ...contact, ...movements, reach: contact.reach.plus(value.minus(value.value)), unforeseen: value.value + byTilt };
  });
  const frameOf: PreparedStrategy["frameOf"] = (from, given, options) => {
    const sizes: FrameSize[] = location.sizes.sizes.map(({ kind, scale }, i) => ({
      mode: kind === "diameter" ? "preferred" : "held",
      scale,
      given: given(i),
    }));
    const free: FrameSize[] = freed.map(() => ({ mode: "free", scale: 1, given: certain(0) }));
    const solved = solveFrame(from, [...sizes, ...free], rotates(strategy), options);
    if (!solved.ok) return failure(...solved.problems.map((problem) => ({ ...problem, at })));
    const impossible = metFromBehind(contacts, solved.value);
    if (impossible.length > 0) return failure(...impossible);
    const undetermined = notFreed(solved.value, freed, location, at);
    return undetermined.length > 0 ? failure(...undetermined) : solved;
  };
  return success({ strategy, contacts, waiting, frameContacts, seated: seated?.value, frameOf });
}

/** This part, where its place is known without the strategy. */
function foundPart({ waiting, seated }: PreparedStrategy, { thisPart }: PartLocation): FrameSolution | undefined {
  return thisPart.ok && waiting.length === 0 && seated === undefined ? thisPart.value : undefined;
}

function solvePrepared(prepared: PreparedStrategy, location: PartLocation): Outcome<ReadingsSolution> {
  const { strategy, waiting, frameContacts, seated, frameOf } = prepared;
  const frame = frameOf(frameContacts, givenSizes(strategy, location), { areForeseen: waiting.length > 0 });
  if (!frame.ok) return frame;
  const solved = frameWith(prepared, location, frame.value);
  const fromReadings = zeroFrom(frame.value, strategy, location);
  const atZero = seated?.displacement(solved.zeroOnPart);
  return success({ ...solved, fromReadings: atZero ? { ...fromReadings, zero: displaced(fromReadings.zero, atZero) } : fromReadings });
}

/** @param pose where this part lies */
function batchFrame(
  { strategy, frameOf }: PreparedStrategy,
  location: PartLocation,
  pose: Pose,
  simulated: readonly FrameContact[],
): Outcome<FrameSolution> {
  return frameOf(simulated, givenInBatch(strategy, location), { near: pose });
}

function frameWith({ strategy, contacts, waiting, seated }: PreparedStrategy, location: PartLocation, frame: FrameSolution): StrategyFrame {
  const zeroOnPart = strategy.zero.map((place, axis) => nominalOf(place, axis as 0 | 1 | 2, location)) as unknown as Vector;
  const atZero = seated?.displacement(zeroOnPart);
  return {
    strategy,
    frame,
    zeroOnPart,
    determined: atZero ? heldOf(frame.determined, atZero) : frame.determined,
    appliesRotation: strategy.rotation === "applied",
    contacts,
    waiting,
    ...(seated && { seated: { ...seated, isTurnedByPart: isTurnedByPart(contacts, location) } }),
  };
}

/** Zero on a part that is displaced in the fixture's frame; what is to be expected of that stays in the work, as nobody has touched it. */
export function displaced(zero: WorkFrameEstimate["zero"], moved: ReturnType<Displacement>): WorkFrameEstimate["zero"] {
  const along = (axis: 0 | 1 | 2) => {
    const off = moved[axis];
    return off === undefined ? zero[axis] : zero[axis].plus(off.minus(off.value));
  };
  return [along(0), along(1), along(2)];
}

function heldOf(determined: FrameSolution["determined"], moved: ReturnType<Displacement>): FrameSolution["determined"] {
  const along = (axis: 0 | 1 | 2) => determined[axis] && moved[axis] !== undefined;
  return [along(0), along(1), along(2), determined[3]];
}

/** An upright face of the part that is touched at two places tells how the part itself is turned. */
export function isTurnedByPart(contacts: readonly Contact[], { isOnFixture }: Pick<PartLocation, "isOnFixture">): boolean {
  const upright = contacts.filter(({ surface, travel, element }) => surface.kind === "plane" && travel[2] === 0 && !isOnFixture(element));
  return upright.some(({ element, touch }) => upright.some((other) => other.element === element && other.touch !== touch));
}

/** Why nothing that follows from readings is known of a strategy; undefined where all of its touches have been taken. */
export function notTouchedYet({ waiting, strategy }: Pick<StrategySolution, "waiting" | "strategy">): Problem | undefined {
  const [first, ...others] = waiting;
  if (first === undefined) return undefined;
  return {
    at: `touches.${first}.readings`,
    what: `${quotedList([first, ...others])} ${others.length > 0 ? "have" : "has"} not been touched yet, and "${strategy.id}" rests on ${others.length > 0 ? "them" : "it"}`,
    remedy: "type the readings when they are taken; until then look at the batch",
  };
}

/**
 * Part zero as a strategy's setter works it out, from another estimate of the same frame: in true lengths, for instance.
 *
 * @param estimate of the frame of this strategy
 */
export function zeroFrom(estimate: FrameEstimate, strategy: Strategy, location: PartLocation): WorkFrameEstimate {
  return wantedFrame(workFrame(estimate, strategy, location, givenSizes(strategy, location)), location);
}

/** Along which axes a strategy finds part zero: X and Y need the turn, where it looks at one. */
export function zeroFound({ strategy, determined }: StrategyFrame): readonly [boolean, boolean, boolean] {
  const turnKnown = !rotates(strategy) || determined[3];
  return [determined[0] && turnKnown, determined[1] && turnKnown, determined[2]];
}

function unusable(strategy: Strategy, { setup, problems: known }: PartLocation, contacts: readonly Contact[], at: string): Problem[] {
  const problems: Problem[] = [];
  const reason = withheld(setup, at);
  if (reason !== undefined) return [reason];
  for (const id of strategy.touches) {
    if (contacts.some(({ touch }) => touch === id)) continue;
    const touch = [...setup.touches, ...setup.planned].find((each) => each.id === id);
    const exists = touch !== undefined || setup.unread.has(`touches.${id}`);
    // What its tool lacks is told at the tool: the person who stands here must hear it.
    const atTouch = known.some(({ at: place }) => place === `touches.${id}` || place.startsWith(`touches.${id}.`));
    const atTool = atTouch ? undefined : known.find(({ at: place }) => touch !== undefined && place.startsWith(`tools.${touch.tool}.`));
    problems.push({
      at: `${at}.touches`,
      what: exists ? `the touch "${id}" cannot be used; ${atTool?.what ?? "see what is said there"}` : "there is no such touch",
      got: id,
      ...(exists
        ? {}
        : suggestName(
            id,
            // Those that it rests on already were not meant.
            [...setup.touches, ...setup.planned].map((each) => each.id).filter((each) => !strategy.touches.includes(each)),
          )),
    });
  }
  if (strategy.touches.length === 0) problems.push({ at: `${at}.touches`, what: "a strategy needs at least one touch", got: "" });
  if (rotates(strategy)) {
    for (const contact of contacts.filter((each) => !canTurn(each))) {
      const axis = contact.travel[0] !== 0 ? "y" : "x";
      problems.push({
        at: `touches.${contact.touch}.${axis}`,
        what: `"${strategy.id}" measures the skew, which needs the ${axis.toUpperCase()} where "${contact.touch}" was taken`,
        got: "",
        remedy: `note the ${axis.toUpperCase()} of the touch, or let the strategy ignore the rotation`,
      });
    }
  }
  for (const id of strategy.hold) {
    const element = setup.part.elements.find((each) => each.id === id);
    if (element?.kind !== "middle")
      problems.push({ at: `${at}.hold`, what: "only a middle can be held", expected: "an element of kind middle", got: id });
  }
  for (const id of strategy.orient) {
    const element = setup.part.elements.find((each) => each.id === id);
    if (element?.kind !== "face" || element.outward[1] === "Z")
      problems.push({
        at: `${at}.orient`,
        what: "only an upright face tells how the part is turned",
        expected: "a face that looks along X or Y",
        got: id,
      });
    else if (!rotates(strategy))
      problems.push({
        at: `${at}.orient`,
        what: "a face that orients needs a strategy that looks at the rotation",
        expected: "rotation measured or applied",
        got: strategy.rotation,
      });
  }
  strategy.zero.forEach((place, axis) => {
    if (place.kind !== "element") return;
    const element = setup.part.elements.find((each) => each.id === place.element);
    const name = axes[axis] as (typeof axes)[number];
    const along = element && axesOf(element, new Map(setup.part.elements.map((each) => [each.id, each])));
    if (element !== undefined && !along?.includes(name))
      problems.push({
        at: `${at}.zero.${name.toLowerCase()}`,
        what: `"${place.element}" has no place along ${name}`,
        expected: `an element with a place along ${name}, or a coordinate`,
        got: place.element,
      });
    else if (element === undefined)
      problems.push({
        at: `${at}.zero.${name.toLowerCase()}`,
        what: `there is no element with a place along ${name} by this name`,
        got: place.element,
        ...suggestName(
          place.element,
          setup.part.elements.map(({ id }) => id),
        ),
      });
  });
  return problems;
}

function rotates({ rotation }: Strategy): boolean {
  return rotation !== "ignored";
}

/** A size that a strategy lets the touches find, and that moves some faces. */
interface FreedSize {
  /** How one mm of it moves each face, by element. */
  readonly shifts: ReadonlyMap<string, Vector>;
  /** What to say when the touches do not find it. */
  readonly missing: Problem;
}

/** The width between the faces of every held middle, and the place of every face that only orients. */
function freedSizes({ hold, orient }: Strategy, { setup }: PartLocation): FreedSize[] {
  const faces = new Map(setup.part.elements.flatMap((element) => (element.kind === "face" ? [[element.id, element] as const] : [])));
  const widths = hold.map((id): FreedSize => {
    const { of } = setup.part.elements.find((element) => element.id === id) as Middle;
    return {
      shifts: new Map(of.map((face) => [face, halfOutward((faces.get(face) as Face).outward)])),
      missing: {
        at: "hold",
        what: `holding "${id}" needs a touch on both "${of[0]}" and "${of[1]}"`,
        got: id,
        remedy: "add the missing touch to the strategy, or do not hold the middle",
      },
    };
  });
  const places = orient.map(
    (id): FreedSize => ({
      shifts: new Map([[id, unitVector((faces.get(id) as Face).outward)]]),
      missing: {
        at: "orient",
        what: `"${id}" cannot orient the part without a touch on it`,
        got: id,
        remedy: "touch it at two places, or take it off the list",
      },
    }),
  );
  return [...widths, ...places];
}

function movementsOf(contact: Contact, { sizes, movementsOf: ofPart }: PartLocation, freed: readonly FreedSize[]): readonly Movement[] {
  const own = freed.flatMap(({ shifts }, i): Movement[] => {
    const shift = shifts.get(contact.element);
    return shift === undefined ? [] : [{ size: sizes.sizes.length + i, shift, growth: 0 }];
  });
  return [...ofPart(contact), ...own];
}

function notFreed(frame: FrameSolution, freed: readonly FreedSize[], { sizes }: PartLocation, at: string): Problem[] {
  return freed.flatMap(({ missing }, i) => (frame.sizesDetermined[sizes.sizes.length + i] ? [] : [within(at, missing)]));
}

/** Deviations from nominal that the strategy takes the sizes to have. */
function givenSizes(strategy: Strategy, { sizes }: PartLocation): (size: number) => Uncertain {
  return (size) => (strategy.sizes === "measured" ? (sizes.sizes[size]?.measured ?? certain(0)) : certain(0));
}

/** The same for a part out of the batch: a measured size is its true one and the error of measuring. */
function givenInBatch(strategy: Strategy, { sizes }: PartLocation): (size: number) => Uncertain {
  return (size) => {
    const measured = strategy.sizes === "measured" ? sizes.sizes[size]?.measured : undefined;
    return measured === undefined ? certain(0) : (sizes.sizes[size]?.batch ?? certain(0)).plus(measured.minus(measured.value));
  };
}

/** Machine coordinates of part zero, as a setter works them out: the frame applied to its place on the part. */
function workFrame(
  frame: FrameEstimate,
  strategy: Strategy,
  location: PartLocation,
  given: (size: number) => Uncertain,
): WorkFrameEstimate {
  const place = strategy.zero.map((zero, axis) => placeOf(zero, axis as 0 | 1 | 2, location, given)) as [Uncertain, Uncertain, Uncertain];
  const { origin, rotation } = frame;
  const fromOrigin = turned(place, turnBy(rotation));
  return { zero: origin.map((o, axis) => o.plus(fromOrigin[axis] as Uncertain)) as [Uncertain, Uncertain, Uncertain], rotation };
}

/** The zero that would be right for working: less the side to which each axis hangs when it works. */
function wantedFrame({ zero, rotation }: WorkFrameEstimate, location: PartLocation): WorkFrameEstimate {
  return {
    zero: zero.map((value, axis) => value.minus(workingSide(location, axis as 0 | 1 | 2))) as [Uncertain, Uncertain, Uncertain],
    rotation,
  };
}

/** Where an axis stands off while working: half the lost motion, to the stated side, or to either. */
export function workingSide({ setup, book }: PartLocation, axis: 0 | 1 | 2): Uncertain {
  return halfLostMotion(setup.machine, axis, book).times(setup.machine.working[axis] ?? 1);
}

function placeOf(zero: ZeroPlace, axis: 0 | 1 | 2, location: PartLocation, given: (size: number) => Uncertain): Uncertain {
  if (zero.kind === "coordinate") return certain(zero.value);
  const place = location.located.places.get(zero.element)?.[axis];
  return sum([
    certain(place?.nominal ?? 0),
    ...[...(place?.gains ?? [])].map(([id, gain]) => given(location.sizes.indexOf(id)).times(gain)),
  ]);
}

/** Where a zero sits on the part at nominal sizes, mm. */
export function nominalOf(zero: ZeroPlace, axis: 0 | 1 | 2, { located }: PartLocation): number {
  return zero.kind === "coordinate" ? zero.value : (located.places.get(zero.element)?.[axis]?.nominal ?? 0);
}
