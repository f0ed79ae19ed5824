import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { type Axis, axes, turnAboutZ, type Vector } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import { outwardOf } from "../contacts/outwardOf.ts";
import type { FrameSolution } from "../frame/solveFrame.ts";
import type { LocatedPart } from "../part/locateElements.ts";
import { certain, sum, type Uncertain } from "../uncertainty/uncertain.ts";
import type { PartDisplacement, Seating } from "./seating.ts";
import type { Setup } from "./setup.ts";
import { tellsPlane } from "./tilt.ts";

/** How far a point of the part lies from where its frame has it, along X, Y and Z, mm; undefined along an axis that nothing holds. */
export type Displacement = (place: Vector) => readonly [Uncertain | undefined, Uncertain | undefined, Uncertain | undefined];

/** A part that is known in the drawing's frame where the fixture has it. */
export interface Seated {
  readonly displacement: Displacement;
  /** Turn of the part in that frame, radians; undefined where nothing holds it. */
  readonly turn: Uncertain | undefined;
  /**
   * How far the metal that a contact meets stands out from where that frame has it, along its outward normal, mm: of a touch on the fixture what its feature is off,
   * of one on the part how far the part is displaced there.
   */
  readonly standOff: (contact: Contact) => Outcome<Uncertain>;
}

/** Names of locators that touches and checks name where they would name a face of the part; one that is named like an element of the part cannot be read. */
export function touchedFeatures({ part, fixture, touches, planned, checks, unread }: Setup): ReadonlySet<string> {
  const named = new Set([...touches, ...planned, ...checks].map(({ element }) => element));
  for (const { id } of part.elements) named.delete(id);
  for (const id of named)
    if (unread.has(`part.elements.${id}`) || !(unread.has(`fixture.locators.${id}`) || fixture.locators.some((each) => each.id === id)))
      named.delete(id);
  return named;
}

/** The setup in which touches find the features of the fixture beside the elements of the part. */
export function withFeatures(
  setup: Setup,
  located: LocatedPart,
  { features: { elements, places, problems } }: Seating,
): { readonly setup: Setup; readonly located: LocatedPart } {
  return {
    setup: {
      ...setup,
      part: { ...setup.part, elements: [...setup.part.elements, ...elements] },
      unread: new Set([...setup.unread, ...[...problems.keys()].map((id) => `fixture.locators.${id}`)]),
    },
    located: { ...located, places: new Map([...located.places, ...places]) },
  };
}

/** What is looked at together, seen from the drawing's frame where the fixture has it. */
export interface SeatedView {
  readonly isOnFixture: (contact: Contact) => boolean;
  /** Those that tell where the frame is: along an axis along which no locator pushes, the part lies where those on the part find it. */
  readonly contacts: readonly Contact[];
  /** In which contacts find their places on the drawing. */
  readonly frame: FrameSolution;
  /** Whether touches from above tell how high and how tilted the part lies, whatever it rests on. */
  readonly heightsByTouches: boolean;
}

/** The part as seen from the drawing's frame where the fixture has it. */
export function seatedPart(seating: Seating, displaced: PartDisplacement, view: SeatedView): Seated {
  const { isOnFixture, contacts, frame, heightsByTouches } = view;
  const met = axes.map((_, i) =>
    contacts.some((contact) => !isOnFixture(contact) && Math.abs(outwardOf(contact, frame.rotation.value)[i] as number) > slanted),
  );
  const along = (place: Vector, axis: Axis): Uncertain | undefined => {
    if (axis === "Z" && heightsByTouches) return certain(0);
    if (!displaced.isOpen(axis)) return displaced.along(place, axis);
    return met[axes.indexOf(axis)] === true ? byTurns(place, axis, displaced) : undefined;
  };
  const standOff = (contact: Contact): Outcome<Uncertain> => {
    const outward = outwardOf(contact, frame.rotation.value);
    const { place, known } = placeOnPart(contact, view);
    if (isOnFixture(contact)) {
      const counts = seating.variesAlong(contact.element);
      if (counts !== undefined && !known[axes.indexOf(counts)])
        return failure(unknownPlace(contact, counts, `the ends of "${contact.element}" may stand off by different amounts`));
      return success(seating.metalOf(contact.element, place, outward));
    }
    const parts: Uncertain[] = [];
    for (const [i, axis] of axes.entries()) {
      if (outward[i] === 0 || (axis === "Z" && heightsByTouches)) continue;
      const open = axes.find((other, k) => other !== axis && !known[k] && !isSure(displaced.turns[3 - i - k] as Uncertain | undefined));
      if (open !== undefined) return failure(unknownPlace(contact, open, "the part may lie turned or tilted by its locators"));
      const moved = along(place, axis);
      if (moved === undefined)
        return failure({
          at: `touches.${contact.touch}`,
          what: `the locators do not hold the part along ${axis} at "${contact.element}", so a touch on it tells nothing beside those on the fixture`,
          remedy: "see what is said at the locators",
        });
      parts.push(moved.times(outward[i] as number));
    }
    return success(sum(parts));
  };
  return {
    displacement: (place) => [along(place, "X"), along(place, "Y"), along(place, "Z")],
    turn: displaced.turns[2],
    standOff,
  };
}

/** Cosine below which a contact says nothing along an axis. */
const slanted = 1e-3;

function isSure(turn: Uncertain | undefined): boolean {
  return turn !== undefined && turn.operation.kind === "constant" && turn.value === 0;
}

/** What turns alone move a point by, from the drawing's origin. */
function byTurns([x, y, z]: Vector, axis: Axis, { turns }: PartDisplacement): Uncertain | undefined {
  const arms: readonly (readonly [turn: 0 | 1 | 2, arm: number])[] =
    axis === "X"
      ? [
          [1, z],
          [2, -y],
        ]
      : axis === "Y"
        ? [
            [2, x],
            [0, -z],
          ]
        : [
            [0, y],
            [1, -x],
          ];
  const parts: Uncertain[] = [];
  for (const [turn, arm] of arms) {
    if (arm === 0) continue;
    const turned = turns[turn];
    if (turned === undefined) return undefined;
    parts.push(turned.times(arm));
  }
  return sum(parts);
}

/** Where a contact met metal, in the drawing's frame, and which coordinates of that are known. */
function placeOnPart({ metal }: Contact, { frame }: SeatedView): { readonly place: Vector; readonly known: readonly boolean[] } {
  const { origin, rotation, determined } = frame;
  const from = (axis: 0 | 1 | 2) => (determined[axis] ? origin[axis].value : 0);
  const [x, y, z] = metal.place;
  return {
    place: turnAboutZ([x - from(0), y - from(1), z - from(2)], -rotation.value),
    known: ([0, 1, 2] as const).map((axis) => metal.known[axis] && determined[axis]),
  };
}

function unknownPlace({ touch }: Contact, axis: Axis, reason: string): Problem {
  return {
    at: `touches.${touch}.${axis.toLowerCase()}`,
    what: `${reason}, so what "${touch}" tells rests on where along ${axis} it was taken, which is not known`,
    got: "",
    remedy: `note the ${axis} of the touch, ${axis === "Z" ? "state the length of its tool, " : ""}and let a touch find ${axis}`,
  };
}

/** Whether some face of the part is touched from above at such places that its tilt follows. */
export function tellsHeights(contacts: readonly Contact[]): boolean {
  const places = new Map<string, Vector[]>();
  for (const { surface, element, noted, centre } of contacts)
    if (surface.kind === "plane" && axisOfNormal(surface.outward) === "Z" && noted[0] && noted[1])
      places.set(element, [...(places.get(element) ?? []), centre]);
  return [...places.values()].some(tellsPlane);
}

function axisOfNormal(outward: Vector): Axis | undefined {
  return axes.find((_, i) => outward[i] !== 0);
}
