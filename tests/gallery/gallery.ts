import { correlationsOfResult } from "../../lib/decision/correlationsOfResult.ts";
import { namedResults } from "../../lib/decision/namedResults.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import type { View } from "../../lib/tolerance/deviations.ts";
import type { Stack } from "../../lib/tolerance/stack.ts";
import type { Budget } from "../../lib/uncertainty/budget.ts";
import { budgetBars } from "../../notebooks/figures/budgetBars.ts";
import { budgetTable } from "../../notebooks/figures/budgetTable.ts";
import { comparisonTable } from "../../notebooks/figures/comparisonTable.ts";
import { correlationBars } from "../../notebooks/figures/correlationBars.ts";
import { correlationTable } from "../../notebooks/figures/correlationTable.ts";
import { dimensionChain } from "../../notebooks/figures/dimensionChain.ts";
import { dimensionChainTable } from "../../notebooks/figures/dimensionChainTable.ts";
import { distribution } from "../../notebooks/figures/distribution.ts";
import { distributionTable } from "../../notebooks/figures/distributionTable.ts";
import type { FigureEnvironment } from "../../notebooks/figures/figure.ts";
import type { FigureTable } from "../../notebooks/figures/figureTable.ts";
import { fixturePlan } from "../../notebooks/figures/fixturePlan.ts";
import { fixturePlanTable } from "../../notebooks/figures/fixturePlanTable.ts";
import { locatorSensitivity } from "../../notebooks/figures/locatorSensitivity.ts";
import { partMap } from "../../notebooks/figures/partMap.ts";
import { partMapTable } from "../../notebooks/figures/partMapTable.ts";
import { setupSketch } from "../../notebooks/figures/setupSketch.ts";
import { setupSketchTable } from "../../notebooks/figures/setupSketchTable.ts";
import { stackTable } from "../../notebooks/figures/stackTable.ts";
import { strategyComparison } from "../../notebooks/figures/strategyComparison.ts";
import { toleranceStack } from "../../notebooks/figures/toleranceStack.ts";
import { zeroScatter } from "../../notebooks/figures/zeroScatter.ts";
import { zeroScatterTable } from "../../notebooks/figures/zeroScatterTable.ts";
import { studied } from "../notebooks/worker/studied.ts";
import { cover, crowded, held, located, openPlate, pinned, pocketBlock } from "./documents.ts";

/** A figure and the table behind it. */
export interface Exhibit {
  readonly figure: SVGSVGElement;
  readonly table: FigureTable;
}

type Show = (options: { readonly width: number }, environment?: FigureEnvironment) => Exhibit;

const ofCover = once(() => evaluateSetup(cover));
const ofBlock = once(() => evaluateSetup(pocketBlock));
const ofPlate = once(() => evaluateSetup(openPlate));
const ofLocated = once(() => evaluateSetup(located));
const ofPinned = once(() => evaluateSetup(pinned));
const ofHeld = once(() => evaluateSetup(held));
const ofCrowd = once(() => evaluateSetup(crowded));

/** One entry by figure: the gallery's page shows them, the tests draw them in every document. */
export const gallery: Readonly<Record<string, Show>> = {
  "setup, bore": sketch(ofCover, "bore, turned to front"),
  "setup, bore, standing on a touch": sketch(ofCover, "corner", "left"),
  "setup, middle": sketch(ofCover, "middle of the length"),
  "setup, pocket": sketch(ofBlock, "corner, turned"),
  "setup, one axis known": sketch(ofBlock, "front only"),
  "setup, strategy not usable": sketch(ofBlock, "no touch that exists"),
  "setup, open sides": sketch(ofPlate, "corner"),
  "setup, crowded": sketch(ofCrowd, "edges"),
  "setup, swept bore": sketch(ofCrowd, "seat, swept"),
  "setup, boss": sketch(ofCrowd, "hub", "h2"),
  "budget, zero X": budget(ofCover, "bore, turned to front", ({ zero }) => taken(zero[0]), "zero X"),
  "budget, zero X of middle": budget(ofCover, "middle of the length", ({ zero }) => taken(zero[0]), "zero X, middle of the length"),
  "budget, rotation": budget(ofCover, "corner", ({ rotation }) => taken(rotation), "rotation", "degree"),
  "budget, hole in the batch": budget(
    ofCover,
    "middle of the length",
    ({ batch }) => taken(batch.stacks[0]).components[0] as Budget,
    "hole 1 X in the batch",
  ),
  "correlation, zero X": correlation(ofCover, "bore, turned to front", "zero X"),
  "correlation, rotation, more than fits": correlation(ofCrowd, "edges", "rotation"),
  "correlation, with nothing": correlation(ofCover, "bore, turned to front", "zero Z"),
  "stack, position": stack(ofCover, "bore, turned to front", "thisPart", 0),
  "stack, position in the batch": stack(ofCover, "middle of the length", "batch", 1),
  "stack, depth": stack(ofCover, "corner", "thisPart", 4),
  "stack, wall": stack(ofCover, "middle of the length", "batch", 7),
  "stack, unequal limits in inches": stack(ofBlock, "corner, turned", "thisPart", 2, "inch"),
  "comparison, this part": comparison(ofCover, "thisPart"),
  "comparison, batch": comparison(ofCover, "batch"),
  "comparison, with strategies that cannot be computed": comparison(ofBlock, "thisPart"),
  "comparison, crowded": comparison(ofCrowd, "thisPart"),
  "part map, drawn from the datum": map(ofCover, "bore, turned to front"),
  "part map, moved off the zones": map(ofCover, "corner"),
  "part map, pocket in inches": map(ofBlock, "corner, turned", "inch"),
  "part map, crowded": map(ofCrowd, "edges"),
  "part map, nothing known": map(ofBlock, "no touch that exists"),
  "chain, half of a length": chain(ofCover, "middle of the length", "hole 1", "batch"),
  "chain, sizes told by the touches": chain(ofCover, "middle of the length", "hole 1", "thisPart"),
  "chain, wall": chain(ofCover, "corner", "wall", "batch"),
  "chain, depth": chain(ofCover, "corner", "slot depth", "thisPart"),
  "chain, not known": chain(ofBlock, "no touch that exists", "hole 1", "batch"),
  "chain, inches": chain(ofBlock, "corner, turned", "hole 1", "batch", "inch"),
  "sensitivity, three pads, jaw and stop": sensitivity(ofLocated),
  "sensitivity, pins": sensitivity(ofPinned),
  "sensitivity, about a V-block": sensitivity(ofHeld),
  "sensitivity, nothing stated": sensitivity(ofCover),
  "fixture, three pads, jaw and stop": fixture(ofLocated, "pad 2"),
  "fixture, the jaw turned": fixture(ofLocated, "jaw, one end"),
  "fixture, pins, and a pad that does not touch": fixture(ofPinned, "diamond"),
  "fixture, turned about a V-block": fixture(ofHeld, ""),
  "fixture, nothing stated": fixture(ofCover, "none"),
  "scatter, bore": scatter(ofCover, "bore, turned to front"),
  "scatter, corner": scatter(ofCover, "corner"),
  "scatter, inches": scatter(ofBlock, "corner, turned", "inch"),
  "scatter, not known": scatter(ofBlock, "front only"),
  "distribution, zero with trials": distributionOf("corner, turned", "batch", 0, 2048),
  "distribution, characteristic": distributionOf("corner, turned", "batch", -1, 0),
};

function sketch(evaluation: () => SetupEvaluation, strategy: string, highlight?: string): Show {
  return ({ width }, environment) => {
    const { unit } = evaluation().setup;
    return {
      figure: setupSketch(
        evaluation(),
        strategy,
        {
          unit,
          width,
          id: `sketch-${strategy}-${highlight ?? ""}`.replace(/\W+/g, "-"),
          ...(highlight === undefined ? {} : { highlight }),
        },
        environment,
      ),
      table: setupSketchTable(evaluation(), strategy, { unit }),
    };
  };
}

function map(evaluation: () => SetupEvaluation, strategy: string, unit: "mm" | "inch" = "mm"): Show {
  return ({ width }, environment) => {
    const id = `map-${evaluation().setup.title}-${strategy}`.replace(/\W+/g, "-");
    return {
      figure: partMap(evaluation(), strategy, { unit, width, id }, environment),
      table: partMapTable(evaluation(), strategy, { unit }),
    };
  };
}

function chain(evaluation: () => SetupEvaluation, strategy: string, characteristic: string, view: View, unit: "mm" | "inch" = "mm"): Show {
  return ({ width }, environment) => {
    const id = `chain-${evaluation().setup.title}-${strategy}-${characteristic}-${view}-${unit}`.replace(/\W+/g, "-");
    return {
      figure: dimensionChain(evaluation(), strategy, characteristic, { view, unit, width, id }, environment),
      table: dimensionChainTable(evaluation(), strategy, characteristic, { view, unit }),
    };
  };
}

function sensitivity(evaluation: () => SetupEvaluation): Show {
  return ({ width }, environment) => {
    const { unit, title } = evaluation().setup;
    return {
      figure: locatorSensitivity(evaluation(), { unit, width, id: `sensitivity-${title}`.replace(/\W+/g, "-") }, environment),
      table: fixturePlanTable(evaluation(), { unit }),
    };
  };
}

function fixture(evaluation: () => SetupEvaluation, contact: string): Show {
  return ({ width }, environment) => {
    const { unit, title } = evaluation().setup;
    const id = `fixture-${title}-${contact}`.replace(/\W+/g, "-");
    return {
      figure: fixturePlan(evaluation(), { unit, width, id, contact }, environment),
      table: fixturePlanTable(evaluation(), { unit }),
    };
  };
}

function budget(
  evaluation: () => SetupEvaluation,
  strategy: string,
  pick: (found: StrategyEvaluation) => Budget,
  title: string,
  unit: "mm" | "degree" = "mm",
): Show {
  return ({ width }, environment) => {
    const found = pick(strategyOf(evaluation(), strategy));
    return { figure: budgetBars(found, { title, unit, width }, environment), table: budgetTable(found, { title, unit }) };
  };
}

function correlation(evaluation: () => SetupEvaluation, strategy: string, result: string): Show {
  return ({ width }, environment) => {
    const found = correlationsOfResult(
      namedResults(evaluation(), { ok: true, value: strategyOf(evaluation(), strategy) }, "thisPart"),
      result,
    );
    const title = `${result}, ${strategy}`;
    return { figure: correlationBars(found, { title, width }, environment), table: correlationTable(found, { title }) };
  };
}

function stack(evaluation: () => SetupEvaluation, strategy: string, view: View, index: number, unit: "mm" | "inch" = "mm"): Show {
  return ({ width }, environment) => {
    const found: Stack = taken(strategyOf(evaluation(), strategy)[view].stacks[index]);
    const title = `${found.characteristic}, ${strategy}, ${view === "thisPart" ? "this part" : "the batch"}`;
    return { figure: toleranceStack(found, { title, unit, width }, environment), table: stackTable(found, { title, unit }) };
  };
}

function comparison(evaluation: () => SetupEvaluation, view: View): Show {
  return ({ width }, environment) => {
    const { unit, title } = evaluation().setup;
    return {
      figure: strategyComparison(evaluation(), { view, unit, width, id: `comparison-${view}-${title}`.replace(/\W+/g, "-") }, environment),
      table: comparisonTable(evaluation(), { view, unit }),
    };
  };
}

function scatter(evaluation: () => SetupEvaluation, strategy: string, unit: "mm" | "inch" = "mm"): Show {
  return ({ width }, environment) => ({
    figure: zeroScatter(evaluation(), strategy, { unit, width, id: `scatter-${strategy}-${unit}`.replace(/\W+/g, "-") }, environment),
    table: zeroScatterTable(evaluation(), strategy, { unit }),
  });
}

/** Of a result of the block, by its place among them. */
function distributionOf(strategy: string, view: View, index: number, trials: number): Show {
  const study = once(() => studied({ document: pocketBlock, strategy, view }, trials));
  return ({ width }, environment) => {
    const { firstOrder, corrected, wholeModel, tally } = study();
    const result = firstOrder.at(index) as (typeof firstOrder)[number];
    const named = <T extends { readonly name: string }>(list: readonly T[] | undefined) => list?.find(({ name }) => name === result.name);
    const shown = {
      firstOrder: result,
      wholeModel: named(wholeModel),
      corrected: named(corrected)?.curve ?? [],
      tally: named(tally?.outputs),
    };
    const unit = result.unit === "rad" ? "degree" : pocketBlock.unit;
    const title = `${result.name}, ${strategy}`;
    return { figure: distribution(shown, { title, unit, width }, environment), table: distributionTable(shown, { title, unit }) };
  };
}

function strategyOf({ strategies }: SetupEvaluation, id: string): StrategyEvaluation {
  return taken(strategies.find((each) => each.id === id)?.evaluation);
}

function taken<T>(outcome: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problems: unknown } | undefined): T {
  if (!outcome?.ok) throw new Error(`gallery: expected a result, got ${JSON.stringify(outcome?.problems)}`);
  return outcome.value;
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
