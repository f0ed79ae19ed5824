import type { Budget, Contribution } from "../../../lib/uncertainty/budget.ts";
import type { UnitWriter } from "../displayUnit.ts";
import type { Sheet } from "../figure.ts";
import { textWidth } from "../textWidth.ts";

/** Where labels, bars and amounts of a budget stand. */
export interface BudgetLayout {
  readonly sheet: Sheet;
  readonly writer: UnitWriter;
  readonly decimals: number;
  /** Labels stand in a column beside the bars, or above them. */
  readonly beside: boolean;
  readonly labelRoom: number;
  readonly amountRoom: number;
  readonly rowHeight: number;
  /** x of nothing, and pixels per unit. */
  readonly zero: number;
  readonly scale: number;
}

export const headingHeight = 19;
export const barHeight = 12;
const narrow = 430;

export function budgetLayout(
  budget: Budget,
  shown: readonly Contribution[],
  rest: readonly Contribution[],
  sheet: Sheet,
  writer: UnitWriter,
): BudgetLayout {
  const { width } = sheet;
  const decimals = decimalsOfBudget(budget, writer);
  const beside = width >= narrow;
  const amounts = shown.map(({ amount }) => writer.signed(amount, decimals));
  const amountRoom = Math.max(...[...amounts, writer.fixed(budget.standardUncertainty, decimals)].map((text) => textWidth(text))) + 6;
  const labels = [
    ...shown.map(({ source }) => source.label),
    "together, root sum square",
    ...(rest.length > 0 ? ["00 more, 0.00 % of the variance"] : []),
  ];
  const labelRoom = beside ? Math.min(width * 0.45, Math.max(...labels.map((label) => textWidth(label))) + 22) : width - amountRoom - 12;
  const left = beside ? labelRoom : 14;
  const right = beside ? width - amountRoom - 4 : width - 4;
  const lowest = Math.min(0, ...shown.map(({ amount }) => amount));
  const highest = Math.max(budget.standardUncertainty, ...shown.map(({ amount }) => amount));
  const scale = highest > lowest ? (right - left) / (highest - lowest) : 0;
  return { sheet, writer, decimals, beside, labelRoom, amountRoom, rowHeight: beside ? 19 : 32, zero: left - lowest * scale, scale };
}

/** Two digits of the combined uncertainty, and of the largest amount where that is a decade smaller. */
export function decimalsOfBudget({ standardUncertainty, contributions }: Budget, writer: UnitWriter): number {
  const largest = Math.max(0, ...contributions.map(({ amount }) => Math.abs(amount)));
  return Math.max(writer.withUncertainty(0, standardUncertainty).decimals, writer.withUncertainty(0, largest).decimals);
}
