import { type Expression, namesIn } from "./expression.ts";

/**
 * What a person may type into one cell: a formula, and in one place a doubt of
 * its own. Units are as typed; `checkStatement` gives them to bare numbers.
 */
export interface Statement {
  /** The formula of the best estimate: of limits their middle, of readings their mean. */
  readonly expression: Expression;
  readonly doubt?: StatedDoubt;
}

/** A doubt as it was typed. Its sizes are formulas over what is sure: a doubt has no doubt of its own. Readings are formulas of numbers, without names. */
export type StatedDoubt =
  /**
   * `± 0.002 mm`: `size` is the standard uncertainty, or, with a coverage factor, the expanded one (JCGM 100:2008, 6.2.1); of `± 0.1 %` the same
   * relative to the value (5.1.6), in per cent.
   */
  | {
      readonly kind: "standard";
      readonly size: Expression;
      readonly isRelative?: true;
      /** Above 0. */
      readonly coverageFactor?: number;
      /** Above 0; infinite where nothing is said. */
      readonly degreesOfFreedom?: number;
    }
  /** `within 0.01 mm`: half the distance of the limits, which lie evenly about the estimate; of `within 1 %` in per cent of the value. */
  | { readonly kind: "within"; readonly halfWidth: Expression; readonly isRelative?: true; readonly shape: LimitShape }
  /** `from 12.49 mm to 12.52 mm`. */
  | { readonly kind: "limits"; readonly lower: Expression; readonly upper: Expression; readonly shape: LimitShape }
  /** `0.02 mm not below 0 mm`: of a quantity with one limit the expectation is all that is known, so that it is exponential (JCGM 101:2008, 6.4.10). */
  | { readonly kind: "notBelow"; readonly expectation: Expression; readonly lowest: Expression }
  /**
   * `12.501; 12.499; 12.502 mm`: two readings of the same thing, or more. `12.501; 12.499 | 12.503; 12.504 mm`: the same in groups, such as days,
   * of which at least one has two readings; `groupSizes` counts them, in the order of the readings.
   */
  | { readonly kind: "readings"; readonly readings: readonly Expression[]; readonly groupSizes?: readonly number[] };

/**
 * How likely a value is between its limits; see `SourceDistribution`. Those of `normal` lie at three standard deviations, as
 * those of a drawing do (`limitsAtDeviations`).
 */
export type LimitShape =
  | { readonly name: "rectangular" | "triangular" | "arcsine" | "normal" }
  /** `topRatio` from 0 to 1. */
  | { readonly name: "trapezoidal" | "curvilinear trapezoidal"; readonly topRatio: number };

/** The formulas of a statement that must be of one dimension: first the value, or what it is made of. */
export function partsOfStatement({ expression, doubt }: Statement): readonly Expression[] {
  if (doubt === undefined || isRelative(doubt)) return [expression];
  return doubt.kind === "standard" || doubt.kind === "within" ? [expression, ...sizesOf(doubt)] : sizesOf(doubt);
}

/** Whether the size of a doubt is in per cent of the value, and so of another dimension than it. */
export function isRelative(doubt: StatedDoubt): doubt is StatedDoubt & { readonly isRelative: true } {
  return "isRelative" in doubt;
}

/** The formulas that a doubt is worked out from. */
export function sizesOf(doubt: StatedDoubt): readonly Expression[] {
  switch (doubt.kind) {
    case "standard":
      return [doubt.size];
    case "within":
      return [doubt.halfWidth];
    case "limits":
      return [doubt.lower, doubt.upper];
    case "notBelow":
      return [doubt.expectation, doubt.lowest];
    case "readings":
      return doubt.readings;
  }
}

/** The names that a statement uses, each once: of its formula, and of the size of its doubt. */
export function namesOfStatement(statement: Statement): readonly string[] {
  const { expression, doubt } = statement;
  const parts = doubt && isRelative(doubt) ? [expression, ...sizesOf(doubt)] : partsOfStatement(statement);
  return [...new Set(parts.flatMap(namesIn))];
}

/** Things one after another, parted into groups of these sizes. */
export function inGroups<T>(things: readonly T[], sizes: readonly number[]): readonly (readonly T[])[] {
  return sizes.map((size, group) => {
    const start = sizes.slice(0, group).reduce((sum, before) => sum + before, 0);
    return things.slice(start, start + size);
  });
}

/** The formula of the middle of two limits. */
export function middleOf(lower: Expression, upper: Expression): Expression {
  const { character } = lower;
  const sum: Expression = { kind: "operation", operator: "+", left: lower, right: upper, character };
  const two: Expression = { kind: "number", value: 2, decimals: 0, text: "2", character };
  return { kind: "operation", operator: "/", left: sum, right: two, character };
}

/** The formula of the mean of readings. */
export function meanOf(readings: readonly [Expression, ...Expression[]]): Expression {
  return { kind: "call", function: "mean", arguments: readings, character: readings[0].character };
}
