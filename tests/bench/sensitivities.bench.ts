import type { Source } from "../../lib/uncertainty/source.ts";
import { Tape } from "../../lib/uncertainty/tape.ts";
import { binary, fromSource, type Uncertain } from "../../lib/uncertainty/uncertain.ts";
import type { Benchmark } from "./benchmark.ts";

const sourceCount = 60;
const resultCount = 200;

/** Two ways to the same derivatives: forward rows on the tape, and central differences, which only need its values. */
const sensitivities: Benchmark = {
  name: "Sensitivities of a part's features",
  work: `${resultCount} results by ${sourceCount} sources, tape laid out anew`,
  sides: [
    { name: "forward rows", prepare: () => ({ run: () => forwardRows(features()) }) },
    { name: "central differences", prepare: () => ({ run: () => centralDifferences(features()) }) },
  ],
};
export default sensitivities;

/** Distances between features whose two coordinates each sum up several sources, as turned and shifted holes do. */
function features(): Uncertain[] {
  const sources = Array.from({ length: sourceCount }, (_, index) => fromSource(sourceNumber(index)));
  const coordinate = (from: number) =>
    [0, 7, 13, 29].map((step) => sources[(from + step) % sourceCount] as Uncertain).reduce((total, term) => total.plus(term));
  return Array.from({ length: resultCount }, (_, index) => binary("hypotenuse", coordinate(index), coordinate(index + 31)));
}

function sourceNumber(index: number): Source {
  return {
    id: `source ${index}`,
    label: `source ${index}`,
    family: "part",
    estimate: 10 + index,
    distribution: { shape: "normal", standardDeviation: 0.01 },
    degreesOfFreedom: Number.POSITIVE_INFINITY,
    evidence: { kind: "stated" },
  };
}

function forwardRows(results: readonly Uncertain[]): Float64Array[] {
  const tape = new Tape(results);
  return results.map((_, index) => tape.sensitivities(index));
}

/** Two trials for each source: a step up and a step down, mm. */
function centralDifferences(results: readonly Uncertain[]): Float64Array[] {
  const step = 1e-4;
  const tape = new Tape(results);
  const trials = 2 * tape.sources.length;
  const draws = tape.sources.map(({ estimate }, source) => {
    const column = new Float64Array(trials).fill(estimate);
    column[2 * source] = estimate + step;
    column[2 * source + 1] = estimate - step;
    return column;
  });
  return tape
    .evaluate(draws, trials)
    .map((column) => Float64Array.from(tape.sources, (_, source) => (column[2 * source]! - column[2 * source + 1]!) / (2 * step)));
}
