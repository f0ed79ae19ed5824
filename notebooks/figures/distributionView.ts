import type { OutputTally } from "../../lib/uncertainty/trials/trialTally.ts";
import type { FirstOrderResult, WholeModelResult } from "../worker/studyMessages.ts";

/** A result as its distribution is drawn: what is known of it so far. */
export interface DistributionView {
  readonly firstOrder: Omit<FirstOrderResult, "name" | "unit">;
  readonly wholeModel: Omit<WholeModelResult, "name" | "unit"> | undefined;
  /** Density with the correction; trials leave it standing beside theirs. */
  readonly corrected: WholeModelResult["curve"];
  readonly tally: OutputTally | undefined;
}
