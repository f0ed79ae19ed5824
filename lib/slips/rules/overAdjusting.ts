import { adjustedBelow, adjustedByChance, neighbourCorrelation } from "../../run/neighbours.ts";
import { ratioText, signedText } from "../internals/words.ts";
import type { RunFact } from "../slipFacts.ts";
import { judgeEach, type SlipFinding, type SlipRule } from "../slipRule.ts";

/** A mean within this many of its standard deviations says nothing. */
const coverage = 2;

/**
 * Rule 24. A mean of n parts within 2·σ/√n of its target asks for no correction; corrections after each part make successive parts alternate (see
 * adjustedBelow).
 */
export const overAdjusting: SlipRule = {
  name: "corrected on too few parts",
  formula: "|mean| / (σ/√n) before a correction; lag-one correlation of parts that were each followed by one",
  threshold: "below 2; below -0.3 and below -1/n - 2.58/√n",
  falseAlarmRate: adjustedByChance,
  look: ({ runs, unit }) =>
    judgeEach(
      runs?.filter(({ deviations }) => deviations.length > 0),
      "the deviations of a run of parts",
      (fact) =>
        fact.corrected === "now"
          ? tooSoon(fact, unit)
          : alternating(fact, runs?.filter(({ corrected }) => corrected === "after each").length ?? 1),
    ),
};

function tooSoon({ at, characteristic, deviations, standardDeviation }: RunFact, unit: "mm" | "inch"): SlipFinding | undefined {
  const mean = deviations.reduce((sum, each) => sum + each, 0) / deviations.length;
  const limit = (coverage * standardDeviation) / Math.sqrt(deviations.length);
  if (!(Math.abs(mean) < limit)) return undefined;
  return {
    at,
    evidence: `"${characteristic}" is off by ${signedText(mean, unit)} on ${deviations.length === 1 ? "one part" : `the mean of ${deviations.length} parts`}; scatter alone gives up to ${signedText(limit, unit)}`,
    beyond: limit / Math.max(Math.abs(mean), limit / 1000),
    suggests: "there may be nothing to correct",
    deciding: "leave the offset alone and measure more parts",
  };
}

function alternating({ at, characteristic, deviations }: RunFact, times: number): SlipFinding | undefined {
  const n = deviations.length;
  if (n < 3) return undefined;
  const correlation = neighbourCorrelation(deviations);
  const limit = adjustedBelow(n, times);
  if (!(correlation < limit)) return undefined;
  return {
    at,
    evidence: `successive parts of "${characteristic}" alternate: lag-one correlation ${ratioText(correlation)} over ${n} parts`,
    beyond: correlation / limit,
    suggests: "each part may have been chased with a correction, which only adds scatter",
    deciding: "make the next parts without any correction",
  };
}
