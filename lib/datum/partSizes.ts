import { unitVector, type Vector } from "../base/vector.ts";
import type { Movement } from "../frame/contactResidual.ts";
import type { LocatedPart } from "../part/locateElements.ts";
import type { Dimension, Element, Limits, Part, Round } from "../part/part.ts";
import { sourceOfMeasurement } from "../part/sourceOfMeasurement.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import type { SourceDistribution } from "../uncertainty/sourceDistribution.ts";
import { limitsAtDeviations } from "../uncertainty/statedLimits.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";

/** One size of the part that is not exactly its drawing value; deviations from nominal, mm. */
export interface PartSize {
  /** The dimension's name, or `<element>, diameter`. */
  readonly id: string;
  readonly nominal: number;
  /** How the drawing lets it vary, before any touch. */
  readonly batch: Uncertain;
  /** Measured on this part by other means than touches. */
  readonly measured: Uncertain | undefined;
  /** How far it may be off, mm: weighs sizes against each other where touches determine only a sum of them. */
  readonly scale: number;
}

/** All sizes of a part in a fixed order, and how each moves each element. */
export interface PartSizes {
  readonly sizes: readonly PartSize[];
  /** Index of a dimension among the sizes. */
  readonly indexOf: (dimension: string) => number;
  /** Index of the diameter of a round element that exists before the setup. */
  readonly indexOfDiameter: (element: string) => number | undefined;
  /** How the sizes move the surface of an element, by size index. */
  readonly movementsOf: (element: string) => readonly Movement[];
}

/** A diameter for which no limits are given is weighed as if it could be off by this much, mm. */
const scaleWithoutLimits = 1;
/** A size that is taken as exact keeps its value against any toleranced one, mm. */
const scaleOfExact = 1e-6;

export function partSizes(part: Part, { places }: LocatedPart, book: SourceBook): PartSizes {
  const rounds = part.elements.filter(
    (element): element is Round => (element.kind === "bore" || element.kind === "boss") && element.made === "before",
  );
  const sizes = [
    ...part.dimensions.map((dimension) => sizeOfDimension(dimension, book)),
    ...rounds.map((round) => sizeOfRound(round, book)),
  ];
  const dimensionIndex = new Map(part.dimensions.map(({ id }, i) => [id, i]));
  const roundIndex = new Map(rounds.map(({ id }, i) => [id, part.dimensions.length + i]));
  const kinds = new Map<string, Element>(part.elements.map((element) => [element.id, element]));

  const movementsOf = (element: string): readonly Movement[] => {
    const shifts = new Map<number, [number, number, number]>();
    (places.get(element) ?? []).forEach((place, axis) => {
      for (const [dimension, gain] of place?.gains ?? []) {
        const size = dimensionIndex.get(dimension) as number;
        const shift = shifts.get(size) ?? [0, 0, 0];
        shift[axis] = gain;
        shifts.set(size, shift);
      }
    });
    const moved: Movement[] = [...shifts].map(([size, shift]) => ({ size, shift, growth: 0 }));
    const kind = kinds.get(element)?.kind;
    const diameter = roundIndex.get(element);
    return (kind === "bore" || kind === "boss") && diameter !== undefined
      ? [...moved, { size: diameter, shift: [0, 0, 0], growth: 0.5 }]
      : moved;
  };
  return {
    sizes,
    indexOf: (dimension) => dimensionIndex.get(dimension) as number,
    indexOfDiameter: (element) => roundIndex.get(element),
    movementsOf,
  };
}

/** How a width moves a face: half of it, outwards. */
export function halfOutward(outward: Parameters<typeof unitVector>[0]): Vector {
  const [x, y, z] = unitVector(outward);
  return [x / 2, y / 2, z / 2];
}

/** The source of how a dimension varies from part to part. */
export function sizeInTheBatch(dimension: string): string {
  return `dimension ${dimension}, in the batch`;
}

function sizeOfDimension({ id, nominal, limits, spread, measured }: Dimension, book: SourceBook): PartSize {
  return {
    id,
    nominal,
    batch: batchDeviation(sizeInTheBatch(id), `size variation of ${id}`, limits, spread, book),
    measured:
      measured &&
      book.value({
        ...sourceOfMeasurement({ id }),
        estimate: measured.value - nominal,
        distribution: { shape: "normal", standardDeviation: measured.standardUncertainty },
      }),
    scale: Math.max(measured ? measured.standardUncertainty : halfRange(limits) / limitsAtDeviations, scaleOfExact),
  };
}

function sizeOfRound(round: Round, book: SourceBook): PartSize {
  const { id, diameter, diameterLimits } = round;
  return {
    id: diameterOf(id),
    nominal: diameter,
    batch: diameterInTheBatch(round, book),
    measured: undefined,
    scale: diameterLimits ? Math.max(halfRange(diameterLimits) / limitsAtDeviations, scaleOfExact) : scaleWithoutLimits,
  };
}

/** How the drawing lets a diameter vary, mm; exact where it states no limits. */
export function diameterInTheBatch({ id, diameterLimits }: Round, book: SourceBook): Uncertain {
  const name = diameterOf(id);
  return diameterLimits ? batchDeviation(`${name}, in the batch`, `size variation of ${name}`, diameterLimits, "normal", book) : certain(0);
}

function diameterOf(element: string): string {
  return `${element}, diameter`;
}

function halfRange({ lower, upper }: Limits): number {
  return (upper - lower) / 2;
}

function batchDeviation(id: string, label: string, limits: Limits, spread: Dimension["spread"], book: SourceBook): Uncertain {
  const halfWidth = halfRange(limits);
  const distribution: SourceDistribution =
    spread === "normal" ? { shape: "normal", standardDeviation: halfWidth / limitsAtDeviations } : { shape: spread, halfWidth };
  const estimate = (limits.lower + limits.upper) / 2;
  const { standard } = limits;
  return book.value({
    id,
    label: standard === undefined ? label : `${label} (${standard})`,
    family: "part",
    estimate,
    distribution,
    evidence: { kind: "drawing", ...(standard !== undefined && { note: standard }) },
    limit: halfWidth,
  });
}
