import type { Outcome } from "../base/outcome.ts";
import { success } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
import { isRound, unitOf } from "../part/part.ts";
import type { View } from "../tolerance/deviations.ts";
import type { Budget } from "../uncertainty/budget.ts";
import type { SetupEvaluation, StrategyEvaluation } from "./setupEvaluation.ts";

/** A result whose budget can be shown. */
export interface NamedResult {
  /** Stable while its touch, size or characteristic keeps its name: `zero X`, `rotation`, `face left`, `size length`, `hole 1 X`. */
  readonly id: string;
  readonly group: "zero" | "faces" | "sizes" | "characteristics";
  readonly unit: "mm" | "rad";
  readonly budget: Outcome<Budget>;
}

/** Every result that has a budget: the chosen strategy's zero first, then faces and sizes, then the deviations of the characteristics. */
export function namedResults(
  evaluation: Pick<SetupEvaluation, "faces" | "sizes" | "setup">,
  chosen: Outcome<StrategyEvaluation>,
  view: View,
): NamedResult[] {
  const { faces, sizes, setup } = evaluation;
  return [
    ...axes.map(
      (axis, i): NamedResult => ({
        id: `zero ${axis}`,
        group: "zero",
        unit: "mm",
        budget: chosen.ok ? (chosen.value.zero[i] as Outcome<Budget>) : chosen,
      }),
    ),
    { id: "rotation", group: "zero", unit: "rad", budget: chosen.ok ? chosen.value.rotation : chosen },
    ...faces.map(({ id, budget }): NamedResult => ({ id: `face ${id}`, group: "faces", unit: "mm", budget: success(budget) })),
    ...sizes.map(({ id, budget }): NamedResult => ({ id: `size ${id}`, group: "sizes", unit: "mm", budget: success(budget) })),
    ...setup.part.characteristics.flatMap((characteristic, i): NamedResult[] => {
      const { id } = characteristic;
      const components = isRound(characteristic) ? [" X", " Y"] : [""];
      const stack = chosen.ok ? chosen.value[view].stacks[i] : chosen;
      return components.map((component, c) => ({
        id: `${id}${component}`,
        group: "characteristics",
        unit: unitOf(characteristic),
        budget: stack?.ok ? success(stack.value.components[c] as Budget) : (stack as Outcome<Budget>),
      }));
    }),
  ];
}
