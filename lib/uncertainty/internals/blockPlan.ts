import { trialsPerRound } from "./blockLoops.ts";
import { type BlockPass, operandsOfPass, passesOf } from "./blockPass.ts";
import type { Step } from "./step.ts";

/** Columns whose distance is a power of two would share the same few lines of the cache. */
const padding = 16;

/**
 * How the steps of a computation are done for a block of trials: in which passes, and which column each writes. A column is used again once no later
 * pass and no result needs it, so that a long computation works in the memory of a short one; the sources bring their own, unless those are too short.
 */
export class BlockPlan {
  readonly count: number;
  /** Length of the columns; what lies beyond `count` is never looked at. */
  readonly width: number;
  readonly passes: readonly BlockPass[];
  readonly outputSteps: readonly number[];
  /** Numbers in all columns together. */
  readonly room: number;
  /** Of every pass, which column is its own; -1 where it has none. */
  private readonly columns: Int32Array;
  private readonly stride: number;

  constructor(steps: readonly Step[], outputSteps: readonly number[], count: number) {
    this.count = count;
    this.width = Math.ceil(count / trialsPerRound) * trialsPerRound;
    this.stride = this.width + padding;
    this.passes = passesOf(steps, outputSteps);
    this.outputSteps = outputSteps;
    const { columns, made } = assignColumns(this.passes, outputSteps, this.width > count);
    this.columns = columns;
    this.room = made * this.stride;
  }

  /** The column of every pass in a room of `room` numbers, constants filled in. */
  columnsIn(room: Float64Array): Float64Array[] {
    return this.passes.map((pass, position) => {
      const from = (this.columns[position] as number) * this.stride;
      const column = from < 0 ? emptyColumn : room.subarray(from, from + this.width);
      return pass.kind === "constant" ? column.fill(pass.value) : column;
    });
  }
}

const emptyColumn = new Float64Array(0);

function assignColumns(
  passes: readonly BlockPass[],
  outputSteps: readonly number[],
  withSources: boolean,
): { readonly columns: Int32Array; readonly made: number } {
  const last = new Int32Array(passes.length);
  passes.forEach((pass, position) => {
    for (const operand of operandsOfPass(pass)) last[operand] = position;
  });
  for (const output of outputSteps) last[output] = passes.length;
  const free: number[] = [];
  const columns = new Int32Array(passes.length);
  let made = 0;
  const take = () => free.pop() ?? made++;
  passes.forEach((pass, position) => {
    const { kind } = pass;
    // Constants are written once, for all blocks.
    columns[position] = kind === "constant" ? made++ : (kind === "source" && !withSources) || kind === "absorbed" ? -1 : take();
    for (const operand of new Set(operandsOfPass(pass)))
      if (last[operand] === position && passes[operand]?.kind !== "constant" && (columns[operand] as number) >= 0)
        free.push(columns[operand] as number);
    if (last[position] === 0 && kind !== "constant" && (columns[position] as number) >= 0) free.push(columns[position] as number);
  });
  return { columns, made };
}
