import type { Uncertain } from "../uncertainty/uncertain.ts";

/** A nest of a fixture, or a second part beside the first: where it is meant to be, and where it was found. */
export interface NestPlace {
  readonly id: string;
  /** From the first nest, as drawn, mm. */
  readonly nominal: readonly [x: number, y: number];
  /** The same as found in the machine, mm; undefined where nobody looked. */
  readonly found: readonly [x: Uncertain, y: Uncertain] | undefined;
}
