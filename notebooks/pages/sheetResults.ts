import type { Outcome, Problem } from "../../lib/base/outcome.ts";
import type { NamedResult } from "../../lib/decision/namedResults.ts";
import type { QuantityLookup } from "../../lib/decision/setupQuantities.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../../lib/decision/setupEvaluation.ts";
import type { CellValue } from "../../lib/ledger/cellValue.ts";
import type { View } from "../../lib/tolerance/deviations.ts";

/** Everything that the page shows besides what was typed: one computation, never parts of two. */
export interface SheetResults {
  readonly evaluation: SetupEvaluation;
  readonly chosen: Outcome<StrategyEvaluation>;
  readonly results: readonly NamedResult[];
  /** Cells of a person's own, by name. */
  readonly own: ReadonlyMap<string, Outcome<CellValue>>;
  /** Everything else that formulas can name. */
  readonly quantities: QuantityLookup;
  readonly problems: readonly Problem[];
  readonly view: View;
}
