import type { StrategyEvaluation } from "../../decision/setupEvaluation.ts";
import { plainOutcome } from "./plainProblem.ts";
import { plainQuantity } from "./plainQuantity.ts";

/**
 * What the touches of a strategy could give at best, beside what it makes of them, as plain data; null where they are just enough. Both with what the
 * machine's scale is off between the touches and part zero.
 */
export function plainOptimal({ optimal }: StrategyEvaluation) {
  if (optimal === undefined) return null;
  return plainOutcome(optimal, ({ coordinates, contrasts }) => ({
    contrasts,
    coordinates: coordinates.map(({ name, conventional, optimal: best, ratio }) => {
      const unit = name === "rotation" ? "rad" : "mm";
      const { value, standardUncertainty } = conventional;
      return { name, conventional: { value, unit, standardUncertainty }, optimal: plainQuantity(best, unit), ratio };
    }),
  }));
}
