import fc from "fast-check";
import { type OffsetRow, offsetKinds } from "../../lib/equipment/offsetLog.ts";
import { registerOf } from "../../lib/offsets/offsetRegister.ts";
import { certain, type Uncertain } from "../../lib/uncertainty/uncertain.ts";

/** A row of a log before it has a name. */
export interface LoggedRow {
  readonly kind: OffsetRow["kind"];
  readonly register?: string;
  /** X, Y, Z and turn. */
  readonly values?: readonly (Uncertain | number | undefined)[];
  readonly nest?: string;
  readonly restores?: string;
  readonly unread?: boolean;
}

/** Rows called r1, r2, … */
export function logOf(rows: readonly LoggedRow[]): OffsetRow[] {
  return rows.map(({ kind, register, values = [], nest = "", restores = "", unread = false }, i) => ({
    id: `r${i + 1}`,
    kind,
    register,
    values: [0, 1, 2, 3].map((k) => {
      const value = values[k];
      return typeof value === "number" ? certain(value) : value;
    }) as unknown as OffsetRow["values"],
    nest,
    restores,
    rests: undefined,
    why: "",
    when: "",
    who: "",
    unread,
  }));
}

const values = fc.tuple(
  ...[0, 1, 2].map(() => fc.option(fc.double({ min: -3000, max: 3000, noNaN: true }), { nil: undefined })),
  fc.option(fc.double({ min: -1, max: 1, noNaN: true }), { nil: undefined }),
);

/** Logs of up to `most` rows over a few registers, with restores of any earlier row. */
export function randomLogs(most: number): fc.Arbitrary<LoggedRow[]> {
  const row = fc.record({
    kind: fc.constantFrom(...offsetKinds),
    register: fc.constantFrom(1, 2, 7, 12).map((number) => registerOf(number)?.name as string),
    values,
    back: fc.nat(most),
    everything: fc.boolean(),
  });
  return fc.array(row, { minLength: 1, maxLength: most }).map((rows) =>
    rows.map(({ kind, register, values, back, everything }, i): LoggedRow => {
      if (kind === "restore") {
        if (i === 0) return { kind: "correction", register, values };
        return { kind, restores: `r${1 + (back % i)}`, ...(everything ? {} : { register }) };
      }
      return kind === "global shift" ? { kind, values } : { kind, register, values };
    }),
  );
}

/** Tables of measured zeros, one row for each register of RS274/NGC and some beyond. */
export const randomZeros: fc.Arbitrary<LoggedRow[]> = fc
  .uniqueArray(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 6 })
  .chain((numbers) =>
    fc.tuple(
      ...numbers.map((number) =>
        fc
          .tuple(...[0, 1, 2].map(() => fc.option(fc.double({ min: -5000, max: 5000, noNaN: true }), { nil: undefined, freq: 8 })))
          .map((values): LoggedRow => ({ kind: "measured zero", register: registerOf(number)?.name as string, values })),
      ),
    ),
  );
