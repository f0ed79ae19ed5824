import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { radialDistribution } from "../../lib/uncertainty/radialDistribution.ts";
import { Tape } from "../../lib/uncertainty/tape.ts";
import { type Linearised, refineLinear } from "../../lib/uncertainty/trials/refineLinear.ts";
import { runUntilSteady } from "../../lib/uncertainty/trials/runTrials.ts";
import { TrialModel } from "../../lib/uncertainty/trials/trialModel.ts";
import type { TrialTally } from "../../lib/uncertainty/trials/trialTally.ts";
import type { Uncertain } from "../../lib/uncertainty/uncertain.ts";
import type { Benchmark } from "./benchmark.ts";
import { descriptionOf, isPosition, type ModelDescription, type ModelName, resultsOf, trialOutputsOf } from "./models.ts";
import { numpySide } from "./numpySide.ts";
import { processorTime } from "./processorTime.ts";

const probability = 0.95;
const digits = 2;
const mostTrials = 1e7;

/** Time until every result is known to two digits of its uncertainty (JCGM 101:2008, 7.9). */
function untilSteady(name: ModelName): Benchmark {
  const description = descriptionOf(name);
  return {
    name: `Model ${name} to the numerical tolerance of JCGM 101`,
    work: `mean, standard uncertainty and ${100 * probability} % interval of ${description.results.length} results, ${digits} digits; processor time`,
    sides: [
      { name: "exact linear distribution, refined", prepare: () => processorTime(() => refinedIntervals(description)) },
      { name: "trials until steady", prepare: () => steadySide(description) },
      { name: "numpy, same rule", prepare: () => numpySide({ do: "until steady", model: description, trials: mostTrials }) },
    ],
    rounds: 5,
  };
}

const steady: readonly Benchmark[] = [untilSteady("L"), untilSteady("N")];
export default steady;

function steadySide(description: ModelDescription) {
  let seed = 0;
  let last: TrialTally | undefined;
  return processorTime(
    () => {
      seed += 1;
      const model = new TrialModel(trialOutputsOf(description), seed);
      for (const { tally } of runUntilSteady(model, { probability, digits, mostTrials })) last = tally;
    },
    () => `${last?.trials.toExponential(2)} trials in the last round`,
  );
}

/** The interval of every result: exact for its linear form, with the bend of the model from a few thousand Sobol points. */
function refinedIntervals(description: ModelDescription): (readonly [number, number])[] {
  return refineLinear(linearised(description), 1).map(({ distribution }) => distribution.interval(probability, "symmetric"));
}

/** A position uses the two results before it as its components. */
function linearised(description: ModelDescription): Linearised[] {
  const results = [...resultsOf(description)];
  const values = results.map(([, value]) => value);
  const tape = new Tape(values);
  const shapes = tape.sources.map(({ distribution }) => distribution);
  const row = (output: number) => tape.sensitivities(output);
  return results.map(([name, value], k): Linearised => {
    if (!isPosition(name)) {
      const terms = shapes.map((distribution, i) => ({ coefficient: row(k)[i] as number, distribution }));
      return { components: [value], linear: linearDistribution(value.value, terms) };
    }
    const [x, y] = [k - 2, k - 1];
    // The diameter is twice the distance: twice the coordinates.
    const terms = shapes.map((distribution, i) => ({
      coefficient: [2 * (row(x)[i] as number), 2 * (row(y)[i] as number)] as const,
      distribution,
    }));
    const [dx, dy] = [values[x] as Uncertain, values[y] as Uncertain];
    return { components: [dx, dy], linear: radialDistribution([2 * dx.value, 2 * dy.value], terms) };
  });
}
