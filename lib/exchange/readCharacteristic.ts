import type { CharacteristicEntry } from "../document/setupDocument.ts";
import type { LengthUnit } from "./lengthText.ts";
import type { LeftOut } from "./proposal.ts";

/** What a drawing demands, as another program tells it; digits with a decimal point. */
export interface ReadCharacteristic {
  readonly at: string;
  readonly name: string;
  readonly kind: CharacteristicEntry["kind"];
  readonly of: string;
  readonly axis: "X" | "Y" | "Z" | undefined;
  readonly nominal: string | undefined;
  /** Width or diameter of a zone, or deviations from the nominal. */
  readonly tolerance: { readonly zone: string } | { readonly upper: string; readonly lower: string };
}

/** A measured value of a characteristic of one part. */
export interface ReadMeasured {
  readonly at: string;
  readonly part: string;
  readonly name: string;
  readonly value: string;
  /** Undefined where only the characteristic of the setup knows it. */
  readonly nominal: string | undefined;
}

export interface ReadCharacteristics {
  readonly unit: LengthUnit;
  readonly characteristics: readonly ReadCharacteristic[];
  readonly measured: readonly ReadMeasured[];
  readonly leftOut: readonly LeftOut[];
}

/** Words of drawings and standards (ISO 1101, ISO 129-1), without blanks, in small letters. */
const kinds: Readonly<Record<string, CharacteristicEntry["kind"]>> = {
  position: "position",
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
};

/** The kind of characteristic that a word names; undefined where a setup has none such. */
export function characteristicKind(word: string): CharacteristicEntry["kind"] | undefined {
  const plain = word.toLowerCase().replace(/[^a-z]/g, "");
  return Object.hasOwn(kinds, plain) ? kinds[plain] : undefined;
}

/** Kinds whose tolerance is the width or the diameter of a zone. */
export function isOfZone(kind: CharacteristicEntry["kind"]): boolean {
  return !["coordinate", "distance", "depth", "wall thickness", "angle"].includes(kind);
}
