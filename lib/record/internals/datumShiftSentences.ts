import { quotedList } from "../../base/listText.ts";
import { diameterOf } from "../../datum/partSizes.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import { type DatumShift, datumShifts } from "../../part/datumShift.ts";
import { bonusOf } from "../../part/maximumMaterial.ts";
import { formatFixed } from "../../uncertainty/roundForReport.ts";
import type { JudgementSentence } from "../judgementSentences.ts";
import type { Figures } from "./figures.ts";
import { shortLength } from "./toleranceText.ts";

/** What the sizes of datums at maximum material leave, apart from every bonus and from every chance. */
export function datumShiftSentences(evaluation: SetupEvaluation, figures: Figures): JudgementSentence[] {
  return datumShifts(evaluation.setup.part).map((shift) => ({
    kind: "datum shift",
    at: `part.datumSystems.${shift.system}`,
    text: `${rangeText(shift, figures)}${turnText(shift, figures)} ${thisPartText(shift, evaluation, figures)}It moves ${quotedList(shift.moves)} ${shift.moves.length > 1 ? "together" : "as a whole"}, widens no zone, and is counted in no chance: it is a shift and no bonus. Taken with the gauge at the limit of size; a tolerance of position or direction of the datum itself would add to both.`,
  }));
}

function rangeText({ system, datum, letter, maximumMaterialSize, largest, axes }: DatumShift, figures: Figures): string {
  const name = letter === "" ? `"${datum}" (M)` : `"${datum}" (${letter}, M)`;
  const gauge = `the gauge at diameter ${shortLength(maximumMaterialSize, figures)}`;
  const range = shortLength(largest, figures);
  const room =
    axes.length === 2
      ? `its axis may lie off ${gauge} anywhere within a circle of diameter 0 at maximum to ${range} ${figures.unit} at least material`
      : axes.length === 1
        ? `along ${axes[0]} its axis may lie off ${gauge} within a width of 0 at maximum to ${range} ${figures.unit} at least material`
        : `its axis may lie off ${gauge} by up to half of ${range} ${figures.unit} to either side at least material, and only turns`;
  return `In the datum system "${system}" the size of ${name} leaves a shift: ${room}.`;
}

/** The turn that this datum alone leaves, over a length that a person can picture. */
function turnText({ turns, largest }: DatumShift, figures: Figures): string {
  if (turns === undefined) return "";
  const over = (largest / 2 / turns.distance) * hundred;
  return ` With "${turns.about}", ${shortLength(turns.distance, figures)} ${figures.unit} away, it leaves a turn of up to ±${formatFixed(over, 4)} over a length of 100 ${figures.unit}.`;
}

const hundred = 100;

function thisPartText({ datum, size }: DatumShift, { sizes }: SetupEvaluation, figures: Figures): string {
  const found = sizes.find(({ id }) => id === diameterOf(datum));
  if (found === undefined) return "";
  const departure = bonusOf(size, found.budget.value);
  const u = figures.uncertainty(found.budget.standardUncertainty);
  return departure > 0
    ? `On this part, by its touches, that diameter is ${figures.length(departure)} ${figures.unit} (u ${u}). `
    : `On this part, by its touches, the datum has no less metal than at its maximum material, so nothing is left (departure ${figures.length(departure)} ${figures.unit}, u ${u}). `;
}
