import { entryOf, matrixOf, pseudoInverse, rankOf, singularValues } from "../base/matrix.ts";
import { turnAboutZ, type Vector } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import { isLevel } from "../contacts/surface.ts";
import { type Agreement, agreementOf } from "../frame/agreement.ts";
import { budgetsOf } from "../uncertainty/budget.ts";
import { sum, type Uncertain, unary } from "../uncertainty/uncertain.ts";
import type { PartLocation } from "./locatePart.ts";

/** The plane of a face along Z, as three or more touches of it find it: how the part lies askew in height. */
export interface Tilt {
  readonly face: string;
  readonly touches: readonly string[];
  /** How much higher the face lies per mm along X and along Y of the drawing, mm per mm. */
  readonly slopes: readonly [Uncertain, Uncertain];
  /** Turns of the part that make these slopes, right-handed about X and about Y, radians. */
  readonly about: { readonly X: Uncertain; readonly Y: Uncertain };
  /** Where on the drawing the face has the height that it has without looking at its tilt, mm; from wherever the frame was left where `isPlaced` is false. */
  readonly middle: readonly [x: number, y: number];
  /** Whether touches fix X and Y, so that the middle is a place on the drawing. */
  readonly isPlaced: boolean;
  /** Machine Z of the face there, in true lengths, mm. */
  readonly height: Uncertain;
  /** What every touch stands off the plane, upwards, mm: the flatness of the face where it was touched, and scatter. */
  readonly offPlane: readonly Uncertain[];
  /** How much every touch has pulled the plane to itself, from 0 to 1: it stands 1/(1 - that) as far off the plane of the others, and for 1 those tell none. */
  readonly leverages: readonly number[];
  /** Whether what touches stand off is within the doubts of the touches; undefined for three, which fix a plane. */
  readonly agreement: Agreement | undefined;
}

/** Touches whose triangle is flatter than this share of its length lie on a line. */
const onALine = 1e-6;

/**
 * Tilt about X and Y by touches from above, in least squares: height = h + a·(x - x̄) + b·(y - ȳ). Tilts of a part in a machine are some hundredths
 * of a millimetre over its length, so that second powers of them show nowhere; and only heights tell them. Where several faces are touched so, it is the datum of the first letter, then the one of most touches.
 *
 * Touches count as they do in the part's frame, so that the plane has the frame's own height at the touches' middle.
 *
 * @returns undefined where no face along Z is touched at three places that do not lie on one line, with X and Y noted
 */
export function tiltOf(location: Pick<PartLocation, "thisPart" | "counted" | "weights" | "setup" | "isOnFixture">): Tilt | undefined {
  const { thisPart, counted, weights, setup } = location;
  if (!thisPart.ok) return undefined;
  const byFace = new Map<string, Seen[]>();
  counted.forEach((contact, i) => {
    if (location.isOnFixture(contact.element) || !isLevel(contact.surface) || !contact.noted[0] || !contact.noted[1]) return;
    byFace.set(contact.element, [...(byFace.get(contact.element) ?? []), { contact, weight: weights[i] as number }]);
  });
  const letterOf = (face: string) => setup.part.elements.find(({ id }) => id === face)?.datum || lastLetter;
  const usable = [...byFace].filter(([, seen]) => tellsPlane(seen.map(({ contact }) => contact.centre)));
  usable.sort(([a, first], [b, second]) => compare(letterOf(a), letterOf(b)) || second.length - first.length);
  const { origin, rotation, determined } = thisPart.value;
  const isPlaced = determined[0] && determined[1];
  const drawn = ({ contact: { centre } }: Seen): Vector =>
    turnAboutZ([centre[0] - origin[0].value, centre[1] - origin[1].value, 0], -rotation.value);
  for (const [face, seen] of usable) {
    const plane = planeThrough(seen.map((each) => ({ place: drawn(each), height: heightOf(each.contact), weight: each.weight })));
    if (plane !== undefined) return { face, touches: seen.map(({ contact }) => contact.touch), isPlaced, ...plane };
  }
  return undefined;
}

/** Of a plane. */
const leastTouches = 3;

/** Whether heights at these places tell a plane: at three or more that do not lie on one line as seen from above. */
export function tellsPlane(places: readonly Vector[]): boolean {
  const [first] = places;
  if (first === undefined) return false;
  const arms = singularValues(matrixOf(places.length, 2, (i, axis) => (places[i] as Vector)[axis as 0 | 1] - first[axis as 0 | 1]));
  return rankOf(arms, onALine * (arms.values[0] ?? 0)) === 2;
}

/** Behind every datum letter. */
const lastLetter = "\uffff";

interface Seen {
  readonly contact: Contact;
  readonly weight: number;
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Machine Z of the metal, in true lengths. */
function heightOf({ centre, travel, advance, reach, scaleError }: Contact): Uncertain {
  return sum([advance, reach, scaleError]).times(travel[2]).plus(centre[2]);
}

interface Measured {
  readonly place: Vector;
  readonly height: Uncertain;
  readonly weight: number;
}

function planeThrough(points: readonly Measured[]): Omit<Tilt, "face" | "touches" | "isPlaced"> | undefined {
  const squares = points.map(({ weight }) => weight * weight);
  const total = squares.reduce((sumSoFar, square) => sumSoFar + square, 0);
  const middle = ([0, 1] as const).map((axis) =>
    points.reduce((sumSoFar, { place }, i) => sumSoFar + ((squares[i] as number) * place[axis]) / total, 0),
  ) as unknown as [number, number];
  const arms = matrixOf(points.length, 2, (i, axis) => {
    const { place, weight } = points[i] as Measured;
    return weight * (place[axis as 0 | 1] - (middle[axis] as number));
  });
  const decomposition = singularValues(arms);
  if (rankOf(decomposition, onALine * (decomposition.values[0] ?? 0)) < 2) return undefined;
  const answer = pseudoInverse(arms, 0);
  const heights = points.map(({ height }) => height);
  // Differences from the first keep the digits of hundredths beside those of a machine coordinate.
  const base = heights[0]?.value ?? 0;
  const lifts = heights.map((height) => height.minus(base));
  const slope = (axis: number) => sum(lifts.map((lift, i) => lift.times(entryOf(answer, axis, i) * (points[i] as Measured).weight)));
  const slopes = [slope(0), slope(1)] as const;
  const lift = sum(lifts.map((each, i) => each.times((squares[i] as number) / total)));
  const offPlane = points.map(({ place }, i) =>
    sum([lifts[i] as Uncertain, lift.negated(), slopes[0].times(middle[0] - place[0]), slopes[1].times(middle[1] - place[1])]),
  );
  // The diagonal of the hat matrix (Hoaglin and Welsch, The American Statistician 32, 1978; from memory).
  const leverages = squares.map((square, i) =>
    [0, 1].reduce((part, axis) => part + entryOf(arms, i, axis) * entryOf(answer, axis, i), square / total),
  );
  return {
    slopes,
    leverages,
    // A height that grows along Y is a turn about +X; one that grows along X is a turn about -Y.
    about: { X: unary("arctangent", slopes[1]), Y: unary("arctangent", slopes[0].negated()) },
    middle,
    height: lift.plus(base),
    offPlane,
    agreement: agreementOf(offPlane, points.length - leastTouches),
  };
}

/** A tilt of more standard uncertainties than this is one: the usual coverage factor (JCGM 100:2008, 6.3.3). */
export const clearlyTilted = 2;

/** Whether the part lies askew by more than the touches' doubt. */
export function isAskew({ slopes }: Pick<Tilt, "slopes">): boolean {
  return budgetsOf(slopes).some(({ value, standardUncertainty }) => Math.abs(value) > clearlyTilted * standardUncertainty);
}

/** How much higher the face lies at a place on the drawing than at the middle of its touches, mm. */
export function liftAt({ slopes, middle }: Pick<Tilt, "slopes" | "middle">, x: number, y: number): Uncertain {
  return slopes[0].times(x - middle[0]).plus(slopes[1].times(y - middle[1]));
}
