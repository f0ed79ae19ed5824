import { momentsOf } from "../../lib/uncertainty/trials/trialTally.ts";
import { type DisplayUnit, writerOf } from "./displayUnit.ts";
import { distributionInWords } from "./distributionInWords.ts";
import type { DistributionView } from "./distributionView.ts";
import type { FigureTable } from "./figureTable.ts";

/** The table behind `distribution`: estimate, intervals and spread, to first order, of the whole model, and of the trials. */
export function distributionTable(
  view: DistributionView,
  { title, unit }: { readonly title: string; readonly unit: DisplayUnit },
): FigureTable {
  const { firstOrder, wholeModel, tally } = view;
  const { value, standardUncertainty, expanded } = firstOrder;
  const writer = writerOf(unit);
  const scale = standardUncertainty ?? (wholeModel === undefined ? 0 : (wholeModel.symmetric[1] - wholeModel.symmetric[0]) / 4);
  const decimals = scale > 0 ? Math.max(0, writer.withUncertainty(0, scale).decimals) + 1 : 6;
  const written = (each: number | undefined) => (each === undefined || !Number.isFinite(each) ? "–" : writer.fixed(each, decimals));
  const known = wholeModel?.isTooCurved ? undefined : wholeModel;
  const moments = tally && momentsOf(tally);
  return {
    caption: `Distribution: ${title}. ${distributionInWords(view, writer).join(" ")}`,
    columns: ["", "first order", "with the bend of the model", "trials"],
    rows: [
      ["middle", written(value), "–", written(moments?.mean)],
      ["standard deviation", written(standardUncertainty), "–", written(moments?.standardDeviation)],
      ...([0, 1] as const).map((end) => [
        `${end === 0 ? "lower" : "upper"} end, symmetric`,
        written(expanded && value + (end === 0 ? -1 : 1) * expanded.expandedUncertainty),
        written(known?.trials === undefined ? known?.symmetric[end] : undefined),
        written(known?.trials === undefined ? undefined : known.symmetric[end]),
      ]),
      ...([0, 1] as const).map((end) => [
        `${end === 0 ? "lower" : "upper"} end, shortest`,
        "–",
        written(known?.trials === undefined ? known?.shortest[end] : undefined),
        written(known?.trials === undefined ? undefined : known.shortest[end]),
      ]),
    ],
  };
}
