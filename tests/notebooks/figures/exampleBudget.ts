import { type Budget, budgetsOf, type Contribution } from "../../../lib/uncertainty/budget.ts";
import type { Family, Source } from "../../../lib/uncertainty/source.ts";
import { fromSource, sum, type Uncertain } from "../../../lib/uncertainty/uncertain.ts";

/** A normal source with the given effect; invented. */
export function contribution(
  label: string,
  amount: number,
  family: Family = "machine",
  degreesOfFreedom = Number.POSITIVE_INFINITY,
): Contribution {
  const source: Source = {
    id: `${family}, ${label}`,
    label,
    family,
    estimate: 0,
    distribution: { shape: "normal", standardDeviation: Math.abs(amount) },
    degreesOfFreedom,
    evidence: { kind: "stated" },
  };
  return { source, sensitivity: Math.sign(amount), amount, reach: Number.POSITIVE_INFINITY };
}

/** The value with its contributions. */
export function resultWith(value: number, contributions: readonly Pick<Contribution, "source" | "sensitivity">[]): Uncertain {
  return sum(contributions.map(({ source, sensitivity }) => fromSource(source).times(sensitivity))).plus(value);
}

export function budget(value: number, ...contributions: readonly Contribution[]): Budget {
  return budgetsOf([resultWith(value, contributions)])[0] as Budget;
}
