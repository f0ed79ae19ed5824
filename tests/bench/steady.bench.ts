import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { numericalTolerance } from "../../lib/uncertainty/numericalTolerance.ts";
import { radialDistribution } from "../../lib/uncertainty/radialDistribution.ts";
import { Tape } from "../../lib/uncertainty/tape.ts";
import { type Linearised, type Refined, refineLinear } from "../../lib/uncertainty/trials/refineLinear.ts";
import { runUntilSteady } from "../../lib/uncertainty/trials/runTrials.ts";
import { TrialModel } from "../../lib/uncertainty/trials/trialModel.ts";
import type { TrialTally } from "../../lib/uncertainty/trials/trialTally.ts";
import type { Uncertain } from "../../lib/uncertainty/uncertain.ts";
import intervalEnds from "../reference/intervalEnds.json" with { type: "json" };
import type { Benchmark } from "./benchmark.ts";
import { descriptionOf, isPosition, type ModelDescription, type ModelName, resultsOf, trialOutputsOf } from "./models.ts";
import { numpySide } from "./numpySide.ts";
import { processorTime } from "./processorTime.ts";

const probability = 0.95;
const digits = 2;
const mostTrials = 1e7;

/**
 * Time until both ends of the interval of every result are known to two digits of its uncertainty (JCGM 101:2008, 7.9), from the model as values
 * on, which numpy too has compiled before. The ends are compared with those of many more trials, in units of that tolerance.
 */
function untilSteady(name: ModelName, wanted = ""): Benchmark {
  const description = descriptionOf(name);
  return {
    name: `Model ${name} to the numerical tolerance of JCGM 101${wanted}`,
    work: `${100 * probability} % interval of ${description.results.length} results, ${digits} digits; processor time`,
    sides: [
      { name: "exact linear distribution, refined", prepare: () => refinedSide(name, description) },
      { name: "trials until steady", prepare: () => steadySide(description) },
      { name: "numpy, same rule", prepare: () => numpySide({ do: "until steady", model: description, trials: mostTrials, share: 1 }) },
    ],
    rounds: 5,
  };
}

/**
 * The same to a fifth of the tolerance, which a check of first order wants (JCGM 101:2008, 8.2) and which the ends of the refined distribution keep: how
 * many trials the tolerance itself takes depends on whether the uncertainties happen to begin with a 1 or with a 9.
 */
function untilChecked(name: ModelName, wanted: string): Benchmark {
  const description = descriptionOf(name);
  return {
    name: `Model ${name} to a fifth of that tolerance, as clause 8.2 wants it${wanted}`,
    work: `${100 * probability} % interval of ${description.results.length} results; processor time`,
    sides: [
      { name: "exact linear distribution, refined", prepare: () => refinedSide(name, description) },
      {
        name: "numpy, same rule",
        prepare: () => numpySide({ do: "until steady", model: description, trials: 25 * mostTrials, share: checkedShare }),
      },
    ],
    rounds: 1,
  };
}

const checkedShare = 1 / 5;
const steady: readonly Benchmark[] = [
  untilSteady("L", "; wanted: numpy x 100"),
  untilSteady("N"),
  untilChecked("N", "; wanted: numpy x 300"),
];
export default steady;

function steadySide(description: ModelDescription) {
  let seed = 0;
  let last: TrialTally | undefined;
  const outputs = trialOutputsOf(description);
  return processorTime(
    () => {
      seed += 1;
      const model = new TrialModel(outputs, seed);
      for (const { tally } of runUntilSteady(model, { probability, digits, mostTrials })) last = tally;
    },
    () => `${last?.trials.toExponential(2)} trials in the last round`,
  );
}

/** From numpy's generator: tests/reference/intervalEnds.py. */
const reference: { readonly trials: number; readonly models: Readonly<Record<string, EndsByName>> } = intervalEnds;
type EndsByName = Readonly<Record<string, readonly number[]>>;

/** The interval of every result: exact for its linear form, with the bend of the model from a few thousand Sobol points. */
function refinedSide(name: string, description: ModelDescription) {
  const results = [...resultsOf(description)];
  let found: Refined[] = [];
  return processorTime(
    () => {
      found = refineLinear(linearised(results), 1);
      for (const { distribution } of found) distribution.interval(probability, "symmetric");
    },
    () => {
      const off = found.map(({ distribution }, k) => {
        const ends = reference.models[name]?.[(results[k] as Named)[0]] as readonly [number, number];
        const tolerance = numericalTolerance((ends[1] - ends[0]) / 2 / 1.96, digits);
        return (
          Math.max(...distribution.interval(probability, "symmetric").map((end, i) => Math.abs(end - (ends[i] as number)))) / tolerance
        );
      });
      return `ends off by ${Math.max(...off).toPrecision(2)} of the tolerance at most, from ${reference.trials.toExponential(0)} trials of numpy, which scatter themselves`;
    },
    repeats,
  );
}

/** What takes less than a millisecond is done so many times for one measure. */
const repeats = 5;

type Named = readonly [name: string, value: Uncertain];

/** A position uses the two results before it as its components. */
function linearised(results: readonly Named[]): Linearised[] {
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
