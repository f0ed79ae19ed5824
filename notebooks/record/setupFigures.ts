import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { strategyInUse } from "../../lib/record/strategyInUse.ts";
import { budgetBars } from "../figures/budgetBars.ts";
import type { FigureEnvironment } from "../figures/figure.ts";
import { partMap } from "../figures/partMap.ts";
import { setupSketch } from "../figures/setupSketch.ts";
import { strategyComparison } from "../figures/strategyComparison.ts";
import { toleranceStack } from "../figures/toleranceStack.ts";
import { zeroScatter } from "../figures/zeroScatter.ts";

/** A figure of a setup by name, drawn when it is asked for. */
export interface SetupFigure {
  readonly name: string;
  readonly draw: (environment: FigureEnvironment) => SVGSVGElement;
}

/** The figures of a setup that can be drawn without a person looking at anything: those of the page, of the strategy in use, for this part. */
export function setupFigures(evaluation: SetupEvaluation): SetupFigure[] {
  const { unit } = evaluation.setup;
  const inUse = strategyInUse(evaluation)?.evaluation;
  const id = inUse?.id ?? "";
  const always: SetupFigure[] = [
    { name: "setup", draw: (environment) => setupSketch(evaluation, id, { unit, id: "setup", width: 500 }, environment) },
    {
      name: "strategies",
      draw: (environment) => strategyComparison(evaluation, { view: "thisPart", unit, id: "strategies", width: 700 }, environment),
    },
  ];
  if (inUse === undefined) return always;
  const budgets = (["X", "Y", "Z"] as const).flatMap((axis, i): SetupFigure[] => {
    const budget = inUse.zero[i as 0 | 1 | 2];
    if (!budget.ok) return [];
    const name = `budget-${axis}`;
    return [{ name, draw: (environment) => budgetBars(budget.value, { title: `zero ${axis}, ${id}`, unit, id: name }, environment) }];
  });
  const stacks = inUse.thisPart.stacks.flatMap((stack, i): SetupFigure[] => {
    if (!stack.ok) return [];
    const { characteristic } = stack.value;
    const name = `stack-${i + 1}`;
    return [
      {
        name,
        draw: (environment) =>
          toleranceStack(stack.value, { title: `${characteristic}, ${id}, this part`, unit, id: name, width: 700 }, environment),
      },
    ];
  });
  const bottleneck = inUse.thisPart.stacks.findIndex((stack) => stack.ok && stack.value.characteristic === inUse.thisPart.bottleneck);
  const worst = stacks.find(({ name }) => name === `stack-${bottleneck + 1}`);
  return [
    ...always,
    { name: "part", draw: (environment) => partMap(evaluation, id, { unit, id: "part" }, environment) },
    { name: "zero", draw: (environment) => zeroScatter(evaluation, id, { unit, id: "zero" }, environment) },
    ...budgets,
    ...stacks,
    ...(worst === undefined ? [] : [{ ...worst, name: "stack" }]),
  ];
}
