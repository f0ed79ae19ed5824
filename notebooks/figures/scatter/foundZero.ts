import type { SetupEvaluation, StrategyEvaluation } from "../../../lib/decision/setupEvaluation.ts";
import type { Budget } from "../../../lib/uncertainty/budget.ts";
import { type CoverageEllipse, coverageEllipse } from "../coverageEllipse.ts";
import { outcomeInWords } from "../outcomeInWords.ts";

/** X and Y of a strategy's zero, and what is drawn about it. */
export interface FoundZero {
  readonly x: Budget;
  readonly y: Budget;
  readonly ellipses: readonly { readonly name: string; readonly probability: number; readonly ellipse: CoverageEllipse }[];
  /** The offset as typed, less the zero as found, mm; undefined where it is not known. */
  readonly typed: readonly [number, number] | undefined;
  /** Step of the register, mm; 0 when not stated. */
  readonly step: number;
}

/** 63.2 % is what one standard deviation along both axes of the ellipse times √2 holds: 1 - 1/e. */
const regions = [
  { name: "63 %", probability: 1 - Math.exp(-1) },
  { name: "95 %", probability: 0.95 },
] as const;

/** X and Y of a strategy's zero with all that is drawn about them, or why there is nothing to draw. */
export function foundZero({ strategies, setup }: SetupEvaluation, strategyId: string): FoundZero | string {
  const evaluation = strategies.find(({ id }) => id === strategyId)?.evaluation;
  if (evaluation === undefined) return `there is no strategy "${strategyId}"`;
  if (!evaluation.ok) return outcomeInWords(evaluation.problems);
  const [x, y] = evaluation.value.zero;
  if (!x.ok) return outcomeInWords(x.problems);
  if (!y.ok) return outcomeInWords(y.problems);
  return {
    x: x.value,
    y: y.value,
    ellipses: regions.map((region) => ({ ...region, ellipse: coverageEllipse(x.value, y.value, region.probability) })),
    typed: typedOffset(evaluation.value, x.value, y.value),
    step: setup.machine.offsetStep ?? 0,
  };
}

function typedOffset({ offset }: StrategyEvaluation, x: Budget, y: Budget): readonly [number, number] | undefined {
  if (!offset.ok) return undefined;
  const along = (axis: "X" | "Y") => offset.value.values.find((entry) => entry.axis === axis)?.value;
  const [typedX, typedY] = [along("X"), along("Y")];
  return typedX === undefined || typedY === undefined ? undefined : [typedX - x.value, typedY - y.value];
}
