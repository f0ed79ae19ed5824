import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { axes, indexOfAxis } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import { turnInTheBatch } from "../datum/partSizes.ts";
import type { SeatedStrategy } from "../datum/solveStrategy.ts";
import type { Tilt } from "../datum/tilt.ts";
import { squarenessAbout } from "../equipment/squareness.ts";
import { holdsAlone } from "../fixture/holdsAlone.ts";
import type { FixtureLocation } from "../fixture/locateInFixture.ts";
import { type DrawnPart, tiltsIn } from "../part/components.ts";
import { outOfSquareAbout } from "../part/outOfSquare.ts";
import { axesOf, type Element, type Orientation, rowOf, surfacesOf } from "../part/part.ts";
import { sum, type Uncertain } from "../uncertainty/uncertain.ts";

/**
 * How everything is turned and tilted in one view. What is cut here stands as the machine's motions stand, and is turned about Z as the programme is.
 * What was there lies as the part does: turned and tilted as the touches have it, or as the fixture has it where they do not tell. The fixture is taken to stand by the plane of X and Y and by the
 * way along X; what it stands off them belongs into the errors of its locators. Three touches of one face from above tell the tilt of this part themselves.
 */
export interface Attitudes {
  readonly location: PartLocation;
  readonly elements: ReadonlyMap<string, Element>;
  /** Turn of the programme's coordinates about Z. */
  readonly programme: Uncertain;
  /** Turn of the part about Z by the touches, or as it is taken to lie where they do not tell. */
  readonly part: Uncertain;
  /** Whether touches tell that turn, the contacts that it rests on, and whether the first datum among them has it alone. */
  readonly turnByTouches: { readonly isKnown: boolean; readonly contacts: readonly Contact[]; readonly firstDatumRules: boolean };
  /** How the part lies in the frame of a zero that rests on its fixture; undefined where touches on the part find it. */
  readonly seated: SeatedStrategy | undefined;
  /** How what an earlier operation has cut is turned about Z against the datums as received, radians; undefined where that is not in doubt. */
  readonly turnedEarlier: (element: Element) => Uncertain | undefined;
  /** Whether touches of this part find that turn. */
  readonly isFoundTurned: (element: Element) => boolean;
  /** Tilt of this part by touches from above; undefined where they do not tell it, and in the batch. */
  readonly tilt: Tilt | undefined;
  /** The part set against its locators. */
  readonly fixture: () => Outcome<FixtureLocation>;
}

type Triple = readonly [number, number, number];

/**
 * The deviation of an orientation: what each of its turns makes of the feature against its datum. Whatever moves both alike cancels.
 *
 * @returns a problem where a turn that counts is determined by no entry
 */
export function orientationDeviation(
  characteristic: Orientation,
  { signs }: Pick<DrawnPart, "signs">,
  attitudes: Attitudes,
): Outcome<readonly Uncertain[]> {
  const at = `part.characteristics.${rowOf(characteristic)}`;
  const of = attitudes.elements.get(characteristic.of) as Element;
  const from = attitudes.elements.get(characteristic.from) as Element;
  const tilts = tiltsIn(characteristic, signs);
  const problems: Problem[] = [];
  const turns = new Map<number, Uncertain>();
  for (const about of new Set(tilts.flatMap((tilt) => tilt.map((each) => indexOfAxis(each.about))))) {
    const turn = turnBetween(of, from, about, attitudes, at);
    if (turn.ok) turns.set(about, turn.value);
    else problems.push(...turn.problems);
  }
  if (problems.length > 0) return failure(...new Map(problems.map((problem) => [`${problem.at} ${problem.what}`, problem])).values());
  return success(tilts.map((tilt) => sum(tilt.map(({ about, factor }) => (turns.get(indexOfAxis(about)) as Uncertain).times(factor)))));
}

function turnBetween(of: Element, from: Element, about: 0 | 1 | 2, attitudes: Attitudes, at: string): Outcome<Uncertain> {
  const missing = squarenessMissing(of, from, about, attitudes);
  if (missing !== undefined) return failure(missing);
  if (of.made === "here" && from.made === "here") {
    if (followAlike(of, from, about, attitudes))
      return failure({
        at,
        what: `both are cut here by the same motions of the machine, and no entry says how far two such cuts differ about ${axes[about]}`,
        expected: "a datum that was there before, or one that other motions cut",
        got: `"${of.id}" against "${from.id}"`,
      });
    return success(cutTurn(of, about, attitudes).minus(cutTurn(from, about, attitudes)));
  }
  const turn = (element: Element) =>
    element.made === "here" ? success(cutTurn(element, about, attitudes)) : partTurn(element, about, attitudes, at);
  const [end, start] = [turn(of), turn(from)];
  if (!end.ok) return end;
  return start.ok ? success(end.value.minus(start.value)) : start;
}

/** How the direction of a cut follows the machine's squareness about X, Y and Z, by each of them. */
function cutFollows(element: Element, about: 0 | 1 | 2, { programme, elements }: Pick<Attitudes, "programme" | "elements">): Triple {
  const [cosine, sine] = [Math.cos(programme.value), Math.sin(programme.value)];
  const [axis = "Z"] = element.kind === "bore" || element.kind === "boss" ? [] : axesOf(element, elements);
  if (about === 2) {
    // A way along (u, v) leaves it by -s·v along X, and so turns by s·v² (u² + v² = 1).
    const alongY = axis === "X" ? cosine : sine;
    return [0, 0, alongY * alongY];
  }
  // What is cut flat lies as the ways along X and Y do; all else stands as what is upright, seen in the turned coordinates.
  if (axis === "Z" && (element.kind === "face" || element.kind === "middle")) return [0, 0, 0];
  return about === 0 ? [cosine, sine, 0] : [-sine, cosine, 0];
}

/** Turn of what is cut here, seen from the machine's axes, radians. */
export function cutTurn(element: Element, about: 0 | 1 | 2, attitudes: Attitudes): Uncertain {
  const { machine } = attitudes.location.setup;
  const { book } = attitudes.location;
  const own = sum(
    cutFollows(element, about, attitudes).flatMap((factor, k) =>
      factor === 0 ? [] : [squarenessAbout(machine, k as 0 | 1 | 2, book).times(factor)],
    ),
  );
  return about === 2 ? attitudes.programme.plus(own) : own;
}

/** Factors below this are rounding. */
const nothing = 1e-9;

function followAlike(of: Element, from: Element, about: 0 | 1 | 2, attitudes: Attitudes): boolean {
  const [a, b] = [cutFollows(of, about, attitudes), cutFollows(from, about, attitudes)];
  return a.every((factor, k) => Math.abs(factor - (b[k] as number)) < nothing);
}

/** What a squareness that nobody stated would have to say: a doubt of nothing is never taken for none. */
function squarenessMissing(of: Element, from: Element, about: 0 | 1 | 2, attitudes: Attitudes): Problem | undefined {
  const { squareness } = attitudes.location.setup.machine;
  // Touches of a datum that itself tells the turn are taken by the same ways as the cut: what both follow alike cancels.
  const follows = (element: Element): Triple =>
    element.made === "here" || (about === 2 && tellsTurn(element, attitudes)) ? cutFollows(element, about, attitudes) : [0, 0, 0];
  const [a, b] = [follows(of), follows(from)];
  const open = ([0, 1, 2] as const).find((k) => squareness[k] === undefined && Math.abs(a[k] - b[k]) >= nothing);
  if (open === undefined) return undefined;
  return {
    at: `machine.squareness.${(axes[open] as string).toLowerCase()}`,
    what: `how "${of.id}" stands to "${from.id}" rests on the squareness of the machine about ${axes[open]}, which is not stated`,
    expected: "half-width over a length, such as 0.02 mm over 300 mm; 0 if there is none",
    got: "",
    remedy: "see the machine's test record, or sweep it with an indicator (what is read on the way, over the way)",
  };
}

/** How what was there is turned about an axis in the machine, radians. */
function partTurn(element: Element, about: 0 | 1 | 2, attitudes: Attitudes, at: string): Outcome<Uncertain> {
  const { location, turnByTouches, seated } = attitudes;
  const part = seated?.turn ? attitudes.part.plus(seated.turn) : attitudes.part;
  if (about === 2 && tellsTurn(element, attitudes)) return success(plusEarlier(part, attitudes.turnedEarlier(element)));
  if (about === 2 && turnByTouches.isKnown)
    return withOwn(element, about, part, "the touches that tell how the part is turned", attitudes, at);
  if (about !== 2 && attitudes.tilt !== undefined) {
    const { face, about: tilts } = attitudes.tilt;
    const tilt = about === 0 ? tilts.X : tilts.Y;
    return surfacesOf(element).includes(face)
      ? success(tilt)
      : withOwn(element, about, tilt, `"${face}", whose touches tell the tilt,`, attitudes, at);
  }
  const fixture = attitudes.fixture();
  const held = fixture.ok ? fixture.value.turns[about] : undefined;
  const turn = about === 2 && seated !== undefined && held !== undefined ? part : held;
  if (!fixture.ok || turn === undefined)
    return failure({
      at,
      what: `nothing determines how the part is ${about === 2 ? "turned" : "tilted"} about ${axes[about]}`,
      expected:
        about === 2
          ? "touches of a face at two places, applied by the strategy, or locators"
          : "locators that hold this tilt, or for this part three touches of one face from above with X and Y noted",
      got: fixture.ok
        ? "locators that leave it free"
        : location.setup.fixture.locators.length === 0
          ? "no locator"
          : "locators that cannot be used",
      remedy: about === 2 ? "touch a face at two places, or state what the part is set against" : "state what the part is set against",
    });
  // The locators meet the part of the batch, also for this part.
  return holdsAlone(element, about, fixture.value, location.setup)
    ? success(about === 2 ? plusEarlier(turn, turnInTheBatch(element, location.sizes)) : turn)
    : withOwn(element, about, turn, "what the locators hold", attitudes, at);
}

function plusEarlier(turn: Uncertain, earlier: Uncertain | undefined): Uncertain {
  return earlier === undefined ? turn : turn.plus(earlier);
}

/** With how far the element itself may stand off what tells how the part lies. */
function withOwn(element: Element, about: 0 | 1 | 2, turn: Uncertain, told: string, attitudes: Attitudes, at: string): Outcome<Uncertain> {
  if (element.outOfSquare === undefined) {
    const rests = at.slice("part.characteristics.".length);
    return failure({
      at: `part.elements.${element.id}.outOfSquare`,
      what:
        element.cutIn === undefined
          ? `how "${element.id}" stands about ${axes[about]} to ${told} is not stated, and ${rests} rests on it`
          : `how "${element.id}" stands about ${axes[about]} to ${told} is not carried on from operation ${element.cutIn}, which has cut it, and ${rests} rests on it`,
      expected: "half-width of the angle by which it may be out of square, such as 0.01 deg; 0 if there is none",
      got: "",
      remedy: about === 2 ? "state it, or touch this element itself at two places" : "state it, or set the part on this element itself",
    });
  }
  const { book, setup } = attitudes.location;
  const own = outOfSquareAbout(element, about, book);
  // One source in all operations: seen from the other side it turns the other way.
  return success(turn.plus(setup.operation?.signs[about] === -1 ? own.negated() : own));
}

/**
 * Whether the element is what tells the turn about Z: the first upright datum, or the only upright face, that was touched more than once; or what an
 * earlier operation has cut, where touches tell how it lies itself.
 */
function tellsTurn(element: Element, attitudes: Attitudes): boolean {
  const {
    turnByTouches: { isKnown, contacts, firstDatumRules },
    elements,
  } = attitudes;
  const counts = new Map<string, number>();
  for (const { element: touched, surface, travel } of contacts)
    if (surface.kind === "plane" && travel[2] === 0) counts.set(touched, (counts.get(touched) ?? 0) + 1);
  const telling = [...counts].flatMap(([id, count]) => (count > 1 ? [id] : []));
  const own = surfacesOf(element);
  if (!telling.some((id) => own.includes(id))) return false;
  if (attitudes.isFoundTurned(element)) return true;
  if (!isKnown) return false;
  if (telling.every((id) => own.includes(id))) return true;
  if (!firstDatumRules) return false;
  const letters = telling
    .map((id) => elements.get(id)?.datum ?? "")
    .filter((letter) => letter !== "")
    .sort();
  return letters.length > 0 && own.some((id) => elements.get(id)?.datum === letters[0]);
}
