import { type Axis, axisOf, indexOfAxis } from "../base/vector.ts";
import { type CutDatums, cutDatums } from "./cutDatums.ts";
import { type DatumSystem, datumAlong, turnOf } from "./datumSystem.ts";
import type { LocatedPart } from "./locateElements.ts";
import { basicPlace, type Characteristic, cutsOf, type Element, isOrientation, type Orientation, type Part, type Tilt } from "./part.ts";
import type { AxisSigns } from "./partLies.ts";
import { betweenCentres, sideOf, wallBounds } from "./wall.ts";

/**
 * How far one element is off its place along an axis, or how far it is turned, against the frame that the datums as received make, times a factor: 1,
 * or what the geometry of the drawing makes of it. Axes are those of the machine, in which a part of several operations may lie turned.
 */
export type Term =
  | { readonly kind: "place"; readonly element: string; readonly axis: Axis; readonly factor: number }
  | { readonly kind: "turn"; readonly element: string; readonly about: Axis; readonly factor: number };

/** One component of a characteristic's deviation to first order, as a sum of what its elements do. */
export interface Component {
  /** The axis along which it is told, or that counts most; of an orientation, the one about which it turns. Told as the drawing has it, also where the part lies turned. */
  readonly axis: Axis;
  readonly terms: readonly Term[];
}

/** What components are made from: the elements by name, and where the drawing puts them. */
export interface DrawnPart {
  readonly elements: ReadonlyMap<string, Element>;
  readonly located: LocatedPart;
  /** What the drawing's frame rests on that one of several operations has cut; undefined where it rests on what was received. */
  readonly cutDatums: CutDatums | undefined;
  /** Which axes of the drawing point against the machine's. */
  readonly signs: AxisSigns;
}

/** @param operation which of several the part is in */
export function drawnPart(
  part: Pick<Part, "elements">,
  located: LocatedPart,
  operation: { readonly signs: AxisSigns } | undefined,
): DrawnPart {
  return {
    elements: new Map(part.elements.map((element) => [element.id, element])),
    located,
    cutDatums: operation && cutDatums(part),
    signs: operation?.signs ?? [1, 1, 1],
  };
}

/**
 * The components of a characteristic: X and Y in a round zone, one otherwise; of a wall, what its bounds move apart. None where nothing ties what it
 * is about to datums.
 */
export function componentsOf(characteristic: Characteristic, part: DrawnPart): readonly Component[] {
  const { of } = characteristic;
  const { signs } = part;
  if (isOrientation(characteristic)) {
    const { from } = characteristic;
    return tiltsIn(characteristic, signs).map((tilt) => ({
      axis: tilt[0]?.about ?? "Z",
      terms: tilt.flatMap(({ about, factor }): Term[] => [
        { kind: "turn", element: of, about, factor },
        { kind: "turn", element: from, about, factor: -factor },
      ]),
    }));
  }
  // A wall has no side.
  if (characteristic.kind === "wall thickness") return wallComponents(of, characteristic.from, part);
  return placeComponents(characteristic, part).map((component) => inDrawing(component, signs));
}

function placeComponents(
  characteristic: Exclude<Characteristic, { readonly tilts: unknown } | { readonly kind: "wall thickness" }>,
  part: DrawnPart,
): readonly Component[] {
  const { of } = characteristic;
  switch (characteristic.kind) {
    case "position":
      return alongBoth((axis) => fromDatums(of, axis, characteristic.datums, part));
    case "coordinate":
      return [{ axis: characteristic.axis, terms: fromDatums(of, characteristic.axis, characteristic.datums, part) }];
    case "position within the pattern":
      return withinPattern(of, characteristic.pattern, part);
    case "coaxiality":
      return alongBoth((axis) => apart(of, characteristic.from, axis, part));
    default:
      return [{ axis: characteristic.axis, terms: apart(of, characteristic.from, characteristic.axis, part) }];
  }
}

/** What an orientation makes of turns about the machine's axes: a half turn of the part reverses two of them like any vector. */
export function tiltsIn({ tilts }: Orientation, signs: AxisSigns): readonly Tilt[] {
  if (signs.every((sign) => sign === 1)) return tilts;
  return tilts.map((tilt) => tilt.map(({ about, factor }) => ({ about, factor: factor * signs[indexOfAxis(about)] })));
}

/** What the axes of a part that lies turned call the other way round, told as the drawing has it. */
function inDrawing({ axis, terms }: Component, signs: AxisSigns): Component {
  return signs[indexOfAxis(axis)] === 1 ? { axis, terms } : { axis, terms: terms.map((term) => ({ ...term, factor: -term.factor })) };
}

/** How far one element moves from another along an axis of the drawing's frame, which turns with what orients it. */
export function apart(of: string, from: string, axis: Axis, part: DrawnPart): readonly Term[] {
  return [place(of, axis, 1), place(from, axis, -1), ...turnedByFrame(from, of, axis, part)];
}

function place(element: string, axis: Axis, factor: number): Term {
  return { kind: "place", element, axis, factor };
}

function alongBoth(terms: (axis: "X" | "Y") => readonly Term[]): Component[] {
  return (["X", "Y"] as const).map((axis) => ({ axis, terms: terms(axis) }));
}

/**
 * The deviation from a datum system: that from the datums as received, less what the system's datums do to the same place. Each axis goes by the datum
 * that fixes it; the turn about Z by the datum that does, or by what two axes are off across the line between them. The drawing's own frame by datum
 * letters is such a system too, where operations have cut some of its datums: the received ones are where they are by definition.
 */
function fromDatums(of: string, axis: Axis, system: DatumSystem | undefined, part: DrawnPart): readonly Term[] {
  const own = place(of, axis, 1);
  const datum = system && datumAlong(system, axis, part.elements);
  if (datum !== undefined) return [own, place(datum, axis, -1), ...turnedBy(system as DatumSystem, datum, of, axis, part)];
  const cut = part.cutDatums?.along[indexOfAxis(axis)];
  return [own, ...(cut ? [place(cut.id, axis, -1)] : []), ...turnedByFrame(cut?.id, of, axis, part)];
}

/** What the turn of the drawing's frame moves at an element, seen from another, or from the drawing's origin. */
function turnedByFrame(from: string | undefined, of: string, axis: Axis, part: DrawnPart): readonly Term[] {
  const orienting = part.cutDatums?.orienting;
  if (orienting === undefined) return [];
  const factor = acrossTurn(from, of, axis, part);
  return factor === 0 ? [] : [{ kind: "turn", element: orienting.id, about: "Z", factor }];
}

/** What the turn of the datums moves at an element, seen from the datum that holds this axis. */
function turnedBy(system: DatumSystem, datum: string, of: string, axis: Axis, part: DrawnPart): readonly Term[] {
  const turn = axis === "Z" ? undefined : turnOf(system, part.elements);
  if (turn === undefined) return [];
  const factor = acrossTurn(datum, of, axis, part);
  if (factor === 0) return [];
  const [first, second] = turn;
  if (second === undefined) return [{ kind: "turn", element: first, about: "Z", factor }];
  const [u, v] = betweenCentres({ id: first }, { id: second }, part.located) ?? [0, 0];
  const square = u * u + v * v;
  if (square === 0) return [];
  // The line from the first axis to the second turns by (u·Δy - v·Δx)/(u² + v²).
  const terms: Term[] = [];
  for (const [element, sign] of [
    [second, 1],
    [first, -1],
  ] as const) {
    if (u !== 0) terms.push(place(element, "Y", (factor * sign * u) / square));
    if (v !== 0) terms.push(place(element, "X", (-factor * sign * v) / square));
  }
  return terms;
}

/** Less what a turn t of the frame moves along an axis at an element, per radian, seen from another: -t·y along X and t·x along Y. */
function acrossTurn(from: string | undefined, of: string, axis: Axis, part: DrawnPart): number {
  if (axis === "Z") return 0;
  const [startX, startY] = from === undefined ? [0, 0] : toldAt(from, part);
  const [endX, endY] = toldAt(of, part);
  return axis === "X" ? endY - startY : startX - endX;
}

/** Where on the drawing an element is told to be off, mm along X and Y. A plane has no place along itself: it counts at its basic coordinates, a middle that follows its faces at theirs. */
function toldAt(id: string, { elements, located }: DrawnPart): readonly [number, number] {
  const element = elements.get(id);
  if (element === undefined) return [0, 0];
  const cuts = cutsOf(element, [...elements.values()]).map(basicPlace);
  const along = (axis: 0 | 1) => located.places.get(id)?.[axis]?.nominal ?? mean(cuts.map((cut) => cut[axis]));
  return [along(0), along(1)];
}

/**
 * What is left of one of a pattern when the pattern as a whole is moved and turned to fit best by least squares: the deviation less the mean of all and
 * less their mean turn Σ(p × d)/Σp², p counted from their middle. The best fit in the sense of the standard leaves the farthest no farther off, so that
 * what is met here is met.
 */
function withinPattern(of: string, pattern: readonly string[], { located }: DrawnPart): readonly Component[] {
  const places = pattern.flatMap((id) => {
    const [x, y] = located.places.get(id) ?? [];
    return x && y ? [{ id, x: x.nominal, y: y.nominal }] : [];
  });
  const count = places.length;
  const own = places.find(({ id }) => id === of);
  if (count < pattern.length || own === undefined) return [];
  const middle = { x: mean(places.map(({ x }) => x)), y: mean(places.map(({ y }) => y)) };
  const centred = places.map(({ id, x, y }) => ({ id, x: x - middle.x, y: y - middle.y }));
  const square = centred.reduce((total, { x, y }) => total + x * x + y * y, 0);
  return alongBoth((axis) => {
    // A turn t moves the element by -t·y along X and t·x along Y; the fit takes that away.
    const byTurn = square === 0 ? 0 : (axis === "X" ? own.y - middle.y : -(own.x - middle.x)) / square;
    const factors = new Map<string, Term>();
    const add = (element: string, along: Axis, factor: number) => {
      const key = `${along} ${element}`;
      factors.set(key, place(element, along, (factors.get(key)?.factor ?? 0) + factor));
    };
    for (const { id, x, y } of centred) {
      add(id, axis, (id === of ? 1 : 0) - 1 / count);
      add(id, "Y", byTurn * x);
      add(id, "X", -byTurn * y);
    }
    return [...factors.values()].filter(({ factor }) => factor !== 0);
  });
}

function mean(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0) / values.length;
}

/** What moves the bounds of a wall apart: across the face, or along the line between the two centres. */
function wallComponents(of: string, from: string, part: DrawnPart): readonly Component[] {
  const [end, start] = [part.elements.get(of), part.elements.get(from)];
  const bounds = end && start && wallBounds(end, start);
  if (bounds === undefined) return [];
  const { bore, other } = bounds;
  const moved = (axis: Axis, factor: number) => apart(of, from, axis, part).map((term) => ({ ...term, factor: term.factor * factor }));
  if (other.kind === "face") {
    const axis = axisOf(other.outward);
    return [{ axis, terms: moved(axis, -sideOf(other)) }];
  }
  const [x, y] = betweenCentres(other, bore, part.located) ?? [0, 0];
  const distance = Math.hypot(x, y);
  if (distance === 0) return [];
  const parts = [...(x === 0 ? [] : moved("X", x / distance)), ...(y === 0 ? [] : moved("Y", y / distance))];
  return [{ axis: Math.abs(x) >= Math.abs(y) ? "X" : "Y", terms: parts }];
}
