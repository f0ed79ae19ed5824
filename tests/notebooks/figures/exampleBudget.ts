import type { Budget, Contribution } from "../../../lib/uncertainty/budget.ts";
import type { Family, Source } from "../../../lib/uncertainty/source.ts";

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

/** A budget of contributions, largest first as the library gives them. */
export function budget(value: number, ...contributions: readonly Contribution[]): Budget {
  return {
    value,
    standardUncertainty: Math.hypot(...contributions.map(({ amount }) => amount)),
    contributions: [...contributions].sort((a, b) => Math.abs(b.amount) - Math.abs(a.amount)),
  };
}
