import type { Uncertain } from "../uncertainty/uncertain.ts";

/** What a row of the log states. */
export const offsetKinds = ["measured zero", "correction", "local shift", "global shift", "restore"] as const;
export type OffsetKind = (typeof offsetKinds)[number];

/** What a measured zero rests on, where it is stated: touches of its own, or those of this setup, which it then says nothing new of. */
export const offsetRests = ["on other touches", "on the touches here"] as const;
export type OffsetRests = (typeof offsetRests)[number];

/** What a register holds of, mm and radians: X, Y and Z of part zero in the machine, and the turn of the coordinates about Z. */
export const offsetCoordinates = ["X", "Y", "Z", "turn"] as const;
export type OffsetCoordinate = (typeof offsetCoordinates)[number];
export type PerCoordinate<T> = readonly [T, T, T, T];

/** One row of the log, read. Rows are only ever added: nothing is overwritten. */
export interface OffsetRow {
  readonly id: string;
  readonly kind: OffsetKind;
  /** By name, as `readRegister` gives it. Undefined for a global shift, and for a restore of everything. */
  readonly register: string | undefined;
  /** X, Y, Z in mm, the turn in radians; undefined where the row says nothing. */
  readonly values: PerCoordinate<Uncertain | undefined>;
  /** Local shift: the nest or second part that it is for; empty for none. */
  readonly nest: string;
  /** Restore: the row after which the table stood as it is to stand again. */
  readonly restores: string;
  /** Measured zero: undefined where nobody says. */
  readonly rests: OffsetRests | undefined;
  /** Why, when and by whom, as typed. */
  readonly why: string;
  readonly when: string;
  readonly who: string;
  /** Whether something in it could not be read: what it did is then unknown, and so is every sum that it may have changed. */
  readonly unread: boolean;
}
