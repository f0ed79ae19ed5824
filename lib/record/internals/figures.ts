import { millimetresPerInch } from "../../base/quantity.ts";
import type { Stack } from "../../tolerance/stack.ts";
import type { Budget } from "../../uncertainty/budget.ts";
import { formatFixed, formatWithUncertainty } from "../../uncertainty/roundForReport.ts";
import { expandedUncertainty } from "../expandedUncertainty.ts";

/** Lengths as a person reads them, in one unit. */
export interface Figures {
  /** As written behind a number. */
  readonly unit: "mm" | "in" | "deg";
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

/** Those that a characteristic is told in: degrees of an angle, from the radians inside. */
export function figuresOf({ unit }: Pick<Stack, "unit">, lengths: Figures): Figures {
  return unit === "rad" ? degrees : lengths;
}

const decimalsOfAngle = 4;
/** Angles as a person reads them, from the radians inside. */
export const degrees: Figures = {
  unit: "deg",
  length: (radians) => formatFixed((radians * 180) / Math.PI, decimalsOfAngle),
  uncertainty: (radians) => formatWithUncertainty(0, (radians * 180) / Math.PI).standardUncertainty,
  result: (budget) => resultFigures(budget, 180 / Math.PI, decimalsOfAngle),
};

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
