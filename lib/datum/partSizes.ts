import { unitVector, type Vector } from "../base/vector.ts";
import type { Movement } from "../frame/contactResidual.ts";
import type { LocatedPart } from "../part/locateElements.ts";
import { basicPlace, type Dimension, type Element, type Limits, type Part, type Round } from "../part/part.ts";
import { sourceOfMeasurement } from "../part/sourceOfMeasurement.ts";
import { budgetOf } from "../uncertainty/budget.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import type { SourceDistribution } from "../uncertainty/sourceDistribution.ts";
import { limitsAtDeviations } from "../uncertainty/statedLimits.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import { type EarlierSize, type EarlierWork, nothingEarlier } from "./earlierWork.ts";

/** One size of the part that is not exactly its drawing value; deviations from nominal, mm. */
export interface PartSize {
  /** The dimension's name, `<element>, diameter`, or that of a place or turn of what an earlier operation has cut. */
  readonly id: string;
  readonly kind: "dimension" | "diameter" | "place" | "turn";
  readonly nominal: number;
  /** How the drawing lets it vary, before any touch. */
  readonly batch: Uncertain;
  /** Measured on this part by other means than touches. */
  readonly measured: Uncertain | undefined;
  /** Of what an earlier operation has cut: what that operation's readings say of this part. */
  readonly earlier?: Uncertain;
  /** How far it may be off, mm: weighs sizes against each other where touches determine only a sum of them. */
  readonly scale: number;
}

/** All sizes of a part in a fixed order, and how each moves each element. */
export interface PartSizes {
  readonly sizes: readonly PartSize[];
  /** Index of a dimension by its name, of what an earlier operation has cut by its key. */
  readonly indexOf: (size: string) => number;
  /** Index of the diameter of a round element that exists before the setup. */
  readonly indexOfDiameter: (element: string) => number | undefined;
  /**
   * How the sizes move the surface of an element, by size index.
   *
   * @param at where it is met, part coordinates, mm; what an earlier operation has cut may be turned about Z
   */
  readonly movementsOf: (element: string, at?: Vector) => readonly Movement[];
  /** Index of the turn about Z of what an earlier operation has cut, where it is in doubt: where it is met then matters for how the sizes move an element. */
  readonly indexOfTurn: (element: string) => number | undefined;
}

/** A diameter for which no limits are given is weighed as if it could be off by this much, mm. */
const scaleWithoutLimits = 1;
/** A size that is taken as exact keeps its value against any toleranced one, mm. */
const scaleOfExact = 1e-6;

export function partSizes(part: Part, { places }: LocatedPart, book: SourceBook, earlier: EarlierWork = nothingEarlier): PartSizes {
  const rounds = part.elements.filter(
    (element): element is Round => (element.kind === "bore" || element.kind === "boss") && element.made === "before",
  );
  const sizes = [
    ...part.dimensions.map((dimension) => sizeOfDimension(dimension, book)),
    ...rounds.map((round) => sizeOfRound(round, book)),
    ...earlier.sizes.map(sizeOfEarlier),
  ];
  const index = new Map([
    ...part.dimensions.map(({ id }, i) => [id, i] as const),
    ...earlier.sizes.map(({ key }, i) => [key, part.dimensions.length + rounds.length + i] as const),
  ]);
  const roundIndex = new Map(rounds.map(({ id }, i) => [id, part.dimensions.length + i]));
  const indexOfTurn = (element: string) => index.get(earlier.turns.get(element) ?? "");
  const kinds = new Map<string, Element>(part.elements.map((element) => [element.id, element]));

  const movementsOf = (element: string, at?: Vector): readonly Movement[] => {
    const shifts = new Map<number, [number, number, number]>();
    (places.get(element) ?? []).forEach((place, axis) => {
      for (const [dimension, gain] of place?.gains ?? []) {
        const size = index.get(dimension) as number;
        const shift = shifts.get(size) ?? [0, 0, 0];
        shift[axis] = gain;
        shifts.set(size, shift);
      }
    });
    const moved: Movement[] = [...shifts].map(([size, shift]) => ({ size, shift, growth: 0 }));
    const turn = indexOfTurn(element);
    if (turn !== undefined && at !== undefined) {
      const [x, y] = basicPlace(kinds.get(element) as Element);
      moved.push({ size: turn, shift: [y - at[1], at[0] - x, 0], growth: 0 });
    }
    const kind = kinds.get(element)?.kind;
    const diameter = roundIndex.get(element);
    return (kind === "bore" || kind === "boss") && diameter !== undefined
      ? [...moved, { size: diameter, shift: [0, 0, 0], growth: 0.5 }]
      : moved;
  };
  return {
    sizes,
    indexOf: (size) => index.get(size) as number,
    indexOfDiameter: (element) => roundIndex.get(element),
    movementsOf,
    indexOfTurn,
  };
}

/** How what an earlier operation has cut is turned about Z in a part of the batch, radians; undefined where that is not in doubt. */
export function turnInTheBatch({ id }: Pick<Element, "id">, { sizes, indexOfTurn }: PartSizes): Uncertain | undefined {
  const index = indexOfTurn(id);
  return index === undefined ? undefined : sizes[index]?.batch;
}

function sizeOfEarlier({ id, nominal, axis, batch, thisPart }: EarlierSize): PartSize {
  return {
    id,
    nominal,
    kind: axis === undefined ? "turn" : "place",
    batch,
    measured: undefined,
    earlier: thisPart,
    scale: Math.max(budgetOf(thisPart).standardUncertainty, scaleOfExact),
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
    kind: "dimension",
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
    kind: "diameter",
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

/** What the diameter of a round element is called among the sizes. */
export function diameterOf(element: string): string {
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
