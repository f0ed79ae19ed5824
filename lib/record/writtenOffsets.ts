import { failure, type Outcome } from "../base/outcome.ts";
import type { SetupEvaluation } from "../decision/setupEvaluation.ts";
import type { OffsetsInForce } from "../offsets/offsetTable.ts";
import { offsetText, type WrittenOffsets } from "../offsets/offsetText.ts";

/**
 * The offsets in force as controller text, with the setup's title for the job. Nothing is written while something is only supposed.
 *
 * @param table as it is now, or as it was after an earlier row
 * @param time as it is to stand in a comment; empty for none
 */
export function writtenOffsets(
  { setup: { machine, title, supposed } }: Pick<SetupEvaluation, "setup">,
  table: OffsetsInForce,
  { written = "register", time = "" }: { readonly written?: WrittenOffsets; readonly time?: string } = {},
): Outcome<readonly string[]> {
  if (supposed.length === 0) return offsetText(table, { controller: machine, written, job: title, time });
  return failure({
    at: "whatIf",
    what: `something is only supposed for the moment: ${supposed.join("; ")}`,
    remedy: "take that back before anything is typed into a machine",
  });
}
