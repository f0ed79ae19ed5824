import { describeProblem } from "../../lib/base/outcome.ts";
import { checkDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { strategyInUse } from "../../lib/record/strategyInUse.ts";

/** A setup from plain data, such as a record was read into; a mistake of the test where it is none. */
export function opened(data: unknown): SetupDocument {
  const document = checkDocument(data);
  if (!document.ok) throw new Error(document.problems.map(describeProblem).join("\n"));
  return document.value;
}

/** All that is found of zero, to the last bit. */
export function zeroOf(document: SetupDocument) {
  const evaluation = evaluateSetup(document);
  const strategy = strategyInUse(evaluation)?.evaluation;
  if (strategy === undefined) throw new Error("no strategy is in use");
  return {
    zero: strategy.zero.map((axis) => (axis.ok ? [axis.value.value, axis.value.standardUncertainty] : axis.problems.map(describeProblem))),
    turn: strategy.rotation.ok ? [strategy.rotation.value.value, strategy.rotation.value.standardUncertainty] : null,
    offset: strategy.offset.ok ? strategy.offset.value.lines : null,
    chances: [strategy.thisPart, strategy.batch].map(({ chanceOfAll }) => (chanceOfAll.ok ? chanceOfAll.value.chance : null)),
  };
}
