import { BlockEvaluator } from "../internals/blockEvaluator.ts";
import type { BlockPlan } from "../internals/blockPlan.ts";
import { wordsOfName } from "../internals/wordsOfName.ts";
import { plainKernels } from "../kernels/blockKernels.ts";
import { borrowWorkspace } from "../kernels/workspace.ts";
import { Tape } from "../tape.ts";
import type { Uncertain } from "../uncertain.ts";
import { BlockSampler } from "./blockSampler.ts";
import { blockSize } from "./blockWords.ts";

/** A result that trials look at. */
export interface TrialOutput {
  readonly name: string;
  readonly value: Uncertain;
  /** Where its values are expected, and a length of the order of their standard deviation, above 0: both only place the cells in which values are counted. */
  readonly centre: number;
  readonly scale: number;
}

/**
 * Some results with all that they depend on, ready to be tried: every trial draws all sources and computes the whole chain anew; fits are
 * solved again, nothing is linearised (JCGM 101:2008, 5.4 and 7). A block of trials depends on seed and number alone, so that any machine may do any of them.
 */
export class TrialModel {
  readonly outputs: readonly TrialOutput[];
  readonly seed: number;
  /** Tells this computation from any other: two tallies with different fingerprints must not be put together. */
  readonly fingerprint: string;
  private readonly tape: Tape;
  private readonly plan: BlockPlan;
  private readonly usesWorkspace: boolean;
  private bench: Bench | undefined;

  /**
   * @param options.usesWorkspace whether the kernels of `borrowWorkspace` compute, where there are any (true unless given); the values are the same
   * @throws RangeError for a seed that is not an unsigned 32-bit integer, a scale not above 0, or two outputs of one name
   */
  constructor(outputs: readonly TrialOutput[], seed: number, { usesWorkspace = true }: TrialOptions = {}) {
    const names = new Set<string>();
    for (const { name, scale, centre } of outputs) {
      if (!(scale > 0 && Number.isFinite(scale) && Number.isFinite(centre)))
        throw new RangeError(`${name}: expected a finite centre and a scale above 0, got ${centre} and ${scale}`);
      if (names.has(name)) throw new RangeError(`name: expected each once, got "${name}" twice`);
      names.add(name);
    }
    this.outputs = outputs;
    this.seed = seed;
    this.tape = new Tape(outputs.map(({ value }) => value));
    this.plan = this.tape.planFor(blockSize);
    this.usesWorkspace = usesWorkspace;
    this.fingerprint = fingerprintOf(outputs, this.tape, seed);
  }

  /**
   * The results of a block of trials, one column of `blockSize` values each; NaN where the model has no value. Written over by the next call, of
   * this model or of another.
   */
  runBlock(block: number): readonly Float64Array[] {
    if (this.bench?.isMine() !== true) this.bench = this.newBench();
    const { sampler, evaluator } = this.bench;
    return evaluator.evaluate(sampler.fill(block));
  }

  get sources(): Tape["sources"] {
    return this.tape.sources;
  }

  private newBench(): Bench {
    const { plan, seed } = this;
    const { sources } = this.tape;
    const loan = this.usesWorkspace ? borrowWorkspace(BlockSampler.roomFor(sources) + plan.room) : undefined;
    const kernels = loan?.kernels ?? plainKernels;
    return {
      sampler: new BlockSampler(sources, seed, { kernels }),
      evaluator: new BlockEvaluator(plan, kernels),
      isMine: loan?.isMine ?? (() => true),
    };
  }
}

export interface TrialOptions {
  readonly usesWorkspace?: boolean;
}

/** What computes the blocks, until somebody else has borrowed the memory in which it does. */
interface Bench {
  readonly sampler: BlockSampler;
  readonly evaluator: BlockEvaluator;
  readonly isMine: () => boolean;
}

/** How words are drawn: with another way of doing it, the same block would hold other trials. */
const drawing = "four lanes of xoshiro128**, seeded by philox";

/** Of a value in a fingerprint: its last digits may depend on the engine's sine and square root. */
const toldDigits = 9;

function fingerprintOf(outputs: readonly TrialOutput[], { sources }: Tape, seed: number): string {
  const told = JSON.stringify([
    drawing,
    seed,
    outputs.map(({ name, value, centre, scale }) => [name, value.value.toPrecision(toldDigits), centre, scale]),
    sources.map(({ id, estimate, distribution, varianceEstimate }) => [id, estimate, distribution, varianceEstimate]),
  ]);
  return wordsOfName(told)
    .map((word) => word.toString(16).padStart(8, "0"))
    .join("");
}
