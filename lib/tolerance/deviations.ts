import { once } from "../base/once.ts";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { type Axis, axes, axisOf, indexOfAxis, turnAboutZ, type Vector } from "../base/vector.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import { diameterInTheBatch } from "../datum/partSizes.ts";
import {
  type BatchSolution,
  isTurnedByPart,
  notTouchedYet,
  type ReadingsSolution,
  type StrategyFrame,
  type StrategySolution,
  workingSide,
} from "../datum/solveStrategy.ts";
import { liftAt, type Tilt } from "../datum/tilt.ts";
import { leanAt } from "../datum/tiltAcross.ts";
import { type Turn, turnBy, turned } from "../datum/turn.ts";
import { offsetRounding } from "../equipment/offsetRounding.ts";
import { positioningPerLength } from "../equipment/positioning.ts";
import { squarenessAbout, squarenessMoves } from "../equipment/squareness.ts";
import { locateInFixture } from "../fixture/locateInFixture.ts";
import type { FrameSolution } from "../frame/solveFrame.ts";
import { apart, componentsOf, type DrawnPart, drawnPart, type Term } from "../part/components.ts";
import { cutterDeflection } from "../part/cutterDeflection.ts";
import type { DatumSystem } from "../part/datumSystem.ts";
import { axesOf, basicPlace, type Characteristic, cutsOf, type Element, isOrientation, type Round, rowOf } from "../part/part.ts";
import { scatterOfCut } from "../part/scatterOfCut.ts";
import { betweenCentres, sideOf, type WallBounds, wallBounds } from "../part/wall.ts";
import { binary, certain, sum, type Uncertain } from "../uncertainty/uncertain.ts";
import { type Attitudes, cutTurn, orientationDeviation } from "./orientation.ts";

/** Deviation of a characteristic from what the drawing wants, mm, or radians of an angle: X and Y in a round zone, one component otherwise. */
export type Deviation = readonly Uncertain[];

/**
 * Two questions that are never mixed: `thisPart`, given the readings just taken
 * (the register holds a number, the part is what is doubtful); and `batch`,
 * before touching (the part is as drawn within its tolerances, the number that
 * the touches will give is what is doubtful).
 */
export type View = "thisPart" | "batch";

type Triple = readonly [Uncertain, Uncertain, Uncertain];

/** Everything that a deviation is measured with, in one view. */
interface Scene {
  readonly location: PartLocation;
  readonly drawn: DrawnPart;
  readonly solution: StrategyFrame;
  /** The programme's coordinates. */
  readonly programme: Turn;
  /** The drawing's frame, seen from the machine. */
  readonly drawing: Turn;
  /** How far the programme's zero ends up from the drawing's origin, in machine axes, with all errors of the machine that do not depend on the place. */
  readonly between: Triple;
  /** Positioning per mm of the machine's coordinates. */
  readonly positioning: Triple;
  /** Machine coordinates of a place on the drawing, for the positioning there. */
  readonly machinePlace: (place: Vector) => Vector;
  /** Deviations of the part's sizes from nominal. */
  readonly sizes: readonly Uncertain[];
  /** How far the part lies from where its frame has it, where no touch tells. */
  readonly seated: StrategyFrame["seated"];
  /** How this part lies askew in height; nothing where no touches tell, and in the batch. */
  readonly tilt: Tilt | undefined;
  /** Axes X, Y, Z for which both frames are determined. */
  readonly determined: readonly [boolean, boolean, boolean];
  /** How what is cut here and what was there are turned and tilted. */
  readonly attitudes: Attitudes;
  /** What an element is off, worked out once. */
  readonly off: Map<string, readonly (Uncertain | undefined)[]>;
}

/** Deviations of all characteristics under one strategy in one view, in document order. */
export function deviations(solution: StrategySolution, location: PartLocation, view: View): Outcome<Deviation>[] {
  return view === "batch" ? deviationsInTheBatch(solution, location) : deviationsOfThisPart(solution, location);
}

/** The same for this part, where nothing of the batch is asked for. */
export function deviationsOfThisPart(solution: ReadingsSolution, location: PartLocation): Outcome<Deviation>[] {
  const { setup, located } = location;
  const drawn = drawnPart(setup.part, located, setup.operation);
  // Touches that disagree count otherwise in another system.
  const scenes = new Map<DatumSystem | undefined, Outcome<Scene>>();
  return setup.part.characteristics.map((characteristic) => {
    const system = "datums" in characteristic ? characteristic.datums : undefined;
    const scene = scenes.get(system) ?? thisPartScene(solution, location, drawn, system ? location.thisPartBy(system) : location.thisPart);
    scenes.set(system, scene);
    return scene.ok ? deviationOf(characteristic, scene.value) : scene;
  });
}

/** The same in the batch, where nothing of the readings is asked for. */
export function deviationsInTheBatch(solution: BatchSolution, location: PartLocation): Outcome<Deviation>[] {
  const { setup, located } = location;
  const scene = batchScene(solution, location, drawnPart(setup.part, located, setup.operation));
  return setup.part.characteristics.map((characteristic) => deviationOf(characteristic, scene));
}

/** Where a strategy puts what is cut, in one view: mm along the axes of the machine, off its place on the drawing, in the frame of the datums as received. */
export interface CutPlaces {
  /** By element that is cut here; undefined along an axis where it has no place, or where that is not known. */
  readonly places: ReadonlyMap<string, readonly (Uncertain | undefined)[]>;
  /** How an element that is cut here is turned about Z, radians; undefined where that is not known. */
  readonly turnOf: (element: Element) => Uncertain | undefined;
}

export function cutPlaces(solution: StrategySolution, location: PartLocation, view: View): Outcome<CutPlaces> {
  const drawn = drawnPart(location.setup.part, location.located, location.setup.operation);
  const found =
    view === "batch" ? success(batchScene(solution, location, drawn)) : thisPartScene(solution, location, drawn, location.thisPart);
  if (!found.ok) return found;
  const scene = found.value;
  const placesOf = (element: Element) => {
    const off = placeDeviations(element, scene);
    return axes.map((axis, i) => (axesOf(element, drawn.elements).includes(axis) && scene.determined[i] ? off[i] : undefined));
  };
  const cut = [...drawn.elements.values()].filter(({ made }) => made === "here");
  return success({
    places: new Map(cut.map((element) => [element.id, placesOf(element)])),
    turnOf: (element) => turnOfCut(element, scene),
  });
}

/** Where the programme's zero and the drawing's frame are, and how they are turned. */
interface Frames {
  readonly zero: Triple;
  readonly programme: Uncertain;
  readonly origin: Triple;
  readonly drawing: Uncertain;
}

function thisPartScene(
  solution: ReadingsSolution,
  location: PartLocation,
  drawn: DrawnPart,
  found: PartLocation["thisPart"],
): Outcome<Scene> {
  const untaken = notTouchedYet(solution);
  if (untaken) return failure(untaken);
  if (!found.ok) return found;
  const part: FrameSolution = found.value;
  const seated = location.seated && { ...location.seated, isTurnedByPart: isTurnedByPart(location.counted, location) };
  const { zero, rotation } = solution.fromReadings;
  return success(
    sceneOf(
      {
        zero: exactly(zero),
        programme: certain(solution.appliesRotation ? rotation.value : 0),
        origin: part.inTruth.origin,
        drawing: part.inTruth.rotation,
      },
      part.inTruth.sizes,
      part,
      solution,
      location,
      drawn,
      { contacts: location.counted, isKnown: part.turnsByTouches && seated?.isTurnedByPart !== false, firstDatumRules: true },
      { tilt: location.tilt, seated },
    ),
  );
}

function batchScene(solution: BatchSolution, location: PartLocation, drawn: DrawnPart): Scene {
  // A part that nobody touches lies where its strategy has it, not where this one was found.
  const isFound = solution.seated === undefined && solution.waiting.length === 0;
  const part = location.thisPart.ok && isFound ? location.thisPart.value : solution.frame;
  const { zero, rotation } = solution.inTheBatch;
  return sceneOf(
    {
      zero,
      programme: solution.appliesRotation ? rotation : certain(0),
      origin: exactly(part.origin),
      drawing: certain(part.rotation.value),
    },
    location.sizes.sizes.map(({ batch }) => batch),
    part,
    solution,
    location,
    drawn,
    // What a strategy does not apply, the programme does not follow: how the next part is turned is then for the fixture to say.
    {
      contacts: solution.contacts,
      isKnown: solution.appliesRotation && solution.determined[3] && solution.seated?.isTurnedByPart !== false,
      firstDatumRules: false,
    },
    { seated: solution.seated },
  );
}

function exactly(values: Triple): Triple {
  return values.map(({ value }) => certain(value)) as unknown as Triple;
}

/** What all characteristics share is made once. */
function sceneOf(
  { zero, programme, origin, drawing }: Frames,
  sizes: readonly Uncertain[],
  part: FrameSolution,
  solution: StrategyFrame,
  location: PartLocation,
  drawn: DrawnPart,
  turn: Attitudes["turnByTouches"],
  { seated, tilt }: Partial<Pick<Scene, "seated" | "tilt">>,
): Scene {
  const { book, setup } = location;
  const along = (of: (axis: 0 | 1 | 2) => Uncertain): Triple => [of(0), of(1), of(2)];
  return {
    location,
    drawn,
    solution,
    programme: turnBy(programme),
    drawing: turnBy(drawing.negated()),
    // Zero and frame are both some hundred millimetres: their difference is taken first, so that no digit is lost.
    between: along((axis) => sum([zero[axis].minus(origin[axis]), workingSide(location, axis), offsetRounding(setup.machine, axis, book)])),
    positioning: along((axis) => positioningPerLength(setup.machine, axis, book)),
    machinePlace: (place) => {
      const [x, y, z] = turnAboutZ(place, part.rotation.value);
      return [x + part.origin[0].value, y + part.origin[1].value, z + part.origin[2].value];
    },
    sizes,
    seated,
    tilt,
    determined: bothDetermined(solution, part),
    attitudes: {
      location,
      elements: drawn.elements,
      programme,
      part: drawing,
      turnByTouches: turn,
      seated,
      turnedEarlier: ({ id }) => {
        const index = location.sizes.indexOfTurn(id);
        return index === undefined ? undefined : sizes[index];
      },
      isFoundTurned: ({ id }) => turn.firstDatumRules && part.sizesDetermined[location.sizes.indexOfTurn(id) ?? -1] === true,
      tilt,
      fixture: once(() => locateInFixture(location)),
    },
    off: new Map(),
  };
}

function bothDetermined({ determined, appliesRotation }: StrategyFrame, part: FrameSolution): [boolean, boolean, boolean] {
  const turns = appliesRotation ? determined[3] : true;
  const along = (axis: 0 | 1 | 2) => determined[axis] && part.determined[axis] && (axis === 2 || turns);
  return [along(0), along(1), along(2)];
}

function deviationOf(characteristic: Characteristic, scene: Scene): Outcome<Deviation> {
  const at = `part.characteristics.${rowOf(characteristic)}`;
  const of = elementOf(characteristic.of, `${at}.of`, scene);
  if (!of.ok) return of;
  const from = "from" in characteristic ? elementOf(characteristic.from, `${at}.from`, scene) : undefined;
  if (from?.ok === false) return from;
  if (isOrientation(characteristic)) return orientationDeviation(characteristic, scene.drawn, scene.attitudes);
  const bounds = characteristic.kind === "wall thickness" && from ? wallBounds(of.value, from.value) : undefined;
  const components: Uncertain[] = [];
  for (const { axis, terms } of bounds ? wallComponents(bounds, scene.drawn) : componentsOf(characteristic, scene.drawn)) {
    const off = componentOf(axis, terms, at, scene);
    if (!off.ok) return off;
    components.push(off.value);
  }
  if (components.length === 0) return failure({ at, what: "nothing ties its elements to datums", remedy: "see what is said at them" });
  return success(bounds ? [wallDeviation(bounds, components, scene)] : components);
}

/** What moves a wall's bounds apart along each axis by itself: the distance of two centres bends with both. */
function wallComponents({ bore, other }: WallBounds, drawn: DrawnPart): { readonly axis: Axis; readonly terms: readonly Term[] }[] {
  const alongAxes: readonly Axis[] = other.kind === "face" ? [axisOf(other.outward)] : ["X", "Y"];
  return alongAxes.map((axis) => ({ axis, terms: apart(bore.id, other.id, axis, drawn) }));
}

function componentOf(along: Axis, terms: readonly Term[], at: string, scene: Scene): Outcome<Uncertain> {
  const { elements } = scene.drawn;
  const cutHere = terms.some(({ element }) => elements.get(element)?.made === "here");
  let total: Uncertain | undefined;
  for (const term of terms) {
    const axis = term.kind === "place" ? term.axis : along;
    if (cutHere && !scene.determined[indexOfAxis(axis)]) return failure(notDetermined(at, axis, scene));
    const off = termOff(term, scene);
    if (off === undefined)
      return failure({
        at,
        what:
          term.kind === "place" ? `one of its elements has no place along ${axis}` : `how "${term.element}" is turned about Z is not known`,
        remedy: term.kind === "place" ? `tie it to a datum along ${axis}` : "see what is said at the locators",
      });
    total = total === undefined ? scaled(off, term.factor) : term.factor === -1 ? total.minus(off) : total.plus(scaled(off, term.factor));
  }
  return success(total ?? certain(0));
}

function scaled(value: Uncertain, factor: number): Uncertain {
  return factor === 1 ? value : value.times(factor);
}

/** What an element does against the datums as received; undefined where it has no place there, or where nothing tells. */
function termOff(term: Term, scene: Scene): Uncertain | undefined {
  const element = scene.drawn.elements.get(term.element);
  if (element === undefined) return undefined;
  if (term.kind === "place") return placeDeviations(element, scene)[indexOfAxis(term.axis)];
  // What was received makes the frame up: a face of it has no turn of its own here.
  return element.made === "here" ? turnOfCut(element, scene) : (scene.attitudes.turnedEarlier(element) ?? certain(0));
}

/** How what is cut here is turned about Z against the datums as received, radians; undefined where locators leave the part free to turn. */
function turnOfCut(element: Element, { attitudes, seated }: Scene): Uncertain | undefined {
  const turn = cutTurn(element, 2, attitudes).minus(attitudes.part);
  return seated === undefined ? turn : seated.turn && turn.minus(seated.turn);
}

/**
 * How much thicker a wall is than on the drawing: what the bore and the other bound of the wall move apart, less what the radii grow.
 *
 * @param moved how far the bore is from its place, less the same of the other: along the face's axis, or along X and Y
 */
function wallDeviation({ bore, other }: WallBounds, moved: readonly Uncertain[], scene: Scene): Uncertain {
  const [x, y] = moved as readonly [Uncertain, Uncertain?];
  if (other.kind === "face") return x.times(-sideOf(other)).minus(radiusDeviation(bore, scene));
  // From the other's centre to the bore's: both are placed, or there would be nothing in `moved`.
  const [alongX, alongY] = betweenCentres(other, bore, scene.location.located) as readonly [number, number];
  const apart = binary("hypotenuse", x.plus(alongX), (y as Uncertain).plus(alongY)).minus(Math.hypot(alongX, alongY));
  return sum([apart, radiusDeviation(bore, scene).negated(), radiusDeviation(other, scene).negated()]);
}

/** What is cut here is foreseen to vary as the drawing allows; what was there is as the view has it. */
function radiusDeviation(round: Round, { sizes, location }: Scene): Uncertain {
  const index = location.sizes.indexOfDiameter(round.id);
  return (index === undefined ? diameterInTheBatch(round, location.book) : (sizes[index] as Uncertain)).times(0.5);
}

function elementOf(id: string, at: string, { location }: Scene): Outcome<Element> {
  const element = location.setup.part.elements.find((each) => each.id === id);
  if (element !== undefined) return success(element);
  return location.setup.unread.has(`part.elements.${id}`)
    ? failure({ at, what: "this element of the part cannot be read", got: id, remedy: "see what is said there" })
    : failure({ at, what: "there is no such element of the part", got: id, remedy: "name one that the document lists, or add it" });
}

function notDetermined(at: string, axis: Axis, { solution }: Scene): Problem {
  const reason = solution.determined[indexOfAxis(axis)]
    ? `no touch on this part fixes the drawing's frame along ${axis}`
    : `"${solution.strategy.id}" does not fix ${axis}`;
  return { at, what: `${reason}, so the deviation along ${axis} is not known`, remedy: `add a touch that meets the part along ${axis}` };
}

/**
 * How far an element is from its nominal place along the axes of the drawing's frame; undefined along those where it has no place. A middle is by
 * definition half-way between its faces: where they are cut here and it states no doubt of a cut of its own, it follows theirs.
 */
function placeDeviations(element: Element, scene: Scene): readonly (Uncertain | undefined)[] {
  const known = scene.off.get(element.id);
  if (known !== undefined) return known;
  const off = workOutPlace(element, scene);
  scene.off.set(element.id, off);
  return off;
}

function workOutPlace(element: Element, scene: Scene): readonly (Uncertain | undefined)[] {
  const { sizes, located, setup } = scene.location;
  if (element.made === "here") {
    const [first, second] = cutsOf(element, setup.part.elements).map((cut) => cutDeviation(cut, scene));
    return (first ?? []).map((each, axis) => (second === undefined ? each : halfWay(each, second[axis])));
  }
  return (located.places.get(element.id) ?? []).map(
    (place) => place && sum([...place.gains].map(([id, gain]) => (scene.sizes[sizes.indexOf(id)] as Uncertain).times(gain))),
  );
}

function halfWay(a: Uncertain | undefined, b: Uncertain | undefined): Uncertain | undefined {
  return a && b && a.plus(b).times(0.5);
}

/** Where the programme really cuts, less where the drawing wants it, in the drawing's frame. */
function cutDeviation(
  element: Element,
  { location, solution, programme, drawing, between, positioning, machinePlace, seated, tilt }: Scene,
): readonly (Uncertain | undefined)[] {
  const basic = basicPlace(element);
  const { zeroOnPart } = solution;
  const place = machinePlace(basic);
  const programmed = turned(
    [certain(basic[0] - zeroOnPart[0]), certain(basic[1] - zeroOnPart[1]), certain(basic[2] - zeroOnPart[2])],
    programme,
  );
  const { machine: stated } = location.setup;
  const square = stated.squareness[2] === undefined ? undefined : squarenessAbout(stated, 2, location.book);
  const machine = (axis: 0 | 1 | 2) => {
    const cut = between[axis]
      .plus(programmed[axis])
      .plus(positioning[axis].times(place[axis]))
      .plus(scatterOfCut(element, axis, location.book))
      .plus(cutterDeflection(element, axis, location.book));
    return square && axis === 0 ? cut.plus(square.times(squarenessMoves(place, axis))) : cut;
  };
  const level = turned([machine(0), machine(1), machine(2)], drawing).map((along, axis) => along.minus(basic[axis as 0 | 1 | 2]));
  const lift = tilt && liftOf(element, tilt);
  const lean = tilt && leanOf(element, tilt, location);
  const across = lean ? [(level[0] as Uncertain).plus(lean[0]), (level[1] as Uncertain).plus(lean[1])] : level.slice(0, 2);
  const cut = [...across, lift ? (level[2] as Uncertain).minus(lift) : (level[2] as Uncertain)];
  if (seated === undefined) return cut;
  const displaced = seated.displacement(basic);
  return cut.map((along, axis) => {
    const moved = displaced[axis];
    return moved && along.minus(moved);
  });
}

/** How far the drawing's frame leaves a vertical cut along X and Y at the height that the element states; nothing where it states none: it counts at the touches' height. */
export function leanOf(
  { at: [, , z] }: Element,
  tilt: Tilt,
  { tiltAcross }: Pick<PartLocation, "tiltAcross">,
): readonly [x: Uncertain, y: Uncertain] | undefined {
  return z === undefined || typeof tiltAcross !== "object" ? undefined : leanAt({ ...tilt, across: tiltAcross }, z);
}

/**
 * How much higher the drawing's frame lies where an element is cut; nothing for one that is cut at no one place, or where nobody knows above which place of the drawing
 * the touches are: it counts at the touches' middle.
 */
export function liftOf({ at: [x, y] }: Element, tilt: Tilt): Uncertain | undefined {
  return x === undefined || y === undefined || !tilt.isPlaced ? undefined : liftAt(tilt, x, y);
}
