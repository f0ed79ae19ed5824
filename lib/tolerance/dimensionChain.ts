import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Axis, axisOf, indexOfAxis } from "../base/vector.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import { type PartSize, sizeInTheBatch } from "../datum/partSizes.ts";
import { type StrategySolution, solveStrategy } from "../datum/solveStrategy.ts";
import type { Strategy } from "../datum/strategy.ts";
import { locateSetup } from "../fixture/locateSetup.ts";
import { solveOnFixture } from "../fixture/solveOnFixture.ts";
import { type Characteristic, type Dimension, type Element, isOrientation, isRound, rowOf } from "../part/part.ts";
import { sourceOfMeasurement } from "../part/sourceOfMeasurement.ts";
import { type Budget, budgetsOf } from "../uncertainty/budget.ts";
import { SourceBook } from "../uncertainty/sourceBook.ts";
import { fromSource, sum, type Uncertain } from "../uncertainty/uncertain.ts";
import { deviations, type View } from "./deviations.ts";

/** An element in a chain of dimensions, and what it is there for. */
export interface ChainPlace {
  readonly element: string;
  /** Along the chain's axis in the drawing's frame, mm. */
  readonly nominal: number;
  /** Datum letter; empty for none. */
  readonly datum: string;
  /** Touches of the strategy that meet it along this axis. */
  readonly touches: readonly string[];
  /** Whether part zero sits there. */
  readonly isZero: boolean;
  /** What the characteristic is of, or is measured from. */
  readonly end: "of" | "from" | undefined;
}

/** A dimension of the drawing between two places of a chain. */
export interface ChainLink {
  readonly dimension: Dimension;
  readonly from: number;
  readonly to: number;
  /** How far the characteristic moves by one of the dimension: 1, 1/2, 0, with the sign in which it acts. */
  readonly gain: number;
  /** What its variation gives to the characteristic: gain times standard uncertainty, signed, mm. */
  readonly amount: number;
  /** Where its doubt is from: the drawing's tolerance, a measurement by other means, or the touches of this part. */
  readonly knownBy: "drawing" | "measurement" | "touches";
}

/** How a characteristic hangs on the part's sizes along one axis. */
export interface DimensionChain {
  readonly axis: Axis;
  /** In the order of their coordinates. */
  readonly places: readonly ChainPlace[];
  readonly links: readonly ChainLink[];
  /** Part zero along the axis, in the drawing's frame, mm. */
  readonly zero: number;
  /** What all of these sizes together give to the deviation: standard uncertainty, mm. */
  readonly bySizes: number;
}

/** Gains below this are rounding. */
const negligible = 1e-6;
/** Cosine below which a touch says nothing along an axis. */
const slanted = 0.1;

/**
 * The chains of dimensions behind a characteristic, one for each axis along which it deviates: from datums by the drawing's dimensions to the faces
 * that are touched, to part zero, and to the feature. Gains are the derivatives of the deviation by each size under this strategy in this view,
 * whatever the chain on paper: part and strategy are solved once more with each size as a source of its own, whether it is in doubt or not.
 */
export function dimensionChains(
  characteristic: Characteristic,
  strategy: Strategy,
  location: PartLocation,
  view: View,
): Outcome<DimensionChain[]> {
  const axes = axesOfChain(characteristic, location);
  if (axes.length === 0)
    return failure({
      at: `part.characteristics.${rowOf(characteristic)}`,
      what: `${characteristic.kind === "angle" ? "an angle" : characteristic.kind} rests on how things are turned, and on no chain of dimensions`,
    });
  const probed = probedLocation(location);
  const solved = strategy.fixtureFrame ? solveOnFixture(strategy, strategy.fixtureFrame, probed) : solveStrategy(strategy, probed);
  if (!solved.ok) return solved;
  const found = deviations(solved.value, probed, view)[location.setup.part.characteristics.indexOf(characteristic)];
  if (found === undefined) throw new Error(`dimensionChains: expected a characteristic of the setup, got ${characteristic.id}`);
  if (!found.ok) return found;
  const components = budgetsOf(found.value);
  return success(
    axes.map((axis, i) => {
      const component = components[Math.min(i, components.length - 1)] as Budget;
      return chainAlong(axis, characteristic, component, solved.value, location, view);
    }),
  );
}

/** The same setup with every dimension a source of its own, which nothing shares. */
function probedLocation({ setup, sizes }: PartLocation): PartLocation {
  const given = new Map(setup.sources.given);
  setup.part.dimensions.forEach(({ id }, i) => {
    const { batch, measured } = sizes.sizes[i] as PartSize;
    given.set(sizeInTheBatch(id), probeOf(id, batch.value));
    if (measured !== undefined) given.set(sourceOfMeasurement({ id }).id, probeOf(id, measured.value));
  });
  const sources = { ...setup.sources, given };
  const { operation, ...alone } = setup;
  if (operation === undefined) return locateSetup({ ...alone, relations: [], sources });
  // What earlier operations have left rests on the sources of all, which stay the same ones.
  const book = new SourceBook({ ...sources, given: new Map([...operation.book.made, ...given]) });
  return locateSetup({ ...alone, relations: [], sources, operation: { ...operation, book } });
}

function probeOf(id: string, estimate: number): Uncertain {
  return fromSource({
    id: probeId(id),
    label: id,
    family: "part",
    estimate,
    degreesOfFreedom: Number.POSITIVE_INFINITY,
    distribution: { shape: "normal", standardDeviation: 1 },
    evidence: { kind: "drawing" },
  });
}

function probeId(dimension: string): string {
  return `size ${dimension} by itself`;
}

function axesOfChain(characteristic: Characteristic, { setup }: PartLocation): readonly Axis[] {
  if (isOrientation(characteristic)) return [];
  if (isRound(characteristic)) return ["X", "Y"];
  if (characteristic.kind !== "wall thickness") return [characteristic.axis];
  const faces = [characteristic.of, characteristic.from].flatMap((id) => {
    const element = setup.part.elements.find((each) => each.id === id);
    return element?.kind === "face" ? [axisOf(element.outward)] : [];
  });
  return faces.length > 0 ? faces.slice(0, 1) : ["X", "Y"];
}

function chainAlong(
  axis: Axis,
  characteristic: Characteristic,
  component: Budget,
  { strategy, contacts, zeroOnPart }: StrategySolution,
  location: PartLocation,
  view: View,
): DimensionChain {
  const { setup, located } = location;
  const index = indexOfAxis(axis);
  const placeOf = (id: string) => located.places.get(id)?.[index];
  const touchesOf = ({ id }: Element) => [
    ...new Set(contacts.filter(({ element, travel }) => element === id && Math.abs(travel[index]) > slanted).map(({ touch }) => touch)),
  ];
  const zero = strategy.zero[index];
  const endOf = (id: string): ChainPlace["end"] =>
    id === characteristic.of ? "of" : "from" in characteristic && id === characteristic.from ? "from" : undefined;
  const isZero = ({ id }: Element) => zero.kind === "element" && zero.element === id;
  const matters = (element: Element) => endOf(element.id) !== undefined || isZero(element) || touchesOf(element).length > 0;

  const here = setup.part.elements.filter(({ id }) => placeOf(id) !== undefined);
  const needed = new Set(here.filter(matters).flatMap(({ id }) => [...(placeOf(id)?.gains.keys() ?? [])]));
  const links = setup.part.dimensions.flatMap((dimension): (Omit<ChainLink, "amount"> & { readonly effect: Uncertain })[] => {
    const [from, to] = [placeOf(dimension.from), placeOf(dimension.to)];
    if (dimension.axis !== axis || from === undefined || to === undefined) return [];
    const gain = gainOf(dimension, component);
    if (!needed.has(dimension.id) && gain === 0) return [];
    const { batch, measured } = location.sizes.sizes[location.sizes.indexOf(dimension.id)] as PartSize;
    const size = view === "batch" ? batch : (measured ?? batch);
    return [{ dimension, from: from.nominal, to: to.nominal, gain, effect: size.times(gain), knownBy: knownBy(dimension, location, view) }];
  });
  const linked = new Set(links.flatMap(({ dimension: { from, to } }) => [from, to]));
  const middles = here.flatMap((element) => (element.kind === "middle" && matters(element) ? element.of : []));
  const places = here
    .filter((element) => matters(element) || linked.has(element.id) || middles.includes(element.id))
    .map((element) => ({
      element: element.id,
      nominal: placeOf(element.id)?.nominal ?? 0,
      datum: element.datum,
      touches: touchesOf(element),
      isZero: isZero(element),
      end: endOf(element.id),
    }));
  const [all, ...single] = budgetsOf([sum(links.map(({ effect }) => effect)), ...links.map(({ effect }) => effect)]);
  return {
    axis,
    places: places.sort((a, b) => a.nominal - b.nominal),
    links: links.map(({ effect: _, ...link }, i) => ({
      ...link,
      amount: Math.sign(link.gain) * (single[i]?.standardUncertainty ?? 0),
    })),
    zero: zeroOnPart[index],
    bySizes: all?.standardUncertainty ?? 0,
  };
}

/** What an operation before this one has cut follows a size by the size's own sources. */
function gainOf({ id }: Dimension, { sources, sensitivities }: Budget): number {
  const by = (name: string) => sensitivities[sources.findIndex((source) => source.id === name)] ?? 0;
  const gain = by(probeId(id)) + by(sizeInTheBatch(id)) + by(sourceOfMeasurement({ id }).id);
  return Math.abs(gain) < negligible ? 0 : gain;
}

function knownBy(dimension: Dimension, { thisPart, sizes }: PartLocation, view: View): ChainLink["knownBy"] {
  if (view === "batch") return "drawing";
  if (thisPart.ok && thisPart.value.sizesDetermined[sizes.indexOf(dimension.id)]) return "touches";
  return dimension.measured === undefined ? "drawing" : "measurement";
}
