import type { AxisSigns } from "../part/partLies.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";

/** One of several operations on the same part. */
export interface Operation {
  readonly id: string;
  /** Which axes of the drawing point against the machine's here. */
  readonly signs: AxisSigns;
  readonly earlier: EarlierWork;
  /** The sources of all operations: what they share is one source. */
  readonly book: SourceBook;
}

/**
 * What the operations before this one have left on the part. It is a part of the workpiece here: how far it is off its place on the drawing is a size
 * like any other, except that its doubt is made of the sources of the operation that has cut it.
 */
export interface EarlierWork {
  /** In the axes of this operation. */
  readonly sizes: readonly EarlierSize[];
  /** By element: the key of the size that tells how it is turned about Z, where that is in doubt. */
  readonly turns: ReadonlyMap<string, string>;
}

export interface EarlierSize {
  /** By which it is found, apart from every name in a document; `id` is what a person reads. */
  readonly key: string;
  readonly id: string;
  /** Place on the drawing, mm; 0 for a turn. */
  readonly nominal: number;
  /** Along which it is a place; undefined for a turn about Z. */
  readonly axis: 0 | 1 | 2 | undefined;
  /** How far it is off in a part of the batch, and in this part by what its own operation has found: mm, or radians for a turn. */
  readonly batch: Uncertain;
  readonly thisPart: Uncertain;
}

export const nothingEarlier: EarlierWork = { sizes: [], turns: new Map() };
