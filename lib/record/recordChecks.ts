import type { SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { checkReadings } from "./checkReadings.ts";
import { expandedUncertainty } from "./expandedUncertainty.ts";
import { figuresIn } from "./internals/figures.ts";

/** What the display must show when a face is touched again, and at faces stated as checks; with the limits of one new reading. */
export function recordChecks(shown: SetupEvaluation, strategy: StrategyEvaluation | undefined) {
  const figures = figuresIn(shown.setup.unit);
  const again = checkReadings(shown, strategy).map(({ prediction: { id, element, axis, tool }, machine, work }) => ({
    name: id,
    element,
    tool,
    axis,
    restsOn: true,
    ...machine,
    work: work.ok ? work.value.value : null,
    written: {
      value: figures.length(machine.value),
      lower: figures.length(machine.lower),
      upper: figures.length(machine.upper),
      work: work.ok ? figures.length(work.value.value) : null,
    },
  }));
  const stated = shown.checks.flatMap(({ check: { id, element, tool }, usedForZero, evaluation }) => {
    if (!evaluation.ok) return [];
    const { axis, predicted } = evaluation.value;
    const half = expandedUncertainty(predicted).expandedUncertainty;
    const [value, lower, upper] = [predicted.value, predicted.value - half, predicted.value + half];
    return [
      {
        name: id,
        element,
        tool,
        axis,
        restsOn: usedForZero,
        value,
        lower,
        upper,
        work: null,
        written: { value: figures.length(value), lower: figures.length(lower), upper: figures.length(upper), work: null },
      },
    ];
  });
  const names = new Set(again.map(({ name }) => name));
  return [...again, ...stated.filter(({ name }) => !names.has(name))];
}
