import { type Axis, axisOf, indexOfAxis } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import type { Element, Face, Middle } from "../part/part.ts";
import { canTurn, type PartLocation, strategyContacts } from "./locatePart.ts";
import type { Strategy } from "./strategy.ts";

/** One way to fix some axes: the touches that it needs, and the middle that it holds. */
interface Way {
  readonly touches: readonly string[];
  readonly hold: readonly string[];
  /** Whether the touches themselves turn the part: those of several round elements. */
  readonly turns?: boolean;
  readonly words: string;
}

/** One way to learn the skew. */
interface Turning {
  readonly rotation: Strategy["rotation"];
  readonly touches: readonly string[];
  readonly orient: readonly string[];
  readonly words: string;
}

/** More are not made: a search must end. */
const mostCandidates = 20_000;

export interface Candidates {
  readonly strategies: readonly Strategy[];
  /** Whether there would have been more. */
  readonly isCutShort: boolean;
}

/**
 * Every usual strategy that the touches of a setup allow, for the same part zero: along X and Y each touched face, by one of its touches or by
 * all; each middle whose two faces are touched; each bore, boss or pin that is touched all round, for both axes, and those of one datum letter together;
 * faces, pins and holes of the fixture like those of the part;
 * along Z each touched face; with
 * the skew ignored, measured by each upright face that is touched at two places, or measured there and applied to the coordinates. What of
 * these is determined, the solver tells.
 *
 * @param like whose part zero and sizes they share
 */
export function candidateStrategies(located: PartLocation, like: Strategy): Candidates {
  const { setup, isOnFixture } = located;
  const location: Touched = { elements: located.touchable.setup.part.elements, contacts: strategyContacts(located), setup, isOnFixture };
  const across = [...pairsOf(waysAlong("X", location), waysAlong("Y", location)), ...waysRound(location)];
  const along = waysAlong("Z", location);
  const strategies: Strategy[] = [];
  for (const plane of across)
    for (const height of along.length > 0 ? along : [nothing])
      for (const turning of turningsFor(plane, location)) {
        if (strategies.length >= mostCandidates) return { strategies, isCutShort: true };
        strategies.push({
          id: [plane.words, height.words, turning.words].filter((words) => words !== "").join("; "),
          touches: unique([...plane.touches, ...height.touches, ...turning.touches]),
          hold: plane.hold,
          orient: turning.orient,
          rotation: turning.rotation,
          sizes: like.sizes,
          zero: like.zero,
          fixtureFrame: undefined,
        });
      }
  return { strategies, isCutShort: false };
}

interface Touched extends Pick<PartLocation, "setup" | "contacts" | "isOnFixture"> {
  /** Of the part, and what of the fixture is touched. */
  readonly elements: readonly Element[];
}

const nothing: Way = { touches: [], hold: [], words: "" };

function waysAlong(axis: Axis, { setup, elements, contacts }: Touched): Way[] {
  const touched = facesAlong(axis, elements.filter(isFace), contacts);
  const faces = [...touched].flatMap(([face, touches]): Way[] => [
    { touches, hold: [], words: face },
    // Which of several touches is taken makes a difference only where the part is skewed or the face rough, so that each is a way of its own.
    ...(touches.length > 1 ? touches.map((touch): Way => ({ touches: [touch], hold: [], words: `${face} by ${touch} alone` })) : []),
  ]);
  const middles = setup.part.elements.filter(isMiddle).flatMap(({ id, of: [one, other] }): Way[] => {
    const [first, second] = [touched.get(one), touched.get(other)];
    if (first === undefined || second === undefined) return [];
    return [{ touches: [...first, ...second], hold: [id], words: `middle ${id}` }];
  });
  return [...faces, ...middles];
}

/** Touches by face that looks along the axis. */
function facesAlong(axis: Axis, faces: readonly Face[], contacts: readonly Contact[]): ReadonlyMap<string, readonly string[]> {
  const along = faces.filter(({ outward }) => axisOf(outward) === axis);
  return new Map(
    along.flatMap(({ id }) => {
      const touches = unique(contacts.filter(({ element }) => element === id).map(({ touch }) => touch));
      return touches.length > 0 ? [[id, touches] as const] : [];
    }),
  );
}

/** Round elements that their touches fix along X and Y. */
function waysRound({ elements, contacts }: Touched): Way[] {
  const letters = new Map<string, Way[]>();
  const single = elements.flatMap((element): Way[] => {
    if (element.kind !== "bore" && element.kind !== "boss") return [];
    const own = contacts.filter((contact) => contact.element === element.id);
    const way: Way = { touches: unique(own.map(({ touch }) => touch)), hold: [], words: element.id };
    if (own.length < 2) return [];
    if (element.datum !== "") letters.set(element.datum, [...(letters.get(element.datum) ?? []), way]);
    return [way];
  });
  // Several that are one datum place and turn the part together, by the best fit over all of them.
  const patterns = [...letters].flatMap(([letter, ways]): Way[] =>
    ways.length > 1 ? [{ touches: ways.flatMap(({ touches }) => touches), hold: [], turns: true, words: `all of datum ${letter}` }] : [],
  );
  return [...single, ...patterns];
}

function pairsOf(first: readonly Way[], second: readonly Way[]): Way[] {
  return first.flatMap((x) =>
    second.map((y): Way => ({ touches: [...x.touches, ...y.touches], hold: [...x.hold, ...y.hold], words: `${x.words}, ${y.words}` })),
  );
}

function turningsFor(plane: Way, { elements, contacts, isOnFixture }: Touched): Turning[] {
  const ignored: Turning = { rotation: "ignored", touches: [], orient: [], words: "" };
  const located = new Set(contacts.filter(({ touch }) => plane.touches.includes(touch)).map(({ element }) => element));
  // Only a face of the part can turn it without placing it.
  const upright = elements.filter(isFace).filter(({ id, outward }) => axisOf(outward) !== "Z" && (located.has(id) || !isOnFixture(id)));
  const byFaces = upright.flatMap(({ id }): Turning[] => {
    const own = contacts.filter((contact) => contact.element === id && canTurn(contact));
    if (new Set(own.map(placeAcross)).size < 2) return [];
    const way = { touches: unique(own.map(({ touch }) => touch)), orient: located.has(id) ? [] : [id] };
    return [
      { ...way, rotation: "measured", words: `skew by ${id}` },
      { ...way, rotation: "applied", words: `coordinates turned to ${id}` },
    ];
  });
  const byItself: readonly Turning[] =
    plane.turns === true
      ? [
          { rotation: "measured", touches: [], orient: [], words: "skew by them" },
          { rotation: "applied", touches: [], orient: [], words: "coordinates turned to them" },
        ]
      : [];
  return [ignored, ...byItself, ...byFaces];
}

/** Where along its face a touch was taken, so far as it was noted. */
function placeAcross({ travel, centre }: Contact): number {
  return centre[travel[0] !== 0 ? indexOfAxis("Y") : indexOfAxis("X")] as number;
}

function isFace(element: Element): element is Face {
  return element.kind === "face";
}

function isMiddle(element: Element): element is Middle {
  return element.kind === "middle";
}

function unique(names: readonly string[]): string[] {
  return [...new Set(names)];
}
