import type { Outcome, Problem } from "../../lib/base/outcome.ts";
import type { NamedResult } from "../../lib/decision/namedResults.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../../lib/decision/setupEvaluation.ts";
import type { QuantityLookup } from "../../lib/decision/setupQuantities.ts";
import type { OperationsEvaluation } from "../../lib/evaluateOperations.ts";
import type { CellValue } from "../../lib/ledger/cellValue.ts";
import type { StrategyBend } from "../../lib/record/strategyBend.ts";
import type { View } from "../../lib/tolerance/deviations.ts";
import type { RelatedPair } from "../../lib/uncertainty/relateSources.ts";

/** An evaluation with its lengths shown in another unit; entries keep theirs. */
export function shownIn<E extends SetupEvaluation>(evaluation: E, unit: "mm" | "inch" | undefined): E {
  if (unit === undefined || unit === evaluation.setup.unit) return evaluation;
  return { ...evaluation, setup: { ...evaluation.setup, unit } };
}

/** Names of the sources that can go together: those of the setup that are in doubt, and the own doubts of cells. */
export function namesOfDoubts({ evaluation, own }: Pick<SheetResults, "evaluation" | "own">): string[] {
  const ofSetup = [...evaluation.location.nameable].flatMap(([id, { operation }]) => (operation.kind === "constant" ? [] : [id]));
  const ofCells = [...own].flatMap(([, outcome]) => {
    const operation = outcome.ok && outcome.value.kind === "quantity" ? outcome.value.value.operation : undefined;
    return operation?.kind === "source" ? [operation.source.id] : [];
  });
  return [...new Set([...ofSetup, ...ofCells])].sort();
}

/** Everything that the page shows besides what was typed: one computation, never parts of two. */
export interface SheetResults {
  /** Its setup's unit is the one in which results are shown. */
  readonly evaluation: SetupEvaluation;
  /** All operations and the finished part, where the part has several. */
  readonly operated: OperationsEvaluation | undefined;
  readonly chosen: Outcome<StrategyEvaluation>;
  readonly results: readonly NamedResult[];
  /** Cells of a person's own, by name. */
  readonly own: ReadonlyMap<string, Outcome<CellValue>>;
  /** What is wrong with names of cells, and with what is stated of their doubts. */
  readonly unnamed: readonly Problem[];
  /** Everything else that formulas can name. */
  readonly quantities: QuantityLookup;
  /** Doubts that go together, of the setup and of cells. */
  readonly related: readonly RelatedPair[];
  readonly problems: readonly Problem[];
  readonly view: View;
  /** Where first order does not hold, of every strategy in this view; undefined until that has been looked at. */
  readonly bends?: readonly StrategyBend[];
}
