import type { OwnEvaluation } from "../../decision/setupEvaluation.ts";
import type { Dimension } from "../../formula/dimension.ts";
import { soundBudget } from "../../formula/soundBudget.ts";
import { plainOutcome } from "./plainProblem.ts";
import { plainQuantity } from "./plainQuantity.ts";

/** Cells and columns that a person has added, in document order, in base units. */
export function plainOwn({ cells = new Map(), own = new Map() }: Partial<OwnEvaluation>) {
  return [...cells.keys()].flatMap((name) => {
    const outcome = own.get(name);
    if (outcome === undefined) return [];
    return [
      {
        name,
        ...plainOutcome(outcome, (value) => {
          const unit = baseUnitText(value.dimension);
          if (value.kind === "quantity") return plainOutcome(soundBudget(value.value), (budget) => plainQuantity(budget, unit));
          return {
            unit,
            rows: value.rows.map((row) =>
              row === undefined
                ? null
                : plainOutcome(row, (each) => plainOutcome(soundBudget(each), (budget) => plainQuantity(budget, unit))),
            ),
          };
        }),
      },
    ];
  });
}

/** mm, rad, K, and products of their powers: `mm^2`, `mm/K`; `1` for a number. */
function baseUnitText({ length, angle, temperature }: Dimension): string {
  const parts = [
    ["mm", length],
    ["rad", angle],
    ["K", temperature],
  ] as const;
  const text = (sign: 1 | -1) =>
    parts.flatMap(([unit, power]) => (sign * power > 0 ? [Math.abs(power) === 1 ? unit : `${unit}^${Math.abs(power)}`] : []));
  const below = text(-1);
  return `${text(1).join("*") || "1"}${below.map((unit) => `/${unit}`).join("")}`;
}
