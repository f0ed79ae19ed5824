import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import type { View } from "../../lib/tolerance/deviations.ts";
import { writerOf } from "./displayUnit.ts";
import type { FigureTable } from "./figureTable.ts";
import { formatMet } from "./formatChance.ts";
import { outcomeInWords } from "./outcomeInWords.ts";
import { type MappedFeature, mappedFeatures } from "./partMap/mappedFeatures.ts";
import type { PartMapOptions } from "./partMap.ts";

/** The table behind `partMap`: of every feature in the plan the expected deviation, the 95 % region and the zone, this part and the batch. */
export function partMapTable(evaluation: SetupEvaluation, strategyId: string, { unit }: Pick<PartMapOptions, "unit">): FigureTable {
  const writer = writerOf(unit);
  const head = {
    caption: `Where the features come to lie, ${strategyId}: expected deviation, half axes of the 95 % region and zone${writer.suffix === "" ? "" : `,${writer.suffix}`}`,
    columns: ["characteristic", "of", "X", "Y", "half axes", "major axis from X", "zone", "met"],
  };
  const found = evaluation.strategies.find(({ id }) => id === strategyId)?.evaluation;
  if (found === undefined || !found.ok) {
    const why = found === undefined ? "no strategy is chosen" : `not known: ${outcomeInWords(found.problems)}`;
    return { ...head, rows: [[why, ...head.columns.slice(1).map(() => "")]] };
  }
  const { features, others } = mappedFeatures(evaluation, found.value);
  const length = (value: number) => writer.withUncertainty(0, value).uncertainty;
  const zoneOf = ({ zone }: MappedFeature) =>
    zone.kind === "round"
      ? `⌀ ${writer.stated(zone.diameter)}`
      : `${"XY"[zone.axis]} ${writer.statedSigned(zone.limits.lower)} to ${Number.isFinite(zone.limits.upper) ? writer.statedSigned(zone.limits.upper) : "any"}`;
  return {
    ...head,
    rows: [
      ...features.flatMap((feature) =>
        (["thisPart", "batch"] as const satisfies readonly View[]).map((view) => {
          const region = feature.regions[view];
          const name = [feature.characteristic, view === "thisPart" ? "this part" : "the batch"];
          if (region === undefined) return [...name, "not known", "", "", "", zoneOf(feature), ""];
          const { mean, ellipse, half } = region;
          const { zone } = feature;
          const along = (axis: 0 | 1) =>
            zone.kind === "between" && zone.axis !== axis ? "" : writer.signed(mean[axis], decimalsFor(ellipse?.major ?? half, writer));
          return [
            ...name,
            along(0),
            along(1),
            ellipse === undefined ? length(half) : `${length(ellipse.major)}; ${length(ellipse.minor)}`,
            ellipse === undefined ? "" : `${((ellipse.angle * 180) / Math.PI).toFixed(0).replace("-", "−")}°`,
            zoneOf(feature),
            formatMet(region.chance),
          ];
        }),
      ),
      ...others.map(({ characteristic, why }) => [characteristic, why, "", "", "", "", "", ""]),
    ],
  };
}

function decimalsFor(uncertainty: number, writer: ReturnType<typeof writerOf>): number {
  return writer.withUncertainty(0, uncertainty).decimals;
}
