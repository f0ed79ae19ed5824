import { failure, type Outcome, success } from "./base/outcome.ts";
import type { Improvement, ImprovementProgress, ImprovementRequest } from "./decision/improvement.ts";
import { strategyNamed } from "./decision/strategyNamed.ts";
import { whatHelps } from "./decision/whatHelps.ts";
import { freeCellsOf, readLedger } from "./document/readLedger.ts";
import { readSetup } from "./document/readSetup.ts";
import type { SetupDocument } from "./document/setupDocument.ts";
import { drawsFor, evaluateStrategies } from "./evaluateSetup.ts";
import { locateSetup } from "./fixture/locateSetup.ts";
import { searchStrategies } from "./searchStrategies.ts";

/**
 * Turns the question round: not how good a setup is, but what would help it most (`helpfulMoves`), how large each doubt may be (`allowedDoubt`), and
 * which strategies from the same touches are best for their number (`searchStrategies`). Step by step, so that a caller can show progress, or stop.
 */
export function* improveSetup(document: SetupDocument, request: ImprovementRequest): Generator<ImprovementProgress, Outcome<Improvement>> {
  const { setup } = readSetup(document, freeCellsOf(readLedger(document)));
  const { view, wanted, strategy: name = setup.chosen } = request;
  const like = setup.strategies.find(({ id }) => id === name);
  if (like === undefined)
    return failure({
      at: "strategies",
      what: name === "" ? "no strategy is in use" : "there is no strategy by this name",
      expected: setup.strategies.map(({ id }) => `"${id}"`).join(" or "),
      got: name,
    });
  const location = locateSetup(setup);
  const draws = drawsFor(setup);
  const strategies = evaluateStrategies({ ...location, setup: { ...setup, strategies: [like] } }, draws);
  const evaluation = strategyNamed(strategies, name);
  if (!evaluation.ok) return evaluation;
  const found = whatHelps(evaluation.value, location, { view, wanted }, draws);
  if (!found.ok) return found;
  const steps = searchStrategies(location, like, view, draws);
  let step = steps.next();
  for (; !step.done; step = steps.next()) yield { tried: step.value.tried, candidates: step.value.candidates };
  return success({ strategy: name, view, wanted, supposed: setup.supposed, ...found.value, search: step.value });
}
