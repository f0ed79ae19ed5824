import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { type OffsetCoordinate, type OffsetRow, offsetCoordinates, type PerCoordinate } from "../equipment/offsetLog.ts";
import { type Budget, budgetsTogether } from "../uncertainty/budget.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import {
  type LoggedValue,
  type OffsetHistory,
  type OffsetTable,
  offsetHistory,
  type RegisterState,
  sumOfEntries,
} from "./offsetHistory.ts";

/** A value of the table with its doubt, and the row that it comes from. */
export interface OffsetPart {
  readonly row: string;
  readonly budget: Budget;
}

/** One coordinate of a register: X, Y, Z in mm, the turn in radians. */
export interface CoordinateInForce {
  readonly coordinate: OffsetCoordinate;
  readonly measured: OffsetPart | undefined;
  readonly corrections: readonly OffsetPart[];
  readonly localShift: OffsetPart | undefined;
  readonly globalShift: OffsetPart | undefined;
  /** Whether the measured zero brings its doubt along. Where it does not, that of the sums is only what the other rows state. */
  readonly doubtStated: boolean;
  /** Measured zero and corrections: what the register itself holds. */
  readonly held: Outcome<Budget>;
  /** The same with both shifts: where part zero is when the machine works. A turn that nobody measured is 0. */
  readonly sum: Outcome<Budget>;
}

export interface RegisterInForce {
  readonly register: string;
  readonly coordinates: PerCoordinate<CoordinateInForce>;
  /** The nest or second part that the local shift is for; empty where the shift names none, or where there is none. */
  readonly nest: string;
}

/** The offsets as they are after the last row of the log, or after an earlier one. */
export interface OffsetsInForce {
  /** By name, in the order in which the log names them. */
  readonly registers: readonly RegisterInForce[];
  readonly globalShift: PerCoordinate<OffsetPart | undefined>;
}

/** What a person has logged of the offsets, and what is in force by it. */
export interface OffsetsEvaluation extends OffsetsInForce {
  readonly history: OffsetHistory;
  /** Worth a second look: a global shift that is on, a local shift that no nest asks for. */
  readonly findings: readonly Problem[];
}

/**
 * The sum in force of every register, and what it is made of. Where the machine stands when the programme says 0 is, along each axis of the machine,
 * measured zero + corrections + local shift + global shift (RS274/NGC knows the first and the last: NISTIR 6556, 3.5.13 and 3.5.18). Both shifts
 * are along the machine's axes, whatever the turn.
 *
 * Undefined where nothing is logged.
 */
export function evaluateOffsets(log: readonly OffsetRow[]): OffsetsEvaluation | undefined {
  if (log.length === 0) return undefined;
  const history = offsetHistory(log);
  const table = history.tables.at(-1) as OffsetTable;
  return { history, ...offsetsInForce(table, history.rows), findings: findingsOf(table, history.rows) };
}

/** The offsets as they were after a row of the log; undefined where there is no such row. */
export function offsetsAfter({ rows, tables }: OffsetHistory, row: string): OffsetsInForce | undefined {
  const table = tables[rows.findIndex(({ id }) => id === row)];
  return table && offsetsInForce(table, rows);
}

/** What a sum is made of, in the order in which it is added; shifts of 0 are none. */
export function partsOf({
  measured,
  corrections,
  localShift,
  globalShift,
}: CoordinateInForce): { readonly words: string; readonly part: OffsetPart }[] {
  const shift = (words: string, part: OffsetPart | undefined) => (part === undefined || part.budget.value === 0 ? [] : [{ words, part }]);
  return [
    ...(measured === undefined ? [] : [{ words: "measured", part: measured }]),
    ...corrections.map((part) => ({ words: "correction", part })),
    ...shift("local shift", localShift),
    ...shift("global shift", globalShift),
  ];
}

function offsetsInForce(table: OffsetTable, rows: readonly OffsetRow[]): OffsetsInForce {
  const sums = [...table.registers].map(([register, state]) => ({ register, state, sums: sumsOf(state, table) }));
  const all = sums.flatMap(({ state, sums }) => [
    ...sums.flat(),
    ...[state.measured, state.localShift].flat().flatMap((entry) => entry?.value ?? []),
    ...state.corrections.flat().map(({ value }) => value),
  ]);
  const shifts = table.globalShift.flatMap((entry) => entry?.value ?? []);
  const budgetOf = budgetsTogether([...all, ...shifts]);
  const part = (entry: LoggedValue | undefined): OffsetPart | undefined => entry && { row: entry.row, budget: budgetOf(entry.value) };
  const globalShift = perCoordinate((i) => part(table.globalShift[i]));
  return {
    globalShift,
    registers: sums.map(({ register, state, sums }) => ({
      register,
      nest: nestOf(state, rows),
      coordinates: perCoordinate((i) => {
        const unknown = whyUnknown(register, state, table, i);
        const [held, sum] = sums[i];
        return {
          coordinate: offsetCoordinates[i],
          measured: part(state.measured[i]),
          doubtStated: (part(state.measured[i])?.budget.standardUncertainty ?? 0) > 0,
          corrections: state.corrections[i].map((entry) => part(entry) as OffsetPart),
          localShift: part(state.localShift[i]),
          globalShift: globalShift[i],
          held: unknown ? failure(unknown) : success(budgetOf(held)),
          sum: unknown ? failure(unknown) : success(budgetOf(sum)),
        };
      }),
    })),
  };
}

/** What the register holds, and the sum in force, of each coordinate. */
function sumsOf(state: RegisterState, { globalShift }: OffsetTable): PerCoordinate<readonly [held: Uncertain, sum: Uncertain]> {
  return perCoordinate((i) => {
    const held = sumOfEntries([state.measured[i], ...state.corrections[i]]);
    const shifts = sumOfEntries([state.localShift[i], globalShift[i]]);
    return [held, held.plus(shifts)];
  });
}

function perCoordinate<T>(make: (i: 0 | 1 | 2 | 3) => T): PerCoordinate<T> {
  return [make(0), make(1), make(2), make(3)];
}

function whyUnknown(register: string, state: RegisterState, table: OffsetTable, i: 0 | 1 | 2 | 3): Problem | undefined {
  const [row] = [...state.unread, ...table.unread];
  if (row !== undefined)
    return {
      at: `offsets.${row}`,
      what: `what is in force in ${register} is not known, because this row cannot be read`,
      remedy: "mend the row, or restore what was there before it",
    };
  const coordinate = offsetCoordinates[i];
  // A controller that was never told a turn turns nothing; an axis always holds something.
  if (state.measured[i] !== undefined || coordinate === "turn") return undefined;
  return {
    at: "offsets",
    what: `no row measures ${coordinate} of ${register}, so what is in force along it is not known`,
    remedy: `log the measured zero of ${register}`,
  };
}

/** Of the last row that has set a local shift which still counts and is not zero. */
function nestOf({ localShift }: RegisterState, rows: readonly OffsetRow[]): string {
  const from = new Set(localShift.flatMap((entry) => (entry === undefined || isZero(entry) ? [] : [entry.row])));
  return rows.findLast(({ id }) => from.has(id))?.nest ?? "";
}

function isZero({ value }: LoggedValue): boolean {
  return value.value === 0;
}

function findingsOf({ registers, globalShift }: OffsetTable, rows: readonly OffsetRow[]): Problem[] {
  const isOn = (list: PerCoordinate<LoggedValue | undefined>) =>
    list.flatMap((entry, i) =>
      entry === undefined || isZero(entry) ? [] : [{ row: entry.row, coordinate: offsetCoordinates[i as 0 | 1 | 2 | 3] }],
    );
  const along = (on: readonly { readonly coordinate: OffsetCoordinate }[]) => on.map(({ coordinate }) => coordinate).join(", ");
  const byRow = (on: ReturnType<typeof isOn>) => [...new Set(on.map(({ row }) => row))];
  const everywhere = isOn(globalShift);
  const global = byRow(everywhere).map((row) => ({
    at: `offsets.${row}`,
    what: `a global shift is on along ${along(everywhere.filter((each) => each.row === row))}: it moves every register`,
    remedy: "if it is not meant, take it away at the machine and log a global shift of 0",
  }));
  const local = [...registers].flatMap(([register, { localShift }]) => {
    const on = isOn(localShift);
    return byRow(on)
      .filter((row) => rows.find(({ id }) => id === row)?.nest === "")
      .map((row) => ({
        at: `offsets.${row}`,
        what: `a local shift is on in ${register} along ${along(on.filter((each) => each.row === row))}, and no nest is named that it is for`,
        remedy: "name the nest, or take the shift away at the machine and log a local shift of 0",
      }));
  });
  return [...global, ...local];
}
