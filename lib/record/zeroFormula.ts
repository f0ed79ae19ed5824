import { listText } from "../base/listText.ts";
import { axes, indexOfAxis } from "../base/vector.ts";
import { zeroWeights } from "../datum/zeroWeights.ts";
import type { StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { figuresIn } from "./internals/figures.ts";

/** Weights below this are rounding. */
const nothing = 1e-9;

export interface ZeroFormula {
  /** One for each axis that is known, or one sentence where no line could be worked out by hand. */
  readonly lines: readonly string[];
  /** What the letters in them mean; empty where there are none. */
  readonly legend: string;
}

/**
 * How part zero follows from the readings, axis by axis: `X = 1/2 R(b1) + 1/2 R(b2) + 1/2 r(b1) - 1/2 r(b2)`. Where weights are no plain fractions, by how
 * much of each reading zero moves, because a rounded weight times a machine coordinate would be no result.
 */
export function zeroFormula({ solution, zero }: StrategyEvaluation, unit: "mm" | "inch"): ZeroFormula {
  const { strategy } = solution;
  if (strategy.fixtureFrame)
    return {
      lines: [`Part zero stays where "${strategy.fixtureFrame.id}" is: its machine coordinates, and the place of zero in them.`],
      legend: "",
    };
  const weights = zeroWeights(solution);
  if (weights === undefined)
    return {
      lines: [
        "Part zero follows from all points together: the frame that leaves the smallest sum of squares of what they miss the part by.",
      ],
      legend: "",
    };
  const figures = figuresIn(unit);
  const lines = axes.flatMap((axis) => {
    const i = indexOfAxis(axis);
    const budget = zero[i];
    if (!budget.ok) return [];
    const by = weights.flatMap(({ touch, byReading, byReach, reading, reach }) => [
      { touch, sign: "R", weight: byReading[i], value: reading },
      { touch, sign: "r", weight: byReach[i], value: reach },
    ]);
    const counting = by.filter(({ weight }) => Math.abs(weight) > nothing);
    const readings = counting.filter(({ sign }) => sign === "R");
    if (counting.length === 0) return [];
    const fractions = counting.map(({ weight }) => fractionOf(Math.abs(weight)));
    if (fractions.some((fraction) => fraction === undefined)) {
      const moved = readings
        .filter(({ weight }) => Math.abs(weight) >= seen)
        .map(({ touch, weight }) => `${formatFixed(weight, 4)} of R(${touch})`);
      return [`${axis} moves by ${listText(moved)}.`];
    }
    const terms = [...readings, ...counting.filter(({ sign }) => sign === "r")].map(({ touch, sign, weight }, k) => {
      const fraction = fractionOf(Math.abs(weight)) as string;
      return `${weight < 0 ? (k === 0 ? "-" : "- ") : k === 0 ? "" : "+ "}${fraction === "1" ? "" : `${fraction} `}${sign}(${touch})`;
    });
    const rest = budget.value.value - counting.reduce((sum, { weight, value }) => sum + weight * value, 0);
    const left = Math.abs(rest) < nothing ? "" : ` ${rest < 0 ? "-" : "+"} ${figures.length(Math.abs(rest))}`;
    return [`${axis} = ${terms.join(" ")}${left}`];
  });
  return { lines, legend: lines.length === 0 ? "" : legend };
}

/** A weight that shows with four decimals. */
const seen = 0.00005;

const legend =
  "R is the mean of a touch's readings, r the way from the tool's centre (along Z from its gauge line) to the metal: effective radius, late trigger, length and whatever lay between. A number behind them is what the drawing's places and sizes put in.";

/** `1/2` for 0.5; undefined for what is no fraction with a small divisor. */
function fractionOf(weight: number): string | undefined {
  for (let divisor = 1; divisor <= 12; divisor++) {
    const count = Math.round(weight * divisor);
    if (count > 0 && Math.abs(weight * divisor - count) < 1e-7) return divisor === 1 ? String(count) : `${count}/${divisor}`;
  }
  return undefined;
}
