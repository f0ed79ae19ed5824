/**
 * Ways to do the same work, timed against each other. A file `tests/bench/NAME.bench.ts` exports one, or several, as its
 * default; `npm run bench` finds it by its name.
 */
export interface Benchmark {
  /** What is compared, as a heading. */
  readonly name: string;
  /** What one run does, with its sizes: `600 derivatives of 200 results`. Every side must do just this. */
  readonly work: string;
  /** Ratios are taken against the first. */
  readonly sides: readonly Side[];
  /** How many rounds count, after one that does not; 7 unless said. */
  readonly rounds?: number;
}

export interface Side {
  readonly name: string;
  /** Makes the side ready, untimed: builds, compiles, starts a browser or another process. */
  prepare(): Prepared | Promise<Prepared>;
}

export type Prepared = Timed | SelfTimed | NotRun;

/** Work in this process, timed from outside. It should last at least a millisecond: repeat inside what is quicker. */
export interface Timed {
  run(): unknown;
  /** What else is to be told of the runs, once they are over: how far off a result was, for instance. Nothing if empty. */
  note?(): string;
  close?(): void | Promise<void>;
}

/** Work elsewhere (a page, another process) that times itself, so that the way there does not count. */
export interface SelfTimed {
  /** @returns how long one run took, ms */
  measure(): number | Promise<number>;
  /** As of `Timed`. */
  note?(): string;
  close?(): void | Promise<void>;
}

/** A side that this machine cannot run; the report says why. */
export interface NotRun {
  readonly notRun: string;
}
