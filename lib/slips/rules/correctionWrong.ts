import { beyondDoubt } from "../internals/inRadii.ts";
import { signedText } from "../internals/words.ts";
import type { ArticleFact, CorrectionFact } from "../slipFacts.ts";
import { judgeEach, type SlipAnswer, type SlipFinding, type SlipRule } from "../slipRule.ts";

/** In standard uncertainties. */
const near = 3;
/** What a deviation and a correction must be beyond, in standard uncertainties of one article. */
const clear = 5;

/**
 * Rule 23. A correction with the wrong sign takes the next article farther off by as much as it was to bring it back: a whole one doubles the deviation. One put into
 * a single tool while all of them are off by the same belongs into the work offset.
 */
export const correctionWrong: SlipRule = {
  name: "correction with the wrong sign or in the wrong place",
  formula:
    "deviation of the next article - deviation of the first, less the correction away from 0; or all tools off alike while one is corrected",
  threshold: "within three standard uncertainties of 0 (u√2), the first and the correction beyond five of one article",
  falseAlarmRate: 0.001,
  look: ({ articles, corrections, unit }) =>
    together(
      judgeEach(articles, "two articles with a correction between, and how parts scatter,", (fact) => fartherOff(fact, unit)),
      judgeEach(corrections, "which tools are off", misplaced),
    ),
};

function together(a: SlipAnswer, b: SlipAnswer): SlipAnswer {
  if (a.kind === "found" && b.kind === "found") return { kind: "found", findings: [...a.findings, ...b.findings] };
  if (a.kind === "found" || b.kind === "found") return a.kind === "found" ? a : b;
  return a.kind === "nothing" ? a : b.kind === "nothing" ? b : a;
}

function fartherOff(
  { at, characteristic, first, second, change, standardUncertainty }: ArticleFact,
  unit: "mm" | "inch",
): SlipFinding | undefined {
  const beyond = Math.min(Math.abs(first), Math.abs(change)) / (clear * standardUncertainty);
  const off = Math.abs(second - first - Math.sign(first) * Math.abs(change));
  if (!(beyond > 1 && off < near * Math.SQRT2 * standardUncertainty)) return undefined;
  return {
    at,
    evidence: `"${characteristic}" was off by ${signedText(first, unit)}, and after a correction of ${signedText(change, unit)} by ${signedText(second, unit)}`,
    beyond,
    suggests: "the correction may have gone in with the wrong sign",
    deciding: "change the sign of the correction and measure the next article",
  };
}

function misplaced({ at, place, deviations }: CorrectionFact): SlipFinding | undefined {
  if (place !== "one tool" || deviations.length < 2) return undefined;
  const mean = deviations.reduce((total, { deviation }) => total + deviation.value, 0) / deviations.length;
  const beyond = Math.min(...deviations.map(({ deviation }) => beyondDoubt(deviation)));
  const alike = deviations.every(({ deviation }) => Math.abs(deviation.value - mean) < near * deviation.standardUncertainty);
  if (!(beyond > clear / 3) || !alike) return undefined;
  return {
    at,
    evidence: `all of ${deviations.length} tools are off by about the same`,
    beyond,
    suggests: "the correction may belong into the work offset and not into one tool",
    deciding: "measure a feature that another tool has cut after the correction",
  };
}
