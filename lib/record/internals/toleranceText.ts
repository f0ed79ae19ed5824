import type { Stack } from "../../tolerance/stack.ts";
import type { Figures } from "./figures.ts";

/** The limits of a characteristic as a drawing writes them: a diameter or width of a zone, deviations from nominal. */
export function toleranceText({ kind, isRound, bonus, limits: { lower, upper } }: Stack, figures: Figures): string {
  if (isRound) return `dia ${shortLength(upper, figures)}${bonus ? " (M)" : ""}`;
  if (kind === "symmetry") return `width ${shortLength(upper - lower, figures)}`;
  if (upper === Number.POSITIVE_INFINITY) return `from ${shortLength(lower, figures)}`;
  const signed = (value: number) => `${value > 0 ? "+" : ""}${shortLength(value, figures)}`;
  const suffix = figures.unit === "deg" ? " deg" : "";
  if (isZone(kind)) return `width ${shortLength(upper, figures)}`;
  return `${upper === -lower ? `±${shortLength(upper, figures)}` : `${signed(upper)} ${signed(lower)}`}${suffix}`;
}

/** Whether limits are a zone of their width, as far as one end of the feature may stand off the other. */
function isZone(kind: Stack["kind"]): boolean {
  return kind === "parallelism" || kind === "perpendicularity";
}

/** Without noughts that say nothing. */
export function shortLength(millimetres: number, figures: Figures): string {
  return String(Number(figures.length(millimetres)));
}
