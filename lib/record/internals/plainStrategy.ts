import { entryOf } from "../../base/matrix.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../../decision/setupEvaluation.ts";
import { covarianceMatrix } from "../../uncertainty/covariance.ts";
import type { Draws } from "../../uncertainty/draws.ts";
import { plainDeterminacy } from "./plainFrame.ts";
import { plainJudgement } from "./plainJudgement.ts";
import { plainOutcome } from "./plainProblem.ts";
import { plainQuantity } from "./plainQuantity.ts";

/**
 * One strategy as plain data: its zero, the offset to type, and what it does to the drawing in both views.
 *
 * @param place in the ranking, from 1
 */
export function plainStrategy(
  { id, evaluation }: SetupEvaluation["strategies"][number],
  place: number,
  { setup }: SetupEvaluation,
  draws: Draws,
) {
  const { characteristics } = setup.part;
  return {
    id,
    place,
    ...plainOutcome(evaluation, (strategy) => ({
      zero: plainZero(strategy),
      covariance: zeroCovariance(strategy),
      offset: plainOutcome(strategy.offset, ({ register, unit, digits, values, lines }) => ({
        register,
        unit,
        digits: digits.map((digit) => ({ ...digit })),
        values: values.map((value) => ({ ...value, unit: "mm" as const })),
        lines: [...lines],
        appliesRotation: strategy.solution.appliesRotation,
      })),
      zeroOnPart: {
        X: strategy.solution.zeroOnPart[0],
        Y: strategy.solution.zeroOnPart[1],
        Z: strategy.solution.zeroOnPart[2],
        unit: "mm" as const,
      },
      ...plainDeterminacy(strategy.solution.frame, strategy.solution.contacts, strategy.solution.strategy.rotation !== "ignored"),
      thisPart: plainJudgement(strategy.thisPart, characteristics, draws),
      batch: plainJudgement(strategy.batch, characteristics, draws),
    })),
  };
}

function plainZero({ zero: [x, y, z], rotation }: StrategyEvaluation) {
  return {
    X: plainOutcome(x, (budget) => plainQuantity(budget, "mm")),
    Y: plainOutcome(y, (budget) => plainQuantity(budget, "mm")),
    Z: plainOutcome(z, (budget) => plainQuantity(budget, "mm")),
    rotation: plainOutcome(rotation, (budget) => plainQuantity(budget, "rad")),
  };
}

/** Covariance and correlation of what is known of X, Y, Z (mm) and the rotation (rad), in the order of `of`. */
function zeroCovariance({ zero, rotation, solution }: StrategyEvaluation) {
  const names = ["X", "Y", "Z", "rotation"] as const;
  const { fromReadings } = solution;
  const known = [...zero, rotation].flatMap(({ ok }, i) => (ok ? [i] : []));
  const matrix = covarianceMatrix(known.map((i) => [...fromReadings.zero, fromReadings.rotation][i] as (typeof fromReadings)["rotation"]));
  const rows = (entry: (i: number, j: number) => number) => known.map((_, i) => known.map((_, j) => entry(i, j)));
  const scale = (i: number) => Math.sqrt(entryOf(matrix, i, i));
  return {
    of: known.map((i) => names[i] as (typeof names)[number]),
    covariance: rows((i, j) => entryOf(matrix, i, j)),
    // Two results of which one is exact do not go together: 0.
    correlation: rows((i, j) => (i === j ? 1 : scale(i) > 0 && scale(j) > 0 ? entryOf(matrix, i, j) / (scale(i) * scale(j)) : 0)),
  };
}
