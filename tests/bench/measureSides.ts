import type { Benchmark, Prepared, SelfTimed, Timed } from "./benchmark.ts";

export interface Spread {
  readonly median: number;
  readonly minimum: number;
  readonly maximum: number;
}

export type SideResult =
  | {
      readonly side: string;
      /** Of one run, ms. */
      readonly time: Spread;
      /** How many times as long as the first side in the same round; 1 for the first side. */
      readonly ratio: Spread;
      readonly note?: string;
    }
  | { readonly side: string; readonly notRun: string };

const usualRounds = 7;
/** A side that takes longer than this for one of its steps has hung, ms. */
const longestStep = 30 * 60_000;

/**
 * Times the sides in interleaved rounds (A B C A B C ...). The machine's speed drifts, by heat and by other
 * people's work, so that only times of one round may be compared: a ratio is taken inside its round, and
 * the median over the rounds.
 *
 * @param now a clock, ms
 * @param longest how long any side may take to be ready, or for one run, ms
 * @throws RangeError if there is no side or no round, or if the first side cannot be run
 * @throws Error that names the side and what it was at, if that takes longer
 */
export async function measureSides(
  benchmark: Benchmark,
  now: () => number = () => performance.now(),
  longest = longestStep,
): Promise<SideResult[]> {
  const { sides, rounds = usualRounds } = benchmark;
  if (sides.length === 0) throw new RangeError("sides: expected at least one, got none");
  if (!(Number.isInteger(rounds) && rounds >= 1)) throw new RangeError(`rounds: expected a whole number from 1, got ${rounds}`);

  const prepared: Prepared[] = [];
  try {
    for (const side of sides) prepared.push(await within(longest, `"${side.name}" to be ready`, side.prepare()));
    if (!canRun(prepared[0])) throw new RangeError("sides: expected the first to run, since ratios are taken against it");
    const times: number[][] = sides.map(() => []);
    for (let round = 0; round <= rounds; round++) {
      for (const [index, side] of prepared.entries()) {
        if (!canRun(side)) continue;
        const time = await within(longest, `round ${round} of "${sides[index]?.name}"`, timeOf(side, now));
        // Round 0 warms caches and compilers up.
        if (round > 0) times[index]?.push(time);
      }
    }
    return sides.map(({ name }, index) => resultOf(name, prepared[index] as Prepared, times[index] ?? [], times[0] ?? []));
  } finally {
    for (const side of prepared) if (canRun(side)) await side.close?.();
  }
}

async function within<T>(limit: number, what: string, coming: T | Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`waited ${limit / 1000} s in vain for ${what}`)), limit);
  });
  try {
    return await Promise.race([coming, late]);
  } finally {
    clearTimeout(timer);
  }
}

function canRun(side: Prepared | undefined): side is Timed | SelfTimed {
  return side !== undefined && !("notRun" in side);
}

async function timeOf(side: Timed | SelfTimed, now: () => number): Promise<number> {
  if ("measure" in side) return side.measure();
  const start = now();
  const result = side.run();
  if (result instanceof Promise) await result;
  return now() - start;
}

function resultOf(side: string, prepared: Prepared, times: readonly number[], first: readonly number[]): SideResult {
  if (!canRun(prepared)) return { side, notRun: prepared.notRun };
  const note = prepared.note?.();
  return {
    side,
    time: spreadOf(times),
    ratio: spreadOf(times.map((time, round) => time / (first[round] as number))),
    ...(note ? { note } : {}),
  };
}

/** Not empty: at least one round counts. */
function spreadOf(values: readonly number[]): Spread {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (index: number) => sorted[index] as number;
  const last = sorted.length - 1;
  return { median: (at(Math.floor(last / 2)) + at(Math.ceil(last / 2))) / 2, minimum: at(0), maximum: at(last) };
}
