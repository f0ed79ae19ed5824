import { type Axis, indexOfAxis } from "../../../lib/base/vector.ts";
import type { LocatedPart } from "../../../lib/part/locateElements.ts";
import { type AngledFace, axesOf, type Element, type Face, type Middle, type Part, type Round } from "../../../lib/part/part.ts";

/** One side of the outline, mm; without a face where nothing says where the part ends. */
export interface Edge {
  readonly at: number;
  readonly face: Face | undefined;
}

/** A face inside the outline (the wall of a pocket, a step) and how far it is drawn across. */
export interface InnerFace {
  readonly face: Face;
  readonly axis: 0 | 1;
  readonly at: number;
  readonly from: number;
  readonly to: number;
}

type Point = readonly [x: number, y: number];

/** The part seen from above at nominal sizes, in the drawing's frame, mm. */
export interface Plan {
  readonly x: readonly [Edge, Edge];
  readonly y: readonly [Edge, Edge];
  readonly inner: readonly InnerFace[];
  /** Faces that look along no axis, across the outline; the drawing does not say how far each goes. */
  readonly angled: readonly { readonly element: AngledFace; readonly from: Point; readonly to: Point }[];
  readonly rounds: readonly { readonly element: Round; readonly x: number; readonly y: number }[];
  readonly middles: readonly { readonly element: Middle; readonly axis: 0 | 1; readonly at: number }[];
}

/** What is put about the farthest elements where no face ends the part, as a share of their extent. */
const margin = 0.14;
/** What is drawn at least of an angled face to either side of its point, as a share of the shorter side. */
const leastAngled = 0.1;
/** Extent of a part of which only one place is known, mm. */
const withoutExtent = 100;

/**
 * The plan of a part. A side is a face where one looks outwards and nothing of
 * the part lies beyond it, and otherwise some way past the last element. Undefined when no
 * element has a place in X or Y.
 */
export function planOf({ elements }: Part, { places }: LocatedPart): Plan | undefined {
  const known = new Map(elements.map((element) => [element.id, element]));
  const placeOf = (element: Element, axis: 0 | 1): number | undefined => places.get(element.id)?.[axis]?.nominal;
  const rounds = elements.flatMap((element) => {
    if (element.kind !== "bore" && element.kind !== "boss") return [];
    const [x, y] = [placeOf(element, 0), placeOf(element, 1)];
    return x === undefined || y === undefined ? [] : [{ element, x, y }];
  });
  const faces = elements.flatMap((element) => {
    const axis = element.kind === "face" ? indexOfAxis(element.outward[1] as Axis) : 2;
    const at = axis === 2 ? undefined : placeOf(element, axis);
    return element.kind !== "face" || at === undefined || axis === 2 ? [] : [{ face: element, axis, at }];
  });
  const angled = elements.flatMap((element) => {
    if (element.kind !== "angled face") return [];
    const [x, y] = [placeOf(element, 0), placeOf(element, 1)];
    const lies = axesOf(element, known).every((axis) => axis === "Z" || placeOf(element, indexOfAxis(axis) as 0 | 1) !== undefined);
    return lies ? [{ element, x, y }] : [];
  });
  if (rounds.length === 0 && faces.length === 0 && angled.length === 0) return undefined;

  const spans = ([0, 1] as const).map((axis) => spanAlong(axis, faces, rounds, angled));
  const [x, y] = withExtents(spans as [Span, Span]);
  const outer = new Set([...x, ...y].map(({ face }) => face?.id));
  const inner = faces.filter(({ face }) => !outer.has(face.id));
  return {
    x,
    y,
    inner: inner.map((each) => ({ ...each, ...acrossOf(each, inner, each.axis === 0 ? y : x) })),
    angled: angled.map((face) => ({
      element: face.element,
      ...acrossOutline({ ...face, x: face.x ?? middleOf(x), y: face.y ?? middleOf(y) }, x, y),
    })),
    rounds,
    middles: elements.flatMap((element) => {
      const axis = element.kind === "middle" ? axesOf(element, known)[0] : undefined;
      const index = axis === undefined ? 2 : indexOfAxis(axis);
      const at = index === 2 ? undefined : placeOf(element, index);
      return element.kind !== "middle" || index === 2 || at === undefined ? [] : [{ element, axis: index, at }];
    }),
  };
}

/** Without a place along an axis that a face runs along. */
interface PlacedAngledFace {
  readonly element: AngledFace;
  readonly x: number | undefined;
  readonly y: number | undefined;
}

function middleOf([low, high]: Span): number {
  return (low.at + high.at) / 2;
}

/** Where the line of a face, of an inclined one at the height of its point, leaves the outline. */
function acrossOutline(
  { element: { facing }, x, y }: { readonly element: AngledFace; readonly x: number; readonly y: number },
  ...sides: readonly [Span, Span]
): { from: Point; to: Point } {
  const way = [-Math.sin(facing), Math.cos(facing)] as const;
  let [low, high] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const axis of [0, 1] as const) {
    const ends = sides[axis].map(({ at }) => (at - (axis === 0 ? x : y)) / way[axis]);
    low = Math.max(low, Math.min(...ends));
    high = Math.min(high, Math.max(...ends));
  }
  const least = leastAngled * Math.min(...sides.map(([from, to]) => to.at - from.at));
  // One that only meets a corner of the outline is drawn beyond it.
  const [back, on] = high - low < 2 * least ? [-least, least] : [low, high];
  return { from: [x + back * way[0], y + back * way[1]], to: [x + on * way[0], y + on * way[1]] };
}

interface PlacedFace {
  readonly face: Face;
  readonly axis: 0 | 1;
  readonly at: number;
}

/** Ends along an axis; an end without a face is the last place that is known. */
type Span = readonly [Edge, Edge];

function spanAlong(axis: 0 | 1, faces: readonly PlacedFace[], rounds: Plan["rounds"], angled: readonly PlacedAngledFace[]): Span {
  const here = faces.filter((face) => face.axis === axis);
  const ends = rounds.flatMap(({ element, x, y }) => [-1, 1].map((sign) => (axis === 0 ? x : y) + (sign * element.diameter) / 2));
  const all = [...here.map(({ at }) => at), ...ends, ...angled.flatMap(({ x, y }) => (axis === 0 ? x : y) ?? [])];
  const end = (sign: 1 | -1): Edge => {
    const last = Math.max(...all.map((at) => sign * at)) * sign;
    const face = here.find(({ face: { outward }, at }) => at === last && outward[0] === (sign === 1 ? "+" : "-"));
    return { at: all.length === 0 ? 0 : last, face: face?.face };
  };
  return [end(-1), end(1)];
}

/** Open ends are moved out, so that what lies there stands inside the outline. */
function withExtents([x, y]: readonly [Span, Span]): [Span, Span] {
  const extent = ([low, high]: Span) => high.at - low.at;
  const usual = Math.max(extent(x), extent(y)) * 0.6 || withoutExtent;
  const open = (span: Span): Span => {
    const [low, high] = span;
    const size = extent(span);
    const away = size > 0 ? Math.max(size * margin, usual * 0.1) : usual;
    // With both ends open and nothing between, half of it on either side.
    const share = size === 0 && low.face === undefined && high.face === undefined ? 0.5 : 1;
    return [low.face ? low : { ...low, at: low.at - away * share }, high.face ? high : { ...high, at: high.at + away * share }];
  };
  return [open(x), open(y)];
}

/** An inner face reaches between the two walls that stand square to it and enclose a pocket, or right across. */
function acrossOf({ axis }: PlacedFace, inner: readonly PlacedFace[], [low, high]: readonly [Edge, Edge]): { from: number; to: number } {
  const walls = inner.filter((other) => other.axis !== axis);
  const lower = walls.find(({ face }) => face.outward[0] === "+");
  const upper = walls.find(({ face, at }) => face.outward[0] === "-" && lower !== undefined && at > lower.at);
  return lower && upper ? { from: lower.at, to: upper.at } : { from: low.at, to: high.at };
}
