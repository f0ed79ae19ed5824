import { type Axis, axisOf } from "../base/vector.ts";
import { type DatumSystem, datumAlong, turnOf } from "./datumSystem.ts";
import type { LocatedPart } from "./locateElements.ts";
import { type Characteristic, type Element, isOrientation, type Part } from "./part.ts";
import { betweenCentres, sideOf, wallBounds } from "./wall.ts";

/**
 * How far one element is off its place along an axis, or how far it is turned against the drawing's frame, times a factor: 1, or what the geometry of
 * the drawing makes of it.
 */
export type Term =
  | { readonly kind: "place"; readonly element: string; readonly axis: Axis; readonly factor: number }
  | { readonly kind: "turn"; readonly element: string; readonly about: Axis; readonly factor: number };

/** One component of a characteristic's deviation to first order, as a sum of what its elements do. */
export interface Component {
  /** The axis along which it is told, or that counts most; of an orientation, the one about which it turns. */
  readonly axis: Axis;
  readonly terms: readonly Term[];
}

/** What components are made from: the elements by name, and where the drawing puts them. */
export interface DrawnPart {
  readonly elements: ReadonlyMap<string, Element>;
  readonly located: LocatedPart;
}

export function drawnPart({ elements }: Pick<Part, "elements">, located: LocatedPart): DrawnPart {
  return { elements: new Map(elements.map((element) => [element.id, element])), located };
}

/**
 * The components of a characteristic: X and Y in a round zone, one otherwise; of a wall, what its bounds move apart. None where nothing ties what it
 * is about to datums.
 */
export function componentsOf(characteristic: Characteristic, part: DrawnPart): readonly Component[] {
  const { of } = characteristic;
  if (isOrientation(characteristic)) {
    const { from, tilts } = characteristic;
    return tilts.map((tilt) => ({
      axis: tilt[0]?.about ?? "Z",
      terms: tilt.flatMap(({ about, factor }): Term[] => [
        { kind: "turn", element: of, about, factor },
        { kind: "turn", element: from, about, factor: -factor },
      ]),
    }));
  }
  switch (characteristic.kind) {
    case "position":
      return alongBoth((axis) => fromDatums(of, axis, characteristic.datums, part));
    case "coordinate":
      return [{ axis: characteristic.axis, terms: fromDatums(of, characteristic.axis, characteristic.datums, part) }];
    case "position within the pattern":
      return withinPattern(of, characteristic.pattern, part);
    case "coaxiality":
      return alongBoth((axis) => [place(of, axis, 1), place(characteristic.from, axis, -1)]);
    case "wall thickness":
      return wallComponents(of, characteristic.from, part);
    default:
      return [
        {
          axis: characteristic.axis,
          terms: [place(of, characteristic.axis, 1), place(characteristic.from, characteristic.axis, -1)],
        },
      ];
  }
}

function place(element: string, axis: Axis, factor: number): Term {
  return { kind: "place", element, axis, factor };
}

function alongBoth(terms: (axis: "X" | "Y") => readonly Term[]): Component[] {
  return (["X", "Y"] as const).map((axis) => ({ axis, terms: terms(axis) }));
}

/**
 * The deviation from a datum system: that from the drawing's frame, less what the system's datums do to the same place. Each axis goes by the datum that
 * fixes it; the turn about Z by the datum that does, or by what two axes are off across the line between them.
 */
function fromDatums(of: string, axis: Axis, system: DatumSystem | undefined, { elements, located }: DrawnPart): readonly Term[] {
  const own = place(of, axis, 1);
  const datum = system && datumAlong(system, axis, elements);
  if (datum === undefined) return [own];
  return [own, place(datum, axis, -1), ...turnedBy(system as DatumSystem, datum, of, axis, { elements, located })];
}

/** What the turn of the datums moves at an element, seen from the datum that holds this axis: a turn t moves it by -t·y along X and t·x along Y. */
function turnedBy(system: DatumSystem, datum: string, of: string, axis: Axis, { elements, located }: DrawnPart): readonly Term[] {
  const turn = axis === "Z" ? undefined : turnOf(system, elements);
  if (turn === undefined) return [];
  // A plane or mid-plane holds its axis at any place along itself: its own turn counts from where it is told, its basic place.
  const [x, y] = betweenNominal(datum, of, located);
  const factor = axis === "X" ? y : -x;
  if (factor === 0) return [];
  const [first, second] = turn;
  if (second === undefined) return [{ kind: "turn", element: first, about: "Z", factor }];
  const [u, v] = betweenCentres({ id: first }, { id: second }, located) ?? [0, 0];
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

/** From one element to another on the drawing, mm along X and Y; 0 along an axis on which one of them has no place. */
function betweenNominal(from: string, to: string, { places }: LocatedPart): readonly [number, number] {
  const [start, end] = [places.get(from), places.get(to)];
  const along = (axis: 0 | 1) => (end?.[axis]?.nominal ?? 0) - (start?.[axis]?.nominal ?? 0);
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
function wallComponents(of: string, from: string, { elements, located }: DrawnPart): readonly Component[] {
  const [end, start] = [elements.get(of), elements.get(from)];
  const bounds = end && start && wallBounds(end, start);
  if (bounds === undefined) return [];
  const { bore, other } = bounds;
  const apart = (axis: Axis, factor: number) => [place(of, axis, factor), place(from, axis, -factor)];
  if (other.kind === "face") {
    const axis = axisOf(other.outward);
    return [{ axis, terms: apart(axis, -sideOf(other)) }];
  }
  const [x, y] = betweenCentres(other, bore, located) ?? [0, 0];
  const distance = Math.hypot(x, y);
  if (distance === 0) return [];
  const parts = [...(x === 0 ? [] : apart("X", x / distance)), ...(y === 0 ? [] : apart("Y", y / distance))];
  return [{ axis: Math.abs(x) >= Math.abs(y) ? "X" : "Y", terms: parts }];
}
