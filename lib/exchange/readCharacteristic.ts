import type { Axis } from "../base/vector.ts";
import type { CharacteristicEntry } from "../document/setupDocument.ts";
import type { LengthUnit } from "./lengthText.ts";
import type { LeftOut } from "./proposal.ts";

/** What a drawing demands, as another program tells it; digits with a decimal point. */
export interface ReadCharacteristic {
  readonly at: string;
  readonly name: string;
  readonly kind: CharacteristicEntry["kind"];
  /** The element; empty where nothing is said of it. */
  readonly of: string;
  /** Further elements of a pattern. */
  readonly also?: readonly string[];
  /** The other element of a distance, the datum of an orientation and so on; empty where nothing is said of it. */
  readonly from: string;
  /** The datum system of a position or a coordinate; empty where nothing is said of it. */
  readonly datums: string;
  readonly axis: Axis | undefined;
  /** Of nominal and tolerance. */
  readonly unit: LengthUnit | "deg";
  readonly nominal: string | undefined;
  /** Of the feature of an orientation, as far as stated. */
  readonly length?: string | undefined;
  readonly width?: string | undefined;
  /** Width or diameter of a zone, deviations from the nominal, or the least wall. */
  readonly tolerance: ReadTolerance;
  /** What a person has to see before it is taken. */
  readonly doubts: readonly string[];
}

export type ReadTolerance = { readonly zone: string } | { readonly upper: string; readonly lower: string } | { readonly least: string };

/** A measured value of a characteristic of one part. */
export interface ReadMeasured {
  readonly at: string;
  readonly part: string;
  readonly name: string;
  /** Of value and nominal. */
  readonly unit: LengthUnit;
  readonly value: string;
  /** Undefined where only the characteristic of the setup knows it. */
  readonly nominal: string | undefined;
}

export interface ReadCharacteristics {
  /** Of lengths that do not say another. */
  readonly unit: LengthUnit;
  readonly characteristics: readonly ReadCharacteristic[];
  readonly measured: readonly ReadMeasured[];
  readonly leftOut: readonly LeftOut[];
}

/** Words of drawings and standards (ISO 1101, ISO 129-1), without blanks, in small letters. */
const kinds: Readonly<Record<string, CharacteristicEntry["kind"]>> = {
  position: "position",
  positionatmaximummaterial: "position at maximum material",
  positionwithinthepattern: "position within the pattern",
  coordinate: "coordinate",
  linearcoordinate: "coordinate",
  distance: "distance",
  distancebetween: "distance",
  linear: "distance",
  depth: "depth",
  coaxiality: "coaxiality",
  concentricity: "coaxiality",
  symmetry: "symmetry",
  parallelism: "parallelism",
  perpendicularity: "perpendicularity",
  wallthickness: "wall thickness",
  angle: "angle",
};

/** The kind of characteristic that a word names; undefined where a setup has none such. */
export function characteristicKind(word: string): CharacteristicEntry["kind"] | undefined {
  const plain = word.toLowerCase().replace(/[^a-z]/g, "");
  return Object.hasOwn(kinds, plain) ? kinds[plain] : undefined;
}

/** Kinds that are between two elements. */
export function isOfTwo(kind: CharacteristicEntry["kind"]): boolean {
  return !["coordinate", "position", "position at maximum material", "position within the pattern"].includes(kind);
}

/** Kinds whose tolerance is the width or the diameter of a zone. */
export function isOfZone(kind: CharacteristicEntry["kind"]): boolean {
  return !["coordinate", "distance", "depth", "wall thickness", "angle"].includes(kind);
}
