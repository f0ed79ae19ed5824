import type { Problem } from "../base/outcome.ts";
import { type Axis, axes, axisOf, indexOfAxis, turnAboutZ, unitVector, type Vector } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import { makeContacts } from "../contacts/makeContacts.ts";
import type { Pose } from "../frame/contactResidual.ts";
import type { LocatedPart } from "../part/locateElements.ts";
import type { Element } from "../part/part.ts";
import type { PlannedTouch, Touch } from "../readings/touch.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import type { PartSizes } from "./partSizes.ts";
import type { Setup } from "./setup.ts";
import { simulateReadings } from "./simulateReadings.ts";

/** Where this part lies, as far as its touches tell; 0 along an axis of which they tell nothing. */
export interface KnownPose extends Pose {
  readonly determined: readonly [boolean, boolean, boolean, boolean];
}

/**
 * Touches that are still to be taken, as contacts: where the tool would stand if the part were as drawn and lay where its other touches have found it, or,
 * where they have not, where the drawing has its places, or about the middle of those that are noted (`aboutPart`). Their errors are those of any touch; of
 * this part they tell nothing.
 */
export function plannedContacts(
  setup: Setup,
  located: LocatedPart,
  sizes: PartSizes,
  known: KnownPose,
  book: SourceBook,
): { readonly contacts: readonly Contact[]; readonly problems: readonly Problem[]; readonly guessedAlong: readonly Axis[] } {
  if (setup.planned.length === 0) return { contacts: [], problems: [], guessedAlong: [] };
  const { pose, guessedAlong } = aboutPart(setup, located, known);
  const elements = new Map(setup.part.elements.map((element) => [element.id, element]));
  const touches = setup.planned.map((touch): Touch => {
    const element = elements.get(touch.element);
    return { ...touch, positions: [element === undefined ? touch.place : startOf(touch, element, located, pose)] };
  });
  const make = (from: readonly Touch[]) => makeContacts({ ...setup, located, touches: from, repeated: setup.touches }, book);
  const started = make(touches);
  const stops = simulateReadings(
    started.contacts.map((contact) => ({ ...contact, movements: sizes.movementsOf(contact.element), weight: 1 })),
    sizes.sizes,
    pose,
  );
  const stopOf = new Map(started.contacts.map(({ touch }, i) => [touch, stops[i]?.centre]));
  // What grows with the place is that of where the tool stops.
  const { contacts } = make(touches.map((touch) => stoppedAt(touch, stopOf.get(touch.id))));
  return { contacts, problems: started.problems, guessedAlong };
}

/** A part is taken to be at least so large where its drawing does not say, mm: what lies farther off than its size is no place on it (common practice, no source). */
const leastExtent = 100;

/**
 * Where a part lies along an axis of which no touch tells: as the drawing's own coordinates have it, if all places that touches note, taken or not, could be meant
 * so; otherwise they are the machine's, and the part is taken to lie with its middle at the middle of them. What is foreseen then follows how far apart they
 * are, and not how far the machine's zero is away.
 */
function aboutPart(
  { planned, touches, part }: Setup,
  { places }: LocatedPart,
  pose: KnownPose,
): { readonly pose: KnownPose; readonly guessedAlong: readonly Axis[] } {
  const guessedAlong: Axis[] = [];
  const along = (axis: 0 | 1): number => {
    const own = pose.origin[axis];
    if (pose.determined[axis]) return own;
    const all = [
      ...planned,
      ...touches.map(({ positions: [place], travelling }) => ({ place: place as PlannedTouch["place"], travelling })),
    ];
    const noted = all.flatMap(({ place, travelling }) => (travelling[1] === axes[axis] ? [] : (place[axis] ?? [])));
    const drawn = part.elements.flatMap(({ id, at }) => places.get(id)?.[axis]?.nominal ?? at[axis] ?? []);
    if (noted.length === 0 || drawn.length === 0) return own;
    const [low, high] = [Math.min(...drawn), Math.max(...drawn)];
    const size = Math.max(high - low, leastExtent);
    if (noted.every((place) => place >= low - size && place <= high + size)) return own;
    guessedAlong.push(axes[axis]);
    return noted.reduce((sum, place) => sum + place / noted.length, 0) - (low + high) / 2;
  };
  const origin: Vector = [along(0), along(1), pose.origin[2]];
  return { pose: { ...pose, origin }, guessedAlong };
}

/** The touch with the tool at its stop along the travel; a sweep stays about the axis. */
function stoppedAt(touch: Touch, stop: Vector | undefined): Touch {
  const { travelling } = touch;
  if (stop === undefined || travelling === "sweep" || travelling === "radial") return touch;
  const along = indexOfAxis(axisOf(travelling));
  const positions = touch.positions.map(
    (position) => position.map((value, axis) => (axis === along ? stop[axis] : value)) as unknown as Touch["positions"][number],
  );
  return { ...touch, positions };
}

/**
 * Where the tool stands before it goes on to the metal. Across its travel that is the place that was noted; about a round wall its axis, unless the other
 * touches tell where a noted place lies on the part.
 */
function startOf(touch: PlannedTouch, element: Element, { places }: LocatedPart, pose: KnownPose): Touch["positions"][number] {
  const nominal = axes.map((_, axis) => places.get(element.id)?.[axis]?.nominal ?? 0) as unknown as Vector;
  const turned = turnAboutZ(nominal, pose.rotation);
  const drawn = turned.map((value, axis) => value + (pose.origin[axis] as number));
  const isRound = element.kind === "bore" || element.kind === "boss";
  const travel = touch.travelling === "sweep" || touch.travelling === "radial" ? undefined : unitVector(touch.travelling);
  // Within a bore half-way to the wall; outside a boss well off it.
  const back = element.kind === "bore" ? element.diameter / 4 : element.kind === "boss" ? -element.diameter : 0;
  return axes.map((_, axis) => {
    const own = travel?.[axis] ?? 0;
    if (own !== 0) return (drawn[axis] as number) + own * back;
    if (isRound && axis < 2 && (travel === undefined || !pose.determined[axis])) return drawn[axis];
    return touch.place[axis] ?? (isRound && axis < 2 ? drawn[axis] : undefined);
  }) as unknown as Touch["positions"][number];
}
