import type { Uncertain } from "../uncertainty/uncertain.ts";

/** Doubts of cells that go together with sources of the setup, which are made after them. */
export interface CellDoubts {
  /** By source. */
  readonly values: ReadonlyMap<string, CellDoubt>;
  /** Whether something that is stated of one cannot be used: what the setup's sources are without it would be wrong. */
  readonly isUnusable: boolean;
}

/** The doubt that a cell states. */
export interface CellDoubt {
  /** As it would be if nothing went together with it. */
  readonly alone: Uncertain;
  /** As the cell has it: made of what it has in common with other cells. */
  readonly value: Uncertain;
}

/** Of cells that have nothing to do with the setup. */
export const noCellDoubts: CellDoubts = { values: new Map(), isUnusable: false };
