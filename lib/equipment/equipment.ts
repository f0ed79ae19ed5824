import type { Moment } from "../base/moment.ts";
import type { Mm, Radian } from "../base/quantity.ts";
import type { AxisDirection, Vector } from "../base/vector.ts";
import type { Evidence } from "../uncertainty/source.ts";
import type { Heat } from "./heat.ts";

/** A thing that touches: what its tip does not know about itself. Lengths in mm; 0 where nothing is stated. */
export interface Tool {
  readonly id: string;
  readonly kind: "turning edge finder" | "touch probe" | "tool or pin" | "swept indicator";
  /** Effective radius; undefined when neither radius nor diameter is stated. */
  readonly radius: Mm | undefined;
  /** Half the diameter of the catalogue; undefined when it is not stated. */
  readonly catalogueRadius: Mm | undefined;
  readonly radiusUncertainty: Mm;
  readonly radiusEvidence: Evidence;
  /** Half-width of the late trigger, the same on every side. */
  readonly lateTrigger: Mm;
  /** Half-width by which the tip may stand off the spindle axis. */
  readonly eccentricity: Mm;
  /** Standard deviation of one touch; undefined when not stated. */
  readonly scatter: Mm | undefined;
  readonly scatterFrom: "stated" | "own repeats" | "pooled repeats";
  readonly scatterEvidence: Evidence;
  /** From the gauge line to the tip; undefined when not stated. */
  readonly length: Mm | undefined;
  readonly lengthUncertainty: Mm;
  /** Swept indicator with a lever: what is known of its angle; undefined where nothing is stated, as of an indicator that is pushed straight in. */
  readonly lever: Lever | undefined;
  /** How long one touch takes, minutes, above 0; undefined when not stated. */
  readonly touchMinutes: number | undefined;
  readonly calibration: Calibration;
}

/** What is stated of how a tool or a spacer was calibrated; no number follows from it. */
export interface Calibration {
  /** The certificate or record that its figures rest on, as typed; empty where none is stated. */
  readonly certificate: string;
  /** The day on which it was calibrated; undefined where none is stated. */
  readonly calibrated: Moment | undefined;
  /** The last day on which that still holds; undefined where none is stated. */
  readonly due: Moment | undefined;
  /** Whether a day is stated that cannot be read. */
  readonly unread: boolean;
}

/** The angle between an indicator's lever and the surface that it sweeps, 0 where they are parallel: known with its doubt, or only its largest. */
export type Lever =
  | { readonly angle: Radian; readonly standardUncertainty: Radian; readonly largest?: undefined }
  | { readonly largest: Radian; readonly angle?: undefined; readonly standardUncertainty?: undefined };

/** A block, a sheet of paper or a setter of known height between tool and face. */
export interface Spacer {
  readonly id: string;
  readonly thickness: Mm;
  readonly standardUncertainty: Mm;
  readonly evidence: Evidence;
  readonly calibration: Calibration;
}

export const registers = ["G54", "G55", "G56", "G57", "G58", "G59", "G59.1", "G59.2", "G59.3"] as const;
/** Work offset registers, P1 to P9 of `G10 L2` (RS274/NGC, NISTIR 6556, 3.5.5). */
export type Register = (typeof registers)[number];

export interface Machine {
  readonly name: string;
  readonly register: Register;
  readonly controllerUnit: "mm" | "inch";
  /** Decimals of an offset as typed, in the controller's unit. */
  readonly decimals: number;
  /** Smallest step of an offset register, mm; undefined when not stated, and 0 where somebody says that an offset is not rounded. */
  readonly offsetStep: Mm | undefined;
  /** Smallest step of the position display, mm; 0 when not stated. */
  readonly displayStep: Mm;
  /** Lost motion left after compensation, per axis, mm. */
  readonly lostMotion: readonly [Mm, Mm, Mm];
  /** Direction of the last move before cutting, per axis; undefined when both occur. */
  readonly working: readonly [1 | -1 | undefined, 1 | -1 | undefined, 1 | -1 | undefined];
  /** Half-width of the positioning error per mm of distance; 0 when not stated. */
  readonly positioningRate: number;
  /** Half-width of the angle by which its motions are out of square, about X, Y and Z, radians; undefined where nothing is stated. */
  readonly squareness: readonly [number | undefined, number | undefined, number | undefined];
  /** How warm part and scales are; undefined where nothing is stated. */
  readonly heat: Heat | undefined;
  /** The operation that it works in, of several; left out where there is one. */
  readonly operation?: string;
}

/** What is added to the names of the machine's sources that are new in every operation. */
export function inOperation({ operation }: Machine): string {
  return operation === undefined ? "" : `, operation ${operation}`;
}

/** A work frame that was active when readings were taken: where its zero stands in the machine, mm. */
export interface WorkFrame {
  readonly id: string;
  readonly origin: Vector;
  /** Of where it stands, per axis, mm. */
  readonly standardUncertainty: Mm;
}

/** Direction of travel of a touch. */
export type Travel = AxisDirection | "radial" | "sweep";
