import { failure, type Outcome, success } from "./base/outcome.ts";
import { locatePart } from "./datum/locatePart.ts";
import type { Setup } from "./datum/setup.ts";
import { allowedDoubt, type Judged, singleDoubts } from "./decision/allowedDoubt.ts";
import { helpfulMoves } from "./decision/helpfulMoves.ts";
import type { Improvement, ImprovementProgress, ImprovementRequest } from "./decision/improvement.ts";
import { strategyNamed } from "./decision/strategyNamed.ts";
import { freeCellsOf, readLedger } from "./document/readLedger.ts";
import { readSetup } from "./document/readSetup.ts";
import type { SetupDocument } from "./document/setupDocument.ts";
import { drawsFor, evaluateStrategies } from "./evaluateSetup.ts";
import { searchStrategies } from "./searchStrategies.ts";
import type { Draws } from "./uncertainty/draws.ts";

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
  const location = locatePart(setup);
  const draws = drawsFor(setup);
  const strategies = evaluateStrategies({ ...location, setup: { ...setup, strategies: [like] } }, draws);
  const evaluation = strategyNamed(strategies, name);
  if (!evaluation.ok) return evaluation;
  const { chanceOfAll, stacks } = evaluation.value[view];
  if (!chanceOfAll.ok) return chanceOfAll;
  const judged = setup.part.characteristics.flatMap((characteristic, i): Judged[] => {
    const stack = stacks[i];
    return stack?.ok ? [{ characteristic, stack: stack.value }] : [];
  });
  const found = resting(judged, setup, view === "batch" ? like.touches : location.counted.map(({ touch }) => touch), wanted, draws);
  const steps = searchStrategies(location, like, view, draws);
  let step = steps.next();
  for (; !step.done; step = steps.next()) yield { tried: step.value.tried, candidates: step.value.candidates };
  return success({ strategy: name, view, wanted, supposed: setup.supposed, ...found, search: step.value });
}

function resting(
  judged: readonly Judged[],
  setup: Setup,
  touches: readonly string[],
  wanted: number,
  draws: Draws,
): Pick<Improvement, "moves" | "allowances"> {
  const allowances = singleDoubts(judged).map((doubt) => allowedDoubt(judged, doubt, wanted));
  return {
    moves: helpfulMoves(judged, setup, [...new Set(touches)], draws),
    allowances: allowances.sort((a, b) => a.factor - b.factor || (a.doubt.label < b.doubt.label ? -1 : 1)),
  };
}
