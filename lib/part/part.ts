import type { Mm, Radian } from "../base/quantity.ts";
import { type Axis, type AxisDirection, axes, type Vector } from "../base/vector.ts";
import type { DatumSystem } from "./datumSystem.ts";
import type { LimitedSize } from "./maximumMaterial.ts";

/** Half-widths and deviations below are in mm. */
interface ElementBase {
  readonly id: string;
  /** `before`: on the part when it comes; `here`: cut in this setup, where the programme says. */
  readonly made: "before" | "here";
  /** The operation before this one that has cut it; left out of what the part came with. */
  readonly cutIn?: string;
  /** Datum letter of the drawing, empty for none (ISO 5459). */
  readonly datum: string;
  /** Basic coordinates in the drawing's frame, where given. */
  readonly at: readonly [x: Mm | undefined, y: Mm | undefined, z: Mm | undefined];
  /** Half-width by which a touch may land off the mean surface; 0 for none. */
  readonly roughness: Mm;
  /** Half-width by which the surface may lean where it is touched; 0 for none. */
  readonly skew: Mm;
  /** Standard uncertainty of cutting it, per axis; 0 for none, which leaves a middle to its faces. */
  readonly process: Mm;
  /** Half-width of the angle by which it may stand off what else tells how the part is turned or tilted, radians; undefined where nothing is stated. */
  readonly outOfSquare?: Radian | undefined;
}

export interface Face extends ElementBase {
  readonly kind: "face";
  /** Out of the metal. */
  readonly outward: AxisDirection;
  /** How far it may at most stay proud because the cutter yields; 0 for nothing. */
  readonly deflection: Mm;
}

/**
 * A flat face that looks along no axis, through the point that its coordinates give: upright at an angle, or inclined (a chamfer, a wedge, the flank of a
 * dovetail). It is there before this setup.
 */
export interface AngledFace extends ElementBase {
  readonly kind: "angled face";
  /** In the plan, from +X towards +Y, out of the metal. */
  readonly facing: Radian;
  /** How far it looks up from level, between ± a quarter turn: 0 of an upright face, above 0 where a tool meets it from above, below 0 of an undercut. */
  readonly inclination: Radian;
}

/** A round wall with its axis along Z. */
export interface Round extends ElementBase {
  readonly kind: "bore" | "boss";
  readonly diameter: Mm;
  /** Limits of the diameter, when the drawing gives some. */
  readonly diameterLimits: Limits | undefined;
  /** What is known of its form error. */
  readonly lobing: Lobing | undefined;
}

/** A wall whose radius rises and falls so many times on the way round, by the amplitude to either side of the mean circle; where it does is not known. */
export interface Lobing {
  /** 2 for an oval, 3 for a wall that three jaws have pressed, ... */
  readonly lobes: number;
  readonly amplitude: Mm;
  /** Which way X and Y of the drawing look in the machine, where the part lies turned. */
  readonly signs?: readonly [x: 1 | -1, y: 1 | -1];
}

/** The plane half-way between two parallel faces: a derived element. */
export interface Middle extends ElementBase {
  readonly kind: "middle";
  readonly of: readonly [string, string];
}

export type Element = Face | AngledFace | Round | Middle;

/** Permitted deviations from nominal: lower ≤ upper, mm. */
export interface Limits {
  readonly lower: Mm;
  readonly upper: Mm;
  /** The standard whose tables give them, `ISO 286 H7` or `ISO 2768-m`; nothing where the drawing states the figures. */
  readonly standard?: string;
}

/** A distance that the drawing gives between two elements that exist before this setup. */
export interface Dimension {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  /** From → to is positive along this axis when `nominal` is. */
  readonly axis: Axis;
  readonly nominal: Mm;
  readonly limits: Limits;
  readonly spread: "normal" | "rectangular" | "triangular";
  /** This part's own size, measured by other means than the touches. */
  readonly measured: { readonly value: Mm; readonly standardUncertainty: Mm } | undefined;
}

interface CharacteristicBase {
  readonly id: string;
  /** The row of the drawing that it belongs to, where a row demands several things at once (a pattern); left out where it is a row by itself. */
  readonly row?: string;
}

/** How one component of an orientation follows the turns of the feature against its datum: Σ factor · turn; factors are mm, 1 for an angle itself. */
export type Tilt = readonly { readonly about: Axis; readonly factor: number }[];

interface OrientationBase extends CharacteristicBase {
  readonly of: string;
  readonly from: string;
  /** X and Y in a round zone, one component otherwise. */
  readonly tilts: readonly Tilt[];
}

/** What the drawing demands of what is cut here. */
export type Characteristic =
  /** The axis of a round element within a zone of this diameter about its basic place. */
  | (CharacteristicBase & {
      readonly kind: "position";
      readonly of: string;
      readonly zone: Mm;
      /** The size whose departure from maximum material widens the zone, where the drawing says so. */
      readonly atMaximumMaterial?: LimitedSize;
      /** What it is measured from; left out for the drawing's frame by datum letters. */
      readonly datums?: DatumSystem;
    })
  /** The axis of a round element within a zone about its place among the others of its pattern, wherever the pattern lies (ISO 5458, combined zone). */
  | (CharacteristicBase & {
      readonly kind: "position within the pattern";
      readonly of: string;
      readonly zone: Mm;
      /** All of the pattern, of which `of` is one. */
      readonly pattern: readonly string[];
    })
  /** The axis of a round element within a zone of this diameter about the axis of another (ISO 1101, coaxiality). */
  | (CharacteristicBase & { readonly kind: "coaxiality"; readonly of: string; readonly from: string; readonly zone: Mm })
  /** One coordinate in the drawing's frame, or from the datums that it names. */
  | (CharacteristicBase & {
      readonly kind: "coordinate";
      readonly of: string;
      readonly axis: Axis;
      readonly limits: Limits;
      readonly datums?: DatumSystem;
    })
  /**
   * The distance between two elements along an axis; a depth is one along Z. Symmetry is a distance of 0 between two middles: its zone stands
   * half to either side of the other middle (ISO 1101, symmetry).
   */
  | (CharacteristicBase & {
      readonly kind: "distance" | "symmetry";
      readonly of: string;
      readonly from: string;
      readonly axis: Axis;
      readonly limits: Limits;
    })
  /** The least wall between a bore and a face or another bore; limits are deviations from the drawing's, without an upper one `Infinity`. */
  | (CharacteristicBase & { readonly kind: "wall thickness"; readonly of: string; readonly from: string; readonly limits: Limits })
  /** A face or an axis between two planes that are parallel or square to the datum; limits are half-widths ± the zone, as the turn moves one end against the other (ISO 1101). */
  | (OrientationBase & { readonly kind: "parallelism" | "perpendicularity"; readonly limits: Limits })
  /** An axis within a cylinder of this diameter that is parallel or square to the datum (ISO 1101). */
  | (OrientationBase & { readonly kind: "parallelism" | "perpendicularity"; readonly zone: Mm })
  /** The angle between two elements; limits in radians. */
  | (OrientationBase & { readonly kind: "angle"; readonly limits: AngleLimits });

/** Permitted deviations of an angle: lower ≤ upper, radians. */
export interface AngleLimits {
  readonly lower: Radian;
  readonly upper: Radian;
  /** The standard that the drawing leaves them to, such as `ISO 2768-m`. */
  readonly standard?: string;
}

/** What the drawing says about a turn against another element. */
export type Orientation = Extract<Characteristic, { readonly tilts: readonly Tilt[] }>;

export function isOrientation(characteristic: Characteristic): characteristic is Orientation {
  return "tilts" in characteristic;
}

/** What its deviation and its tolerance are told in. */
export function unitOf({ kind }: Pick<Characteristic, "kind">): "mm" | "rad" {
  return kind === "angle" ? "rad" : "mm";
}

/** The row of the document that demands it. */
export function rowOf({ id, row }: { readonly id: string; readonly row?: string }): string {
  return row ?? id;
}

export interface Part {
  readonly name: string;
  readonly elements: readonly Element[];
  readonly dimensions: readonly Dimension[];
  readonly characteristics: readonly Characteristic[];
}

/** What the drawing limits by the diameter of a zone about an axis. */
export type RoundCharacteristic = Extract<Characteristic, { readonly zone: Mm }>;

/** Whether a round zone limits it: its deviation then has the components X and Y, and is told as the diameter that they use. */
export function isRound(characteristic: Characteristic): characteristic is RoundCharacteristic {
  return "zone" in characteristic;
}

export function isBore(element: Element): element is Round {
  return element.kind === "bore";
}

/** A component of a unit vector below this is the rounding of its angles. */
const noComponent = 1e-9;

/**
 * Unit vector out of the metal of an angled face: (cos φ cos ε, sin φ cos ε, sin ε), with φ where it looks in the plan and ε how far up (plane geometry).
 * A component of no more than the angles' rounding is 0.
 */
export function normalOf({ facing, inclination }: Pick<AngledFace, "facing" | "inclination">): Vector {
  const level = Math.cos(inclination);
  const whole = (component: number) => (Math.abs(component) < noComponent ? 0 : component);
  return [whole(Math.cos(facing) * level), whole(Math.sin(facing) * level), whole(Math.sin(inclination))];
}

/** Axes along which an element has a place: of an angled face those that its normal has a share of. */
export function axesOf(element: Element, elements: ReadonlyMap<string, Element>): readonly Axis[] {
  if (element.kind === "face") return [element.outward[1] as Axis];
  if (element.kind === "angled face") {
    const normal = normalOf(element);
    return axes.filter((_, axis) => normal[axis] !== 0);
  }
  if (element.kind !== "middle") return ["X", "Y"];
  const first = elements.get(element.of[0]);
  return first?.kind === "face" ? axesOf(first, elements) : [];
}

/** Key of the size that tells how far what an earlier operation has cut is off its place along an axis: no dimension can be called so. */
export function placeSizeOf(element: string, axis: Axis): string {
  return `\u0000place ${axis} of ${element}`;
}

/** Whether an operation before this one has cut it by itself; a middle without a doubt of its own cut is half-way between faces of the same operation. */
export function isCutEarlier(element: Element, elements: ReadonlyMap<string, Element>): boolean {
  if (element.cutIn === undefined) return false;
  return !(element.kind === "middle" && element.process === 0 && element.of.every((id) => elements.get(id)?.cutIn === element.cutIn));
}

/**
 * The cuts that make an element of this setup: itself; of a middle that states no doubt of a cut of its own, its two faces, where they are cut here:
 * it is by definition half-way between them.
 */
export function cutsOf(element: Element, elements: readonly Element[]): readonly Element[] {
  if (element.kind !== "middle" || element.process !== 0) return [element];
  const faces = elements.filter(({ id, made }) => made === "here" && element.of.includes(id));
  return faces.length === 2 ? faces : [element];
}

/** Elements whose surfaces an element consists of. */
export function surfacesOf(element: Element): readonly string[] {
  return element.kind === "middle" ? element.of : [element.id];
}

/** Nominal place with 0 for what is not given. */
export function basicPlace({ at }: Element): Vector {
  return [at[0] ?? 0, at[1] ?? 0, at[2] ?? 0];
}
