import type { StrategyEvaluation } from "../decision/setupEvaluation.ts";
import type { EllipticalRegion } from "../uncertainty/coverageRegion.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { type Figures, figuresIn } from "./internals/figures.ts";
import { zeroRegions } from "./zeroRegions.ts";

/** How X and Y of a strategy's zero go together, in words; empty where one of them is not known or neither is in doubt. */
export function zeroRegionSentence(strategy: StrategyEvaluation, unit: "mm" | "inch"): string {
  const regions = zeroRegions(strategy);
  if (!regions.ok || regions.value.ellipse.dimension === 0) return "";
  const { correlation, ellipse } = regions.value;
  return `Correlation of X and Y ${formatFixed(correlation, 2)}. ${regionText(ellipse, figuresIn(unit))}.`;
}

function regionText(ellipse: EllipticalRegion, { unit, uncertainty }: Figures): string {
  const [long, short] = ellipse.halfAxes.map(uncertainty) as [string, string];
  const probability = `${formatFixed(100 * ellipse.probability, 2)} %`;
  if (ellipse.dimension === 1)
    return `Were all sources normal, ${probability} of the zero's doubt would lie on a line ${direction(ellipse)}, within ±${long} ${unit}`;
  const ellipseOf = `Were all sources normal, ${probability} would lie in`;
  return long === short
    ? `${ellipseOf} a circle of radius ${long} ${unit}`
    : `${ellipseOf} an ellipse of half axes ${long} and ${short} ${unit}, the longer ${direction(ellipse)}`;
}

/** Of the long axis, in whole degrees. */
function direction({ angle }: { readonly angle: number | undefined }): string {
  const degrees = Math.round(((angle ?? 0) * 180) / Math.PI);
  if (degrees === 0) return "along X";
  if (Math.abs(degrees) === 90) return "along Y";
  return `${Math.abs(degrees)}° from X towards ${degrees > 0 ? "+Y" : "-Y"}`;
}
