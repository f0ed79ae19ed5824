import type { Problem } from "../base/outcome.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { DimensionOrColumn } from "./checkDimensions.ts";
import type { Lookup, ValueLookup } from "./evaluateExpression.ts";

/** What names stand for in the place where a formula is typed. */
export interface Names {
  readonly dimensions: Lookup<DimensionOrColumn>;
  readonly values: ValueLookup<Uncertain>;
  /** Why a name cannot be used here although something is called so; undefined for one that can, and for one that nothing has. */
  problemOf(name: string): Pick<Problem, "what" | "remedy"> | undefined;
}
