import type { Problem } from "../base/outcome.ts";
import { type Axis, axes, indexOfAxis } from "../base/vector.ts";
import { axesOf, type Dimension, type Element, isCutEarlier, type Part, placeSizeOf } from "./part.ts";
import { isUpTo, sizeText } from "./sizeRange.ts";

/** Where one coordinate of an element sits in the drawing's frame: nominal + Σ gain · (size - nominal size). */
export interface Place {
  /** mm */
  readonly nominal: number;
  /** By dimension id; only gains that are not zero. */
  readonly gains: ReadonlyMap<string, number>;
}

export interface LocatedPart {
  /** By element id: X, Y, Z; undefined where the element has no such coordinate, or nothing ties it to a datum. */
  readonly places: ReadonlyMap<string, readonly [Place | undefined, Place | undefined, Place | undefined]>;
  readonly problems: readonly Problem[];
}

/**
 * Puts every element where the drawing puts it. Datum elements are exact by
 * definition; every other element that exists before the setup sits at the end
 * of a chain of dimensions, so that the part's own size variation enters with
 * the gain that the chain gives it (0, 1/2, 1). Elements cut in this setup sit
 * at their basic coordinates; those that an operation before it has cut are off
 * them by a size of their own, also where they carry a datum's letter.
 *
 * Per axis, one linear equation per datum, middle and dimension, brought to
 * reduced echelon form one after another; an equation that the ones before
 * already imply closes a circle and is told.
 */
export function locateElements(part: Part): LocatedPart {
  const problems: Problem[] = [];
  const known = new Map(part.elements.map((element) => [element.id, element]));
  const places = new Map<string, [Place | undefined, Place | undefined, Place | undefined]>();
  for (const { id } of part.elements) places.set(id, [undefined, undefined, undefined]);
  for (const axis of axes) {
    const index = indexOfAxis(axis);
    const here = part.elements.filter((element) => axesOf(element, known).includes(axis));
    for (const [id, place] of locateAlong(axis, here, known, part.dimensions, problems)) {
      const triple = places.get(id);
      if (triple) triple[index] = place;
    }
  }
  return { places, problems };
}

/** One equation: Σ coefficient · coordinate = constant + Σ gain · (size deviation). */
interface Equation {
  readonly coefficients: Map<string, number>;
  constant: number;
  readonly gains: Map<string, number>;
}

/** Coefficients of an eliminated coordinate below this are rounding: the true ones are halves and quarters. */
const negligible = 1e-12;

function locateAlong(
  axis: Axis,
  elements: readonly Element[],
  known: ReadonlyMap<string, Element>,
  dimensions: readonly Dimension[],
  problems: Problem[],
): Map<string, Place> {
  const index = indexOfAxis(axis);
  const echelon = new Map<string, Equation>();
  const add = (equation: Equation): number | undefined => addToEchelon(echelon, equation);
  const located = new Map<string, Place>();

  for (const element of elements) {
    if (element.made === "here") located.set(element.id, { nominal: element.at[index] ?? 0, gains: new Map() });
    else if (isCutEarlier(element, known)) {
      const gains = new Map([[placeSizeOf(element.id, axis), 1]]);
      const off = add({ coefficients: new Map([[element.id, 1]]), constant: element.at[index] ?? 0, gains });
      if (off !== undefined) problems.push(circle(`part.elements.${element.id}`, axis, off));
    } else if (element.datum !== "" && element.cutIn === undefined) {
      const off = add({ coefficients: new Map([[element.id, 1]]), constant: element.at[index] ?? 0, gains: new Map() });
      if (off !== undefined) problems.push(circle(`part.elements.${element.id}.datum`, axis, off));
    }
  }
  for (const element of elements) {
    if (element.kind !== "middle" || element.made === "here" || isCutEarlier(element, known)) continue;
    const [a, b] = element.of;
    const off = add({
      coefficients: new Map([
        [element.id, 1],
        [a, -0.5],
        [b, -0.5],
      ]),
      constant: 0,
      gains: new Map(),
    });
    if (off !== undefined) problems.push(circle(`part.elements.${element.id}`, axis, off));
  }
  for (const { id, from, to, axis: along, nominal } of dimensions) {
    if (along !== axis || !known.has(from) || !known.has(to)) continue;
    const off = add({
      coefficients: new Map([
        [to, 1],
        [from, -1],
      ]),
      constant: nominal,
      gains: new Map([[id, 1]]),
    });
    if (off !== undefined) problems.push(circle(`part.dimensions.${id}`, axis, off));
  }

  for (const element of elements) {
    const equation = echelon.get(element.id);
    if (equation !== undefined && equation.coefficients.size === 1) {
      const gains = new Map([...equation.gains].filter(([, gain]) => Math.abs(gain) > negligible));
      located.set(element.id, { nominal: equation.constant, gains });
    } else if (element.made === "before") {
      problems.push({
        at: `part.elements.${element.id}`,
        what: `nothing ties "${element.id}" to a datum along ${axis}`,
        expected: `a datum letter on it, or a chain of dimensions along ${axis} to an element that carries one`,
        remedy: "give it a datum letter, or add the dimension that the drawing shows",
      });
    }
  }
  return located;
}

/** Reduces the equation by the ones before it and the ones before by it; when it says nothing new, by how much it is off what they say, mm. */
function addToEchelon(echelon: Map<string, Equation>, equation: Equation): number | undefined {
  for (const [pivot, other] of echelon) subtract(equation, equation.coefficients.get(pivot) ?? 0, other);
  const pivot = [...equation.coefficients].reduce((best, entry) => (Math.abs(entry[1]) > Math.abs(best[1]) ? entry : best), ["", 0] as [
    string,
    number,
  ]);
  if (Math.abs(pivot[1]) <= negligible) return Math.abs(equation.constant);
  const scaled: Equation = { coefficients: new Map(), constant: 0, gains: new Map() };
  subtract(scaled, -1 / pivot[1], equation);
  for (const other of echelon.values()) subtract(other, other.coefficients.get(pivot[0]) ?? 0, scaled);
  echelon.set(pivot[0], scaled);
  return undefined;
}

function subtract(from: Equation, factor: number, other: Equation): void {
  if (factor === 0) return;
  for (const [id, coefficient] of other.coefficients) {
    const left = (from.coefficients.get(id) ?? 0) - factor * coefficient;
    if (Math.abs(left) <= negligible) from.coefficients.delete(id);
    else from.coefficients.set(id, left);
  }
  from.constant -= factor * other.constant;
  for (const [id, gain] of other.gains) from.gains.set(id, (from.gains.get(id) ?? 0) - factor * gain);
}

function circle(at: string, axis: Axis, off: number): Problem {
  const agrees = isUpTo(off, 0);
  return {
    at,
    what: `this closes a circle: the dimensions and datums before it already fix its ends along ${axis}${agrees ? "" : `, and contradicts them by ${sizeText(off)}`}`,
    expected: "one chain from every element to the datums",
    remedy: "remove it, or remove the dimension that it repeats",
  };
}
