import { formatFixed } from "../uncertainty/roundForReport.ts";

/** A correlation coefficient with two decimals; 1.00 only where two results are one but for rounding. */
export function correlationText(coefficient: number): string {
  const text = formatFixed(coefficient, 2);
  if (!text.endsWith("1.00") || 1 - Math.abs(coefficient) < rounding) return text;
  return coefficient > 0 ? ">0.99" : "<-0.99";
}

const rounding = 1e-9;
/** What rounds to 0.00. */
export const noCorrelation = 0.005;
