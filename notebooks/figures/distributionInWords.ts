import { capitalise } from "../../lib/base/capitalise.ts";
import { firstOrderInWords } from "../../lib/record/firstOrderInWords.ts";
import { formatFixed } from "../../lib/uncertainty/roundForReport.ts";
import { momentsOf } from "../../lib/uncertainty/trials/trialTally.ts";
import type { UnitWriter } from "./displayUnit.ts";
import type { DistributionView } from "./distributionView.ts";
import { groups } from "./formatChance.ts";
import { outsideInWords } from "./outsideInWords.ts";

/** What the figure of a distribution shows, in sentences. */
export function distributionInWords({ firstOrder, wholeModel, tally }: DistributionView, writer: UnitWriter): string[] {
  const { value, expanded, limits, within } = firstOrder;
  const sentences: string[] = [];
  if (expanded !== undefined) {
    const { value: middle, uncertainty } = writer.withUncertainty(value, expanded.expandedUncertainty);
    sentences.push(
      `To first order ${middle} ± ${uncertainty}${writer.suffix} holds ${formatFixed(100 * expanded.coverageProbability, 2)} %.`,
    );
  }
  if (wholeModel !== undefined) {
    const words = firstOrderInWords(wholeModel, writer);
    if (words !== undefined) sentences.push(`${capitalise(words)}.`);
  }
  if (limits !== undefined) {
    const outside = within === undefined ? "" : ` Chance outside to first order ${outsideInWords(within)}`;
    const whole =
      wholeModel?.within === undefined || wholeModel.isTooCurved
        ? "."
        : `, ${wholeModel.trials === undefined ? "with the bend of the model" : "by trials"} ${outsideInWords(wholeModel.within, wholeModel.trials?.count)}.`;
    const stated =
      expanded === undefined
        ? `Zone ⌀ ${writer.stated(limits.upper)}${writer.suffix}`
        : limits.upper === Number.POSITIVE_INFINITY
          ? `Lower limit ${writer.stated(limits.lower)}${writer.suffix}`
          : `Limits ${writer.stated(limits.lower)} and ${writer.stated(limits.upper)}${writer.suffix}`;
    sentences.push(`${stated}.${outside}${whole}`);
  }
  if (tally !== undefined) {
    const { count } = momentsOf(tally);
    const failed = tally.failed > 0 ? `; in ${groups(tally.failed)} more the model had no value, and they are not drawn` : "";
    sentences.push(`${groups(count)} trials${failed}.`);
  }
  return sentences;
}
