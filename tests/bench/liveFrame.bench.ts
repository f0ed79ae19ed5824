import { type Budget, budgetsOf } from "../../lib/uncertainty/budget.ts";
import type { Source } from "../../lib/uncertainty/source.ts";
import { binary, certain, fromSource, sum, type Uncertain, unary } from "../../lib/uncertainty/uncertain.ts";
import type { Benchmark } from "./benchmark.ts";
import { processorTime } from "./processorTime.ts";

const sourceCount = 60;
const strategyCount = 20;
const characteristicCount = 60;
/** Edits for one measure, which is of one. */
const repeats = 5;

/**
 * What every keystroke asks of the first-order arithmetic: the values are made anew, laid out, and the budget of every result is read off. The
 * page has 5 ms for it.
 */
const liveFrame: Benchmark = {
  name: "First-order results of one edit; wanted: 5 ms",
  work: `${strategyCount} strategies x ${characteristicCount} characteristics by ${sourceCount} sources, laid out anew; processor time`,
  sides: [
    { name: "values alone", prepare: () => processorTime(deviations, undefined, repeats) },
    { name: "with derivatives and uncertainties", prepare: () => processorTime(() => budgetsOf(deviations()), undefined, repeats) },
    { name: "with every contribution in order", prepare: () => processorTime(() => linesOf(budgetsOf(deviations())), undefined, repeats) },
  ],
};
export default liveFrame;

function linesOf(budgets: readonly Budget[]): number {
  return budgets.reduce((lines, { contributions }) => lines + contributions.length, 0);
}

/** How far each characteristic is off under each strategy: places on a part that is shifted and turned by what the strategy's touches say. */
function deviations(): Uncertain[] {
  const sources = Array.from({ length: sourceCount }, (_, index) => fromSource(sourceNumber(index)));
  const source = (index: number) => sources[index % sourceCount] as Uncertain;
  const results: Uncertain[] = [];
  for (let strategy = 0; strategy < strategyCount; strategy++) {
    // Two touches along each axis, each with its own scatter and the tip and the machine in common.
    const touch = (k: number) => sum([source(8 + 7 * strategy + 2 * k), source(9 + 7 * strategy + 2 * k), source(0), source(1)]);
    const zeroX = touch(0).plus(touch(1)).over(2);
    const zeroY = touch(2).plus(touch(3)).over(2);
    const turn = binary("arctangent2", touch(4).minus(touch(5)), certain(160));
    const [cosine, sine] = [unary("cosine", turn), unary("sine", turn)];
    for (let characteristic = 0; characteristic < characteristicCount; characteristic++) {
      const [x, y] = [5 + 3 * characteristic, 90 - 2 * characteristic];
      const cut = source(2 + (characteristic % 6));
      results.push(
        characteristic % 2 === 0
          ? zeroX.plus(cosine.times(x)).minus(sine.times(y)).minus(x).plus(cut)
          : zeroY.plus(sine.times(x)).plus(cosine.times(y)).minus(y).plus(cut),
      );
    }
  }
  return results;
}

function sourceNumber(index: number): Source {
  return {
    id: `source ${index}`,
    label: `source ${index}`,
    family: "part",
    estimate: 0,
    distribution: { shape: "normal", standardDeviation: 0.001 + 1e-5 * index },
    degreesOfFreedom: Number.POSITIVE_INFINITY,
    evidence: { kind: "stated" },
  };
}
