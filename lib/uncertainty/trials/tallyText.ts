import { messageOf } from "../../base/messageOf.ts";
import { failure, type Outcome, success } from "../../base/outcome.ts";
import { emptyTally, type OutputTally, TrialTally, tallyCells } from "./trialTally.ts";

const format = "datumbook trials";
const version = 1;

/** A tally as JSON text: the file that one shard of a study leaves for the others. */
export function writeTally(tally: TrialTally): string {
  const outputs = tally.outputs.map(({ counts, sum, squares, least, most, ...rest }) => ({
    ...rest,
    sum: String(sum),
    squares: String(squares),
    least: Number.isFinite(least) ? least : null,
    most: Number.isFinite(most) ? most : null,
    cells: [...counts.entries()].filter(([, count]) => count > 0),
  }));
  const { fingerprint, seed, trials, ranges } = tally;
  return `${JSON.stringify({ format, version, fingerprint, seed, trials, blocks: ranges, outputs })}\n`;
}

/** The tally that the text holds, or what is wrong with it. */
export function readTally(text: string): Outcome<TrialTally> {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    return refused("", "this is not JSON text", messageOf(error));
  }
  const file = value as Partial<TallyFile> | null;
  if (file?.format !== format || file.version !== version)
    return refused("format", "this is not a file of trials that can be read", `${file?.format} ${file?.version}`);
  try {
    return success(restored(file as TallyFile));
  } catch (error) {
    return refused("", "this file of trials is damaged", messageOf(error));
  }
}

interface TallyFile {
  readonly format: string;
  readonly version: number;
  readonly fingerprint: string;
  readonly seed: number;
  readonly trials: number;
  readonly blocks: readonly (readonly [number, number])[];
  readonly outputs: readonly OutputFile[];
}

type OutputFile = Pick<OutputTally, "name" | "centre" | "scale" | "failed" | "below" | "above"> & {
  readonly sum: string;
  readonly squares: string;
  readonly least: number | null;
  readonly most: number | null;
  readonly cells: readonly (readonly [number, number])[];
};

function restored({ fingerprint, seed, trials, blocks, outputs }: TallyFile): TrialTally {
  const tally = new TrialTally({ fingerprint: text(fingerprint), seed: whole(seed), outputs: [] });
  const read = outputs.map(restoredOutput);
  for (const { failed, below, above, counts } of read)
    if (counts.reduce((total, each) => total + each, failed + below + above) !== trials)
      throw new RangeError("the counts do not add up to the trials");
  Object.assign(tally, { trials: whole(trials), ranges: blocks.map(([from, to]) => [whole(from), whole(to)] as const), outputs: read });
  return tally;
}

function restoredOutput({ name, centre, scale, failed, below, above, sum, squares, least, most, cells }: OutputFile): OutputTally {
  const tally = emptyTally(text(name), finite(centre), finite(scale));
  for (const [cell, count] of cells) {
    if (!(whole(cell) < tallyCells)) throw new RangeError(`cell: expected one below ${tallyCells}, got ${cell}`);
    tally.counts[cell] = whole(count);
  }
  return Object.assign(tally, {
    failed: whole(failed),
    below: whole(below),
    above: whole(above),
    sum: BigInt(sum),
    squares: BigInt(squares),
    least: least === null ? Number.POSITIVE_INFINITY : finite(least),
    most: most === null ? Number.NEGATIVE_INFINITY : finite(most),
  });
}

function text(value: unknown): string {
  if (typeof value !== "string") throw new RangeError(`expected a text, got ${value}`);
  return value;
}

function finite(value: unknown): number {
  if (typeof value !== "number" || !Number.isFinite(value)) throw new RangeError(`expected a number, got ${value}`);
  return value;
}

function whole(value: unknown): number {
  if (!(Number.isSafeInteger(value) && (value as number) >= 0)) throw new RangeError(`expected a whole number of 0 or more, got ${value}`);
  return value as number;
}

function refused(at: string, what: string, got: string): Outcome<never> {
  return failure({ at, what, got, remedy: "choose a file that a shard of the same study has written" });
}
