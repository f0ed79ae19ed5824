import { entryOf } from "../../base/matrix.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../../decision/setupEvaluation.ts";
import { correlationsOf, covarianceMatrix } from "../../uncertainty/covariance.ts";
import type { Draws } from "../../uncertainty/draws.ts";
import { zeroRegions } from "../zeroRegions.ts";
import { zeroSecondOrder } from "../zeroSecondOrder.ts";
import { plainDeterminacy } from "./plainFrame.ts";
import { type Inspection, plainJudgement } from "./plainJudgement.ts";
import { plainNumber } from "./plainNumber.ts";
import { plainOptimal } from "./plainOptimal.ts";
import { plainOutcome } from "./plainProblem.ts";
import { plainQuantity } from "./plainQuantity.ts";
import { plainSecondOrder } from "./plainSecondOrder.ts";

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
      secondOrder: Object.fromEntries(zeroSecondOrder(strategy).map(({ name, terms }) => [name, plainSecondOrder(terms)])),
      regions: plainRegions(strategy),
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
      effort: { ...strategy.effort },
      optimal: plainOptimal(strategy),
      thisPart: plainJudgement(strategy.thisPart, characteristics, draws, { rule: setup.decision }),
      batch: plainJudgement(strategy.batch, characteristics, draws, { inspection: inspectionOf(setup) }),
    })),
  };
}

function inspectionOf({ inspection, decision }: SetupEvaluation["setup"]): Inspection | undefined {
  return inspection !== undefined && decision.ok ? { rule: decision.value, standardUncertainty: inspection } : undefined;
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
function zeroCovariance({ zero, rotation }: StrategyEvaluation) {
  const names = ["X", "Y", "Z", "rotation"] as const;
  const known = [...zero, rotation].flatMap((result, i) =>
    result.ok ? [{ name: names[i] as (typeof names)[number], budget: result.value }] : [],
  );
  const budgets = known.map(({ budget }) => budget);
  const matrix = covarianceMatrix(budgets);
  return {
    of: known.map(({ name }) => name),
    covariance: budgets.map((_, i) => budgets.map((_, j) => entryOf(matrix, i, j))),
    correlation: budgets.map((budget, i) => correlationsOf(budget, budgets).map((coefficient, j) => (i === j ? 1 : coefficient))),
  };
}

/** The coverage regions of X and Y together as if all sources were normal, mm; half axes along `directions` in X and Y, `angle` from X towards Y, rad. */
function plainRegions(strategy: StrategyEvaluation) {
  return plainOutcome(zeroRegions(strategy), ({ ellipse, ellipseCoverage, rectangle }) => ({
    // The regions are those of joint normal results with these covariances.
    assumes: "normal" as const,
    coverageProbability: ellipse.probability,
    ellipse: {
      coverageFactor: ellipse.factor,
      halfAxes: [...ellipse.halfAxes],
      directions: ellipse.directions.map((direction) => [...direction]),
      angle: ellipse.angle as number,
      area: plainNumber(ellipse.content),
      // By the sources' own distributions; null where that takes long to work out.
      coverage: ellipseCoverage === undefined ? null : { ...ellipseCoverage },
    },
    rectangle: {
      coverageFactor: rectangle.factor,
      method: rectangle.method,
      halfWidths: { X: rectangle.halfWidths[0] as number, Y: rectangle.halfWidths[1] as number },
      area: plainNumber(rectangle.content),
    },
  }));
}
