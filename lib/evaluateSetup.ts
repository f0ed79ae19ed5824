import { failure, type Outcome, success } from "./base/outcome.ts";
import { axes } from "./base/vector.ts";
import { locatePart, type PartLocation } from "./datum/locatePart.ts";
import { measureFaces } from "./datum/measureFaces.ts";
import { measureSizes } from "./datum/measureSizes.ts";
import type { Setup } from "./datum/setup.ts";
import { type StrategySolution, solveStrategy } from "./datum/solveStrategy.ts";
import { predictReadings } from "./decision/predictReadings.ts";
import { rankStrategies } from "./decision/rankStrategies.ts";
import type { SetupEvaluation, StrategyEvaluation } from "./decision/setupEvaluation.ts";
import { readSetup } from "./document/readSetup.ts";
import type { SetupDocument } from "./document/setupDocument.ts";
import { enteredOffset } from "./offsets/enteredOffset.ts";
import type { View } from "./tolerance/deviations.ts";
import { judgeStrategy } from "./tolerance/judgeStrategy.ts";
import { type Budget, budgetsOf } from "./uncertainty/budget.ts";
import { Draws } from "./uncertainty/draws.ts";

export type { SetupEvaluation, StrategyEvaluation };

/**
 * The whole chain: typed entries -> readings -> contacts -> frames of the part
 * and of every strategy -> characteristics -> budgets, stacks and chances ->
 * ranking, offsets and predicted readings. The notebooks and the command line
 * show what this returns, and nothing else.
 *
 * @param draws random draws to use again from an earlier evaluation with the same seed and number of trials
 */
export function evaluateSetup(document: SetupDocument, draws?: Draws): SetupEvaluation {
  const { setup, problems } = readSetup(document);
  const location = locatePart(setup);
  const strategies = evaluateStrategies(location, drawsFor(setup, draws));
  return {
    setup,
    location,
    problems: [...problems, ...location.problems],
    ...measurePart(location),
    strategies,
    ranking: rankEvaluations(strategies),
  };
}

/** The draws that a setup asks for: earlier ones again where seed and number of trials are the same. */
export function drawsFor({ sampling: { seed, trials } }: Setup, earlier?: Draws): Draws {
  return earlier?.seed === seed && earlier.trials === trials ? earlier : new Draws(seed, trials);
}

/** Every strategy solved and judged, in document order. */
export function evaluateStrategies(location: PartLocation, draws: Draws): SetupEvaluation["strategies"] {
  return location.setup.strategies.map((strategy) => {
    const solved = solveStrategy(strategy, location);
    return { id: strategy.id, evaluation: solved.ok ? success(evaluateStrategy(solved.value, location, draws)) : solved };
  });
}

/** Names of the strategies, the one to be preferred first (see rankStrategies). */
export function rankEvaluations(strategies: SetupEvaluation["strategies"]): string[] {
  const judged = (evaluation: Outcome<StrategyEvaluation>, view: View) => (evaluation.ok ? success(evaluation.value[view]) : evaluation);
  return rankStrategies(
    strategies.map(({ id, evaluation }) => ({ id, thisPart: judged(evaluation, "thisPart"), batch: judged(evaluation, "batch") })),
  );
}

function evaluateStrategy(solution: StrategySolution, location: PartLocation, draws: Draws): StrategyEvaluation {
  const { fromReadings, determined, strategy } = solution;
  const [x, y, z, rotation] = budgetsOf([...fromReadings.zero, fromReadings.rotation]) as [Budget, Budget, Budget, Budget];
  const turnKnown = strategy.rotation === "ignored" || determined[3];
  const along = (axis: 0 | 1 | 2, budget: Budget): Outcome<Budget> =>
    determined[axis] && (axis === 2 || turnKnown)
      ? success(budget)
      : failure({
          at: `strategies.${strategy.id}`,
          what: `no touch of this strategy fixes ${axes[axis]}`,
          remedy: `add a touch that meets the part along ${axes[axis]}`,
        });
  const zero = [along(0, x), along(1, y), along(2, z)] as const;
  return {
    id: strategy.id,
    zero,
    rotation:
      strategy.rotation === "ignored"
        ? failure({ at: `strategies.${strategy.id}.rotation`, what: "this strategy does not look at the skew of the part" })
        : turnKnown
          ? success(rotation)
          : failure({
              at: `strategies.${strategy.id}`,
              what: "the touches of this strategy do not fix the turn about Z",
              remedy: "touch one face at two places",
            }),
    offset: enteredOffset(
      zero.map((budget) => (budget.ok ? budget.value.value : undefined)),
      location.setup.machine,
    ),
    solution,
    thisPart: judgeStrategy(solution, location, "thisPart", draws),
    batch: judgeStrategy(solution, location, "batch", draws),
  };
}

/** Faces, sizes and predicted readings of this part: they share one computation, and so one pass over it. */
export function measurePart(location: PartLocation): Pick<SetupEvaluation, "faces" | "sizes" | "predictions"> {
  const faces = measureFaces(location);
  const sizes = measureSizes(location);
  const predictions = predictReadings(location);
  const budgets = budgetsOf([
    ...faces.map(({ coordinate }) => coordinate),
    ...predictions.map(({ reading }) => reading),
    ...sizes.map(({ size }) => size),
    ...sizes.flatMap(({ difference }) => difference ?? []),
  ]);
  const take = () => budgets.shift() as Budget;
  return {
    faces: faces.map(({ touch, element, axis }) => ({ id: touch, element, axis, budget: take() })),
    predictions: predictions.map(({ touch, element, tool, axis }) => ({ id: touch, element, tool, axis, budget: take() })),
    sizes: sizes.map(({ id }) => ({ id, budget: take() })).map((size, i) => ({ ...size, difference: sizes[i]?.difference && take() })),
  };
}
