import type { StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { figuresIn, resultFigures } from "./internals/figures.ts";

/** One coordinate of part zero by a strategy, and by the best use of the same touches, as a person reads them. */
export interface ComparedInWords {
  /** X, Y, Z, or the turn with its unit. */
  readonly name: string;
  readonly conventional: string;
  readonly conventionalUncertainty: string;
  readonly optimal: string;
  readonly optimalUncertainty: string;
  /** The best standard uncertainty as a share of the other, in per cent. */
  readonly share: string;
}

/** Nothing where the touches are just enough, or disagree. The turn is told in degrees. */
export function optimalInWords({ optimal }: StrategyEvaluation, unit: "mm" | "inch"): ComparedInWords[] {
  if (!optimal?.ok) return [];
  const figures = figuresIn(unit);
  return optimal.value.coordinates.map(({ name, conventional, optimal: best, ratio }) => {
    const written = (budget: typeof best) => (name === "rotation" ? resultFigures(budget, 180 / Math.PI, 5) : figures.result(budget));
    const [one, other] = [written(conventional), written(best)];
    return {
      name: name === "rotation" ? "turn, °" : name,
      conventional: one.value,
      conventionalUncertainty: one.standardUncertainty,
      optimal: other.value,
      optimalUncertainty: other.standardUncertainty,
      share: `${formatFixed(100 * ratio, 0)} %`,
    };
  });
}

/** From here on the same touches with other weights are not worth a word: a hundredth of a standard uncertainty. */
const worthAWord = 0.99;

/** Whether other weights would make anything of part zero clearly better known. */
export function optimalIsBetter({ optimal }: StrategyEvaluation): boolean {
  return optimal?.ok === true && optimal.value.coordinates.some(({ ratio }) => ratio < worthAWord);
}

/** Rough time in words: seconds are not known. */
export function effortInWords({ effort: { touches, readings, minutes, isStated } }: StrategyEvaluation): string {
  if (touches === 0) return "no touches";
  const taken = readings === touches ? "" : `, ${readings} readings`;
  return `${touches} ${touches === 1 ? "touch" : "touches"}${taken}, about ${minutesText(minutes)} min${isStated ? "" : " (shop default)"}`;
}

/** Minutes to a tenth below ten, to a whole one above. */
export function minutesText(minutes: number): string {
  return formatFixed(minutes, minutes < 10 ? 1 : 0);
}
