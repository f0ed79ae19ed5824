import { millimetresPerInch } from "../../base/quantity.ts";
import type { Budget } from "../../uncertainty/budget.ts";
import { formatFixed, formatWithUncertainty } from "../../uncertainty/roundForReport.ts";
import { expandedUncertainty } from "../expandedUncertainty.ts";

/** Lengths as a person reads them, in one unit. */
export interface Figures {
  /** As written behind a number. */
  readonly unit: "mm" | "in";
  /** A length without uncertainty of its own: 4 decimals of a millimetre, 5 of an inch. */
  length(millimetres: number): string;
  /** An uncertainty, to two significant digits. */
  uncertainty(millimetres: number): string;
  /** A result: the uncertainty to two significant digits, the value and the expanded uncertainty to the same decimal. */
  result(budget: Budget): FiguresOfResult;
}

export interface FiguresOfResult {
  readonly value: string;
  readonly standardUncertainty: string;
  readonly expandedUncertainty: string;
  readonly coverageFactor: string;
}

export function figuresIn(unit: "mm" | "inch"): Figures {
  const factor = unit === "inch" ? 1 / millimetresPerInch : 1;
  const decimals = unit === "inch" ? 5 : 4;
  return {
    unit: unit === "inch" ? "in" : "mm",
    length: (millimetres) => formatFixed(millimetres * factor, decimals),
    uncertainty: (millimetres) => formatWithUncertainty(0, millimetres * factor).standardUncertainty,
    result: (budget) => resultFigures(budget, factor, decimals),
  };
}

/** A result in its own unit times a factor. */
export function resultFigures(budget: Budget, factor: number, decimalsWhenExact: number): FiguresOfResult {
  const expanded = expandedUncertainty(budget);
  const { value, standardUncertainty, decimals } = formatWithUncertainty(budget.value * factor, budget.standardUncertainty * factor, {
    decimalsWhenExact,
  });
  return {
    value,
    standardUncertainty,
    expandedUncertainty: budget.standardUncertainty === 0 ? "0" : formatFixed(expanded.expandedUncertainty * factor, decimals),
    coverageFactor: formatFixed(expanded.coverageFactor, 2),
  };
}
