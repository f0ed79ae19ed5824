import type { Outcome, Problem } from "../lib/base/outcome.ts";
import type { PartLocation } from "../lib/datum/locatePart.ts";
import { gatherEvaluation } from "../lib/decision/gatherEvaluation.ts";
import { type NamedResult, namedResults } from "../lib/decision/namedResults.ts";
import { openProblems } from "../lib/decision/openProblems.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../lib/decision/setupEvaluation.ts";
import { lookupQuantities, type QuantityLookup, setupQuantities } from "../lib/decision/setupQuantities.ts";
import { strategyNamed } from "../lib/decision/strategyNamed.ts";
import { composeDocument, type DocumentSections } from "../lib/document/composeDocument.ts";
import { newDocument } from "../lib/document/newDocument.ts";
import type { FreeCells } from "../lib/document/readLedger.ts";
import { type ReadSetup, readSetup } from "../lib/document/readSetup.ts";
import type { SetupDocument } from "../lib/document/setupDocument.ts";
import { evaluateOperations, type OperationsEvaluation } from "../lib/evaluateOperations.ts";
import { drawsFor, evaluateStrategies, measurePart, rankEvaluations } from "../lib/evaluateSetup.ts";
import { locateSetup } from "../lib/fixture/locateSetup.ts";
import { noCellDoubts } from "../lib/ledger/cellDoubts.ts";
import type { CellValue } from "../lib/ledger/cellValue.ts";
import { ownProblems } from "../lib/ledger/ownProblems.ts";
import type { View } from "../lib/tolerance/deviations.ts";
import { judgeFixture } from "../lib/tolerance/judgeFixture.ts";
import type { Draws } from "../lib/uncertainty/draws.ts";
import { defineNotebook } from "./wiring/cells.ts";

/** A setup, from what a person types to what the machine is told: read downwards, every cell is computed from those above it. */
export interface SetupCells extends DocumentSections {
  /** Which of two questions is shown: this part, after its readings; or the batch, before them. */
  view: View;

  /** Cells of a person's own that entries may use, and all of them; filled by LedgerCells. */
  names: FreeCells;
  own: ReadonlyMap<string, Outcome<CellValue>>;
  unnamed: readonly Problem[];

  /** The document without what a person has added to it: an edit there works nothing else out again. */
  entries: SetupDocument;
  document: SetupDocument;
  reading: ReadSetup;
  location: PartLocation;
  measured: Measured;
  draws: Draws;
  evaluations: SetupEvaluation["strategies"];
  ranking: SetupEvaluation["ranking"];
  fixtured: SetupEvaluation["fixture"];
  evaluation: SetupEvaluation;
  /** All operations and the finished part; undefined for a part with one operation. */
  operated: OperationsEvaluation | undefined;
  chosenStrategy: Outcome<StrategyEvaluation>;
  results: readonly NamedResult[];
  /** What formulas can name besides cells of a person's own. */
  quantities: QuantityLookup;
  problems: readonly Problem[];
}

type Measured = Pick<SetupEvaluation, "faces" | "sizes" | "tilt" | "predictions">;

/** The sections of a document that the setup is made of, in the order in which a document holds them. */
const setupSections = [
  "title",
  "note",
  "revision",
  "unit",
  "part",
  "tools",
  "spacers",
  "machine",
  "heat",
  "workFrames",
  "fixture",
  "touches",
  "correlations",
  "strategies",
  "chosen",
  "operations",
  "operation",
  "decision",
  "madeParts",
  "warmUp",
  "offsets",
  "nests",
  "checks",
  "checkMoves",
  "events",
  "slipChances",
  "whatIf",
  "record",
  "sampling",
] as const satisfies readonly (keyof DocumentSections)[];

/** All sections of a document: the entries of the notebook. */
export const sections = [...setupSections, "ledger"] as const satisfies readonly (keyof DocumentSections)[];

/** The notebook of a setup: `define(runtime, observer)`, for any copy of the runtime. */
export default defineNotebook<SetupCells>((cells) => {
  const blank = newDocument();
  for (const section of sections) cells.entry(section, blank[section]);
  cells.entry("view", "thisPart");
  cells.entry("names", { values: new Map(), known: [], bound: new Set(), overridden: new Set(), doubts: noCellDoubts });
  cells.entry("own", new Map());
  cells.entry("unnamed", []);

  cells.define("entries", setupSections, (...values) => {
    const filled = Object.fromEntries(setupSections.map((section, i) => [section, values[i]]));
    return composeDocument({ ...(filled as Omit<DocumentSections, "ledger">), ledger: [] });
  });
  cells.define("document", ["entries", "ledger"], (entries, ledger) => ({ ...entries, ledger }));
  cells.define("reading", ["entries", "names"], (entries, names) => readSetup(entries, names));
  cells.define("location", ["reading"], ({ setup }) => locateSetup(setup));
  cells.define("measured", ["location"], (location) => measurePart(location));

  let earlier: Draws | undefined;
  cells.define("draws", ["reading"], ({ setup }) => {
    earlier = drawsFor(setup, earlier);
    return earlier;
  });
  cells.define("evaluations", ["location", "draws"], (location, draws) => evaluateStrategies(location, draws));
  cells.define("ranking", ["evaluations"], (evaluations) => rankEvaluations(evaluations));
  cells.define("fixtured", ["location", "draws"], (location, draws) => judgeFixture(location, draws));
  cells.define(
    "evaluation",
    ["reading", "location", "measured", "evaluations", "ranking", "fixtured"],
    ({ problems }, location, measured, evaluations, ranking, fixture) =>
      gatherEvaluation(problems, location, measured, evaluations, ranking, fixture),
  );

  cells.define("chosenStrategy", ["evaluations", "reading"], (evaluations, { setup }) => strategyNamed(evaluations, setup.chosen));
  cells.define("operated", ["entries", "names", "draws"], (entries, names, draws) => evaluateOperations(entries, draws, names));
  cells.define("results", ["evaluation", "chosenStrategy", "view"], (evaluation, chosen, view) => namedResults(evaluation, chosen, view));
  cells.define("quantities", ["evaluation", "chosenStrategy"], (evaluation, chosen) =>
    lookupQuantities(setupQuantities(evaluation, chosen)),
  );
  cells.define("problems", ["evaluation", "chosenStrategy", "own", "unnamed"], (evaluation, chosen, own, unnamed) => [
    ...openProblems(evaluation, chosen),
    ...unnamed,
    ...ownProblems(own),
  ]);
});
