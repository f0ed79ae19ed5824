import type { Outcome } from "../../base/outcome.ts";
import { type SecondOrder, secondOrderMatters } from "../../uncertainty/secondOrder.ts";
import { significantDigits } from "../significantDigits.ts";
import { plainOutcome } from "./plainProblem.ts";

/** The terms of second order of a result as plain data, in its unit; variances of pairs of sources in the square of it. */
export function plainSecondOrder(component: Outcome<SecondOrder>) {
  return plainOutcome(component, (found) => ({
    verdict: secondOrderMatters(found, significantDigits),
    standardUncertainty: found.standardUncertainty,
    doubt: found.doubt,
    shiftOfExpectation: found.shift,
    terms: found.terms.map(({ sources, variance }) => ({ sources: sources.map(({ id }) => id), variance })),
  }));
}
