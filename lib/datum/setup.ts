import type { Machine, Spacer, Tool } from "../equipment/equipment.ts";
import type { Part } from "../part/part.ts";
import type { Touch } from "../readings/touch.ts";
import type { Strategy } from "./strategy.ts";

/** Everything that a person states about a setup, read and checked; lengths in mm. */
export interface Setup {
  readonly title: string;
  readonly part: Part;
  readonly tools: readonly Tool[];
  readonly spacers: readonly Spacer[];
  readonly machine: Machine;
  readonly touches: readonly Touch[];
  readonly strategies: readonly Strategy[];
  /** The strategy in use; empty for none. */
  readonly chosen: string;
  /** The unit in which a person reads and types. */
  readonly unit: "mm" | "inch";
  readonly sampling: { readonly trials: number; readonly seed: number };
}
