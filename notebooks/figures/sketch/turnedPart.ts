import type { StrategyEvaluation } from "../../../lib/decision/setupEvaluation.ts";
import { writerOf } from "../displayUnit.ts";
import { enlargement, enlargementText } from "../enlargement.ts";

/** How the skew of a part is drawn. */
export interface TurnedPart {
  /** By how much the plan is drawn turned, radians; 0 when there is nothing to show. */
  readonly drawn: number;
  readonly words: string | undefined;
}

/** As far as a part is turned on the sheet, radians: clearly askew, and dimension lines still read level. */
const mostTurned = (5 * Math.PI) / 180;
/** A skew that stays below this at the largest factor is told and not drawn. */
const leastTurned = (0.4 * Math.PI) / 180;
const largestFactor = 1000;

/** The measured rotation enlarged, with its factor in words; nothing where the strategy does not look at it. */
export function turnedPart(strategy: StrategyEvaluation | undefined): TurnedPart {
  if (strategy === undefined || !strategy.rotation.ok) return { drawn: 0, words: undefined };
  const { value, standardUncertainty } = strategy.rotation.value;
  const writer = writerOf("degree");
  const written = writer.withUncertainty(value, standardUncertainty);
  const told = `Part turned by ${written.value}° (u ${written.uncertainty}°) about Z${strategy.solution.appliesRotation ? ", and the coordinates with it" : ""}`;
  const factor = value === 0 ? 1 : Math.min(largestFactor, enlargement(Math.abs(value), mostTurned));
  const drawn = Math.max(-Math.PI / 4, Math.min(Math.PI / 4, value * factor));
  if (Math.abs(drawn) < leastTurned) return { drawn: 0, words: `${told}; too little to be drawn.` };
  return { drawn, words: `${told}; ${enlargementText(factor)}.` };
}
