import type { Problem } from "../base/outcome.ts";
import { cannotBeHonest } from "../contacts/makeContacts.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import { evaluateNests } from "../offsets/nests.ts";
import { evaluateOffsets } from "../offsets/offsetTable.ts";
import { judgeChecks } from "./judgeChecks.ts";
import type { SetupEvaluation } from "./setupEvaluation.ts";
import { unknownSources } from "./unknownSources.ts";

/** The parts of an evaluation, as the steps of the chain give them, put together: all of them worked out. */
export function gatherEvaluation(
  problems: readonly Problem[],
  location: PartLocation,
  measured: Pick<SetupEvaluation, "faces" | "sizes" | "tilt" | "predictions">,
  strategies: SetupEvaluation["strategies"],
  ranking: SetupEvaluation["ranking"],
  fixture: SetupEvaluation["fixture"],
): SetupEvaluation {
  const { checks, checkMoves } = judgeChecks(location, strategies);
  return {
    setup: location.setup,
    location,
    problems: [
      ...problems,
      ...location.problems,
      ...(fixture?.problems ?? []),
      ...checks.flatMap(({ evaluation }) => (evaluation.ok ? [] : evaluation.problems)),
      ...checkMoves.flatMap(({ machine }) => machine.flatMap((axis) => (axis.ok ? [] : axis.problems))),
      // A source of another operation is none of this one's.
      ...(cannotBeHonest(location.setup) || location.setup.operation !== undefined ? [] : unknownSources(location.book)),
    ],
    ...measured,
    strategies,
    ranking,
    fixture,
    offsets: evaluateOffsets(location.setup.offsets),
    nests: evaluateNests(location.setup.nests),
    checks,
    checkMoves,
  };
}
