import { type Budget, byFamily, type Contribution } from "../../uncertainty/budget.ts";
import { standardUncertaintyOf } from "../../uncertainty/sourceDistribution.ts";
import { expandedUncertainty } from "../expandedUncertainty.ts";
import { plainEvidence } from "./plainEvidence.ts";
import { plainNumber } from "./plainNumber.ts";

/** A result with its doubt as plain data, and where the doubt comes from, largest first. */
export function plainQuantity(budget: Budget, unit: string) {
  const expanded = expandedUncertainty(budget);
  return {
    value: budget.value,
    unit,
    standardUncertainty: budget.standardUncertainty,
    ...expanded,
    degreesOfFreedom: plainNumber(expanded.degreesOfFreedom),
    families: byFamily(budget),
    contributions: budget.contributions.map(plainContribution),
  };
}

function plainContribution({ source, sensitivity, amount }: Contribution) {
  return {
    source: source.id,
    label: source.label,
    family: source.family,
    evidence: plainEvidence(source.evidence),
    sensitivity,
    sourceStandardUncertainty: standardUncertaintyOf(source.distribution),
    amount,
  };
}
