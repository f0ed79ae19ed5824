import type { Stack } from "../../tolerance/stack.ts";
import { chanceCell, shareText } from "./chanceText.ts";
import { type Figures, figuresOf } from "./figures.ts";
import { toleranceText } from "./toleranceText.ts";

/** How one characteristic meets its tolerance, as plain data and as it is printed: diameters used in a round zone, deviations otherwise. */
export function recordStack(stack: Stack, lengths: Figures) {
  const { characteristic, kind, unit, isRound, deviation, worstCase, rootSumSquare, shares, chance } = stack;
  const figures = figuresOf(stack, lengths);
  const range = ({ lower, upper }: Stack["worstCase"]) =>
    isRound ? figures.length(upper) : `${figures.length(lower)}, ${figures.length(upper)}`;
  return {
    characteristic,
    kind,
    unit,
    isRound,
    deviation,
    rootSumSquare: { ...rootSumSquare },
    worstCase: { ...worstCase },
    shares: { ...shares },
    chance,
    written: {
      unit: figures.unit,
      tolerance: toleranceText(stack, figures),
      deviation: figures.length(deviation),
      rootSumSquare: range(rootSumSquare),
      worstCase: range(worstCase),
      shares: {
        deviation: shareText(shares.deviation),
        rootSumSquare: shareText(shares.rootSumSquare),
        worstCase: shareText(shares.worstCase),
      },
      chance: chanceCell(chance),
    },
  };
}
