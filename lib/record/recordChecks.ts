import { touchedForZero } from "../decision/judgeChecks.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { checkReadings } from "./checkReadings.ts";
import { expandedUncertainty } from "./expandedUncertainty.ts";
import { figuresIn } from "./internals/figures.ts";

/** What the display must show when a face is touched again, and at faces stated as checks; with the limits of one new reading. */
export function recordChecks(shown: SetupEvaluation, strategy: StrategyEvaluation | undefined) {
  const figures = figuresIn(shown.setup.unit);
  const rests = touchedForZero(shown.setup, strategy?.id);
  const again = checkReadings(shown, strategy).map(({ prediction: { id, element, axis, tool }, machine, work }) => ({
    name: id,
    element,
    tool,
    axis,
    restsOn: rests.has(element),
    ...machine,
    work: work.ok ? work.value.value : null,
    written: {
      value: figures.length(machine.value),
      lower: figures.length(machine.lower),
      upper: figures.length(machine.upper),
      work: work.ok ? figures.length(work.value.value) : null,
    },
  }));
  const names = new Set(again.map(({ name }) => name));
  const stated = shown.checks.flatMap(({ check: { id, element, tool }, evaluation }) => {
    if (!evaluation.ok) return [];
    const { axis, predicted } = evaluation.value;
    const half = expandedUncertainty(predicted).expandedUncertainty;
    const [value, lower, upper] = [predicted.value, predicted.value - half, predicted.value + half];
    return [
      {
        // One name stands for one reading, also where a check is called like a touch.
        name: freeAmong(names, id),
        element,
        tool,
        axis,
        restsOn: rests.has(element),
        value,
        lower,
        upper,
        work: null,
        written: { value: figures.length(value), lower: figures.length(lower), upper: figures.length(upper), work: null },
      },
    ];
  });
  // A check that is the same touch again says nothing of its own.
  const isTold = (check: (typeof stated)[number]) =>
    again.some(
      ({ element, tool, axis, written }) =>
        element === check.element &&
        tool === check.tool &&
        axis === check.axis &&
        written.lower === check.written.lower &&
        written.upper === check.written.upper,
    );
  return [...again, ...stated.filter((check) => !isTold(check))];
}

function freeAmong(names: ReadonlySet<string>, name: string): string {
  return names.has(name) ? freeAmong(names, `${name}, check`) : name;
}
