import type { StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { correlationText } from "./correlationText.ts";
import { type Figures, figuresIn } from "./internals/figures.ts";
import { type ZeroRegions, zeroRegions } from "./zeroRegions.ts";

/** How X and Y of a strategy's zero go together, in words; empty where one of them is not known or neither is in doubt. */
export function zeroRegionSentence(strategy: StrategyEvaluation, unit: "mm" | "inch"): string {
  const regions = zeroRegions(strategy);
  if (!regions.ok || regions.value.ellipse.dimension === 0) return "";
  const { name, words } = regionInWords(regions.value, figuresIn(unit));
  const probability = percent(regions.value.ellipse.probability);
  return [
    `Correlation of X and Y ${correlationText(regions.value.correlation)}. Were all sources normal, zero would lie with ${probability} ${words}.`,
    ...coverageSentence(name, regions.value),
  ].join(" ");
}

function regionInWords({ ellipse, rectangle }: ZeroRegions, { unit, uncertainty }: Figures): { name: string; words: string } {
  const [long, short] = ellipse.halfAxes.map(uncertainty) as [string, string];
  if (ellipse.dimension === 1) return { name: "line", words: `on a line ${direction(ellipse)}, within ±${long} ${unit}` };
  const [x, y] = rectangle.halfWidths.map(uncertainty) as [string, string];
  const beside = `, and with as much in the rectangle X ±${x}, Y ±${y} ${unit}`;
  return long === short
    ? { name: "circle", words: `in a circle of radius ${long} ${unit}${beside}` }
    : { name: "ellipse", words: `in an ellipse of half axes ${long} and ${short} ${unit}, the longer ${direction(ellipse)}${beside}` };
}

/** By the sources' own distributions; none where that takes long to work out. */
function coverageSentence(name: string, { ellipse, ellipseCoverage: coverage }: ZeroRegions): string[] {
  if (coverage === undefined || coverage.error > mostError) return [];
  const chance = percent(coverage.chance);
  return [`By the sources' own distributions the ${name} holds ${chance === percent(ellipse.probability) ? "as much" : chance}.`];
}

function percent(chance: number): string {
  return `${formatFixed(100 * chance, 2)} %`;
}

/** Half of the last digit shown. */
const mostError = 5e-5;

/** Of the long axis, in whole degrees. */
function direction({ angle }: { readonly angle: number | undefined }): string {
  const degrees = Math.round(((angle ?? 0) * 180) / Math.PI);
  if (degrees === 0) return "along X";
  if (Math.abs(degrees) === 90) return "along Y";
  return `${Math.abs(degrees)}° from X towards ${degrees > 0 ? "+Y" : "-Y"}`;
}
