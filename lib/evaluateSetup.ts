import { once } from "./base/once.ts";
import { failure, type Outcome, type Problem, success } from "./base/outcome.ts";
import { axes } from "./base/vector.ts";
import { effortOf } from "./datum/effort.ts";
import type { PartLocation } from "./datum/locatePart.ts";
import { measureFaces } from "./datum/measureFaces.ts";
import { measureSizes } from "./datum/measureSizes.ts";
import { optimalZero } from "./datum/optimalZero.ts";
import type { Setup } from "./datum/setup.ts";
import { notTouchedYet, type StrategySolution, solveStrategy, zeroFound } from "./datum/solveStrategy.ts";
import { evaluateTilt } from "./decision/evaluateTilt.ts";
import { gatherEvaluation } from "./decision/gatherEvaluation.ts";
import { nameClashes } from "./decision/nameClashes.ts";
import { predictReadings } from "./decision/predictReadings.ts";
import { rankStrategies } from "./decision/rankStrategies.ts";
import type { OwnEvaluation, Ranking, SetupEvaluation, StrategyEvaluation } from "./decision/setupEvaluation.ts";
import { lookupQuantities, setupQuantities } from "./decision/setupQuantities.ts";
import { strategyNamed } from "./decision/strategyNamed.ts";
import { freeCellsOf, readLedger } from "./document/readLedger.ts";
import { readSetup } from "./document/readSetup.ts";
import type { SetupDocument } from "./document/setupDocument.ts";
import { locateSetup } from "./fixture/locateSetup.ts";
import { solveOnFixture } from "./fixture/solveOnFixture.ts";
import { evaluateLedger } from "./ledger/ledger.ts";
import { ownProblems } from "./ledger/ownProblems.ts";
import { enteredOffset } from "./offsets/enteredOffset.ts";
import { type Deviation, deviations, type View } from "./tolerance/deviations.ts";
import { judgeFixture } from "./tolerance/judgeFixture.ts";
import { judgeStrategy } from "./tolerance/judgeStrategy.ts";
import { type Budget, budgetsTogether } from "./uncertainty/budget.ts";
import { Draws } from "./uncertainty/draws.ts";
import type { Uncertain } from "./uncertainty/uncertain.ts";

export type { SetupEvaluation, StrategyEvaluation };

/**
 * The whole chain: typed entries -> readings -> contacts -> frames of the part
 * and of every strategy -> characteristics -> budgets, stacks and chances ->
 * ranking, offsets and predicted readings. The notebooks and the command line
 * show what this returns, and nothing else.
 *
 * @param draws random draws to use again from an earlier evaluation with the same seed and number of trials
 */
export function evaluateSetup(document: SetupDocument, draws?: Draws): DocumentEvaluation {
  const read = readLedger(document);
  const cells = freeCellsOf(read);
  const { setup, problems: unread } = readSetup(document, cells);
  const evaluation = evaluateRead(setup, unread, draws);
  const quantities = lookupQuantities(setupQuantities(evaluation, strategyNamed(evaluation.strategies, setup.chosen)));
  const own = evaluateLedger(read.ledger, quantities, cells.values);
  const problems = [...evaluation.problems, ...read.problems, ...nameClashes(read.ledger, quantities), ...ownProblems(own)];
  return { ...evaluation, problems, cells: read.ledger.cells, own, related: read.related };
}

/** The chain from a setup on, without the cells that a person has added. */
export function evaluateRead(setup: Setup, problems: readonly Problem[], draws?: Draws): SetupEvaluation {
  const location = locateSetup(setup);
  const ownDraws = drawsFor(setup, draws);
  const fixture = judgeFixture(location, ownDraws);
  const strategies = evaluateStrategies(location, ownDraws);
  return gatherEvaluation(problems, location, measurePart(location), strategies, rankEvaluations(strategies), fixture);
}

/** A setup, and the cells that a person has added to it. */
export type DocumentEvaluation = SetupEvaluation & OwnEvaluation;

/** The draws that a setup asks for: earlier ones again where seed and number of trials are the same. */
export function drawsFor({ sampling: { seed, trials } }: Setup, earlier?: Draws): Draws {
  return earlier?.seed === seed && earlier.trials === trials ? earlier : new Draws(seed, trials);
}

/**
 * Every strategy solved and judged, in document order. The one in use is one computation; the others together are a second one, which waits until one of
 * them is asked for: with many strategies it is most of the work, and while a reading is typed nobody looks at it.
 */
export function evaluateStrategies(location: PartLocation, draws: Draws): SetupEvaluation["strategies"] {
  const solved = location.setup.strategies.map((strategy) => {
    const outcome = strategy.fixtureFrame ? solveOnFixture(strategy, strategy.fixtureFrame, location) : solveStrategy(strategy, location);
    return { id: strategy.id, results: outcome.ok ? success(new StrategyResults(outcome.value, location)) : outcome };
  });
  const { chosen, supposed } = location.setup;
  const isInUse = (id: string) => id === chosen;
  // What is supposed of a source must be seen to matter somewhere, or be said not to: everything asks for its sources first.
  if (supposed.length > 0) for (const { results } of solved) if (results.ok) results.value.uncertain();
  const budgetsOfThose = (which: (id: string) => boolean) =>
    once(() => budgetsTogether(solved.flatMap(({ id, results }) => (which(id) && results.ok ? results.value.uncertain() : []))));
  const [inUse, others] = [budgetsOfThose(isInUse), budgetsOfThose((id) => !isInUse(id))];
  return solved.map(({ id, results }) => ({
    id,
    evaluation: results.ok
      ? success(evaluateStrategy(results.value, location, (result) => (isInUse(id) ? inUse : others)()(result), draws))
      : results,
  }));
}

/** What a strategy makes of the touches, and what that does to the characteristics, before anything is read off. */
class StrategyResults {
  readonly solution: StrategySolution;
  readonly thisPart: () => readonly Outcome<Deviation>[];
  readonly batch: () => readonly Outcome<Deviation>[];

  constructor(solution: StrategySolution, location: PartLocation) {
    this.solution = solution;
    this.thisPart = once(() => deviations(solution, location, "thisPart"));
    this.batch = once(() => deviations(solution, location, "batch"));
  }

  uncertain(): Uncertain[] {
    const { zero, rotation } = this.solution.fromReadings;
    return [...zero, rotation, ...[...this.thisPart(), ...this.batch()].flatMap((each) => (each.ok ? each.value : []))];
  }
}

/** The strategies by their chances. */
export function rankEvaluations(strategies: SetupEvaluation["strategies"]): Ranking {
  const judged = (evaluation: Outcome<StrategyEvaluation>, view: View) => (evaluation.ok ? success(evaluation.value[view]) : evaluation);
  const order = once(() =>
    rankStrategies(
      strategies.map(({ id, evaluation }) => ({ id, thisPart: judged(evaluation, "thisPart"), batch: judged(evaluation, "batch") })),
    ),
  );
  return {
    get order() {
      return order();
    },
  };
}

function evaluateStrategy(
  { solution, thisPart, batch }: StrategyResults,
  location: PartLocation,
  budgetOf: (result: Uncertain) => Budget,
  draws: Draws,
): StrategyEvaluation {
  const { setup } = location;
  const { fromReadings, determined, strategy } = solution;
  const turnKnown = strategy.rotation === "ignored" || determined[3];
  const found = zeroFound(solution);
  const untaken = notTouchedYet(solution);
  const along = (axis: 0 | 1 | 2): Outcome<Budget> =>
    untaken
      ? failure(untaken)
      : found[axis]
        ? success(budgetOf(fromReadings.zero[axis]))
        : failure({
            at: `strategies.${strategy.id}`,
            ...(solution.seated && solution.frame.determined[axis]
              ? { what: `no locator holds the part along ${axes[axis]} where zero sits`, remedy: "see what is said at the locators" }
              : {
                  what: `no touch of this strategy fixes ${axes[axis]}`,
                  remedy: `add a touch that meets the part along ${axes[axis]}`,
                }),
          });
  const zero = once(() => [along(0), along(1), along(2)] as const);
  const rotation = once(
    (): Outcome<Budget> =>
      strategy.rotation === "ignored"
        ? failure({ at: `strategies.${strategy.id}.rotation`, what: "this strategy does not look at the skew of the part" })
        : untaken
          ? failure(untaken)
          : turnKnown
            ? success(budgetOf(fromReadings.rotation))
            : failure({
                at: `strategies.${strategy.id}`,
                what: "the touches of this strategy do not fix the turn about Z",
                remedy: "touch one face at two places",
              }),
  );
  const offset = once(() =>
    setup.supposed.length > 0
      ? withheld(setup.supposed)
      : untaken
        ? failure(untaken)
        : enteredOffset(
            zero().map((budget) => (budget.ok ? budget.value.value : undefined)),
            setup.machine,
          ),
  );
  const optimal = once(() => (untaken ? failure(untaken) : optimalZero(solution, location)));
  return {
    id: strategy.id,
    get zero() {
      return zero();
    },
    get rotation() {
      return rotation();
    },
    get offset() {
      return offset();
    },
    solution,
    thisPart: judgeStrategy(setup, thisPart, budgetOf, draws),
    batch: judgeStrategy(setup, batch, budgetOf, draws),
    get optimal() {
      return optimal();
    },
    effort: effortOf(strategy, setup),
  };
}

/** What is only supposed is never typed into a machine. */
function withheld(supposed: readonly string[]): Outcome<never> {
  return failure({
    at: "whatIf",
    what: `something is only supposed for the moment: ${supposed.join("; ")}`,
    remedy: "take that back before anything is typed into a machine",
  });
}

/** Faces, sizes and predicted readings of this part: all of them are one computation, but what other measurements add to sizes, which is worked out when it is first asked for. */
export function measurePart(location: PartLocation): Pick<SetupEvaluation, "faces" | "sizes" | "tilt" | "predictions"> {
  const faces = measureFaces(location);
  const sizes = measureSizes(location);
  const predictions = predictReadings(location);
  const budgetOf = budgetsTogether([
    ...faces.map(({ coordinate }) => coordinate),
    ...predictions.map(({ reading }) => reading),
    ...sizes.flatMap(({ size, difference }) => [size, ...(difference ? [difference] : [])]),
  ]);
  const combined = once(() => budgetsTogether(sizes.flatMap((size) => size.combined ?? [])));
  return {
    faces: faces.map(({ touch, element, axis, coordinate }) => ({ id: touch, element, axis, budget: budgetOf(coordinate) })),
    predictions: predictions.map(({ touch, element, tool, axis, reading }) => ({
      id: touch,
      element,
      tool,
      axis,
      budget: budgetOf(reading),
    })),
    sizes: sizes.map((measured) => ({
      id: measured.id,
      budget: budgetOf(measured.size),
      difference: measured.difference && budgetOf(measured.difference),
      get combined() {
        return measured.combined && combined()(measured.combined);
      },
    })),
    tilt: evaluateTilt(location),
  };
}
