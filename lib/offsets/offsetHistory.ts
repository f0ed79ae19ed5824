import { type OffsetRow, offsetCoordinates, type PerCoordinate } from "../equipment/offsetLog.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";

/** A value of the table, and the row that it comes from. */
export interface LoggedValue {
  readonly row: string;
  readonly value: Uncertain;
}

/** What the log has put into one register. */
export interface RegisterState {
  /** Taken from touches, the last one for each coordinate. */
  readonly measured: PerCoordinate<LoggedValue | undefined>;
  /** All since the last measured zero, which has ended those before it. */
  readonly corrections: PerCoordinate<readonly LoggedValue[]>;
  /** The last one for each coordinate. */
  readonly localShift: PerCoordinate<LoggedValue | undefined>;
  /** Unreadable rows that may have changed it. */
  readonly unread: readonly string[];
}

/** The offsets after a row of the log. */
export interface OffsetTable {
  /** By name, in the order in which the log first names them. */
  readonly registers: ReadonlyMap<string, RegisterState>;
  /** Of all registers, the last one for each coordinate. */
  readonly globalShift: PerCoordinate<LoggedValue | undefined>;
  /** Unreadable rows that may have changed the global shift. */
  readonly unread: readonly string[];
}

export interface OffsetHistory {
  readonly rows: readonly OffsetRow[];
  /** The table as it was after each row. */
  readonly tables: readonly OffsetTable[];
  /** What a row has done beyond what it says. */
  readonly notes: readonly OffsetNote[];
}

export interface OffsetNote {
  readonly row: string;
  /** A sentence with its full stop. */
  readonly text: string;
}

const none: PerCoordinate<undefined> = [undefined, undefined, undefined, undefined];
const untouched: RegisterState = { measured: none, corrections: [[], [], [], []], localShift: none, unread: [] };
const emptyTable: OffsetTable = { registers: new Map(), globalShift: none, unread: [] };

/**
 * The table after every row of the log: the log folded from its beginning.
 *
 * - A _measured zero_ takes the place of the one before it, for the coordinates that it states. It is a new touch, so what was corrected before
 *   has gone into it: those corrections end.
 * - A _correction_ is added to the corrections before it.
 * - A _local shift_ (for a second part or a nest) and the _global shift_ take the place of the one before.
 * - A _restore_ makes the table, or one register of it, what it was after an earlier row. That row and all between stay in the log.
 */
export function offsetHistory(rows: readonly OffsetRow[]): OffsetHistory {
  const tables: OffsetTable[] = [];
  const notes: OffsetNote[] = [];
  // Of two rows with one name the first is meant; the second is refused where it stands.
  const placeOf = new Map(rows.map(({ id }, i) => [id, i] as const).reverse());
  let table = emptyTable;
  for (const row of rows) {
    notes.push(...notesOn(row, table));
    table = afterRow(table, row, () => tables[placeOf.get(row.restores) ?? -1]);
    tables.push(table);
  }
  return { rows, tables, notes };
}

function afterRow(table: OffsetTable, row: OffsetRow, earlier: () => OffsetTable | undefined): OffsetTable {
  const { id, kind, register } = row;
  if (row.unread) return withDoubtOf(table, row);
  if (kind === "restore") return restored(table, row, earlier());
  if (kind === "global shift") return { ...table, globalShift: replaced(table.globalShift, row) };
  if (register === undefined) throw new Error(`offsetHistory: expected a register in row "${id}"`);
  const state = table.registers.get(register) ?? untouched;
  return { ...table, registers: new Map(table.registers).set(register, changed(state, row)) };
}

function changed(state: RegisterState, row: OffsetRow): RegisterState {
  const { id, kind, values } = row;
  const each = <T, U>(list: PerCoordinate<T>, change: (before: T, value: Uncertain | undefined) => U): PerCoordinate<U> =>
    list.map((before, i) => change(before, values[i as 0 | 1 | 2 | 3])) as unknown as PerCoordinate<U>;
  switch (kind) {
    case "measured zero":
      return {
        ...state,
        measured: replaced(state.measured, row),
        corrections: each(state.corrections, (before, value) => (value === undefined ? before : [])),
      };
    case "correction":
      return {
        ...state,
        corrections: each(state.corrections, (before, value) => (value === undefined ? before : [...before, { row: id, value }])),
      };
    case "local shift":
      return { ...state, localShift: replaced(state.localShift, row) };
    default:
      return state;
  }
}

function replaced(before: PerCoordinate<LoggedValue | undefined>, { id, values }: OffsetRow): PerCoordinate<LoggedValue | undefined> {
  return before.map((entry, i) => {
    const value = values[i as 0 | 1 | 2 | 3];
    return value === undefined ? entry : { row: id, value };
  }) as unknown as PerCoordinate<LoggedValue | undefined>;
}

function restored(table: OffsetTable, { id, register }: OffsetRow, earlier: OffsetTable | undefined): OffsetTable {
  if (earlier === undefined) throw new Error(`offsetHistory: expected row "${id}" to restore an earlier row`);
  if (register === undefined) return earlier;
  const registers = new Map(table.registers);
  const state = earlier.registers.get(register);
  if (state === undefined) registers.delete(register);
  else registers.set(register, state);
  return { ...table, registers };
}

/** What an unreadable row may have changed is not known from there on. Where its register cannot be read either, that is everything. */
function withDoubtOf(table: OffsetTable, { id, kind, register }: OffsetRow): OffsetTable {
  const doubted = (state: RegisterState): RegisterState => ({ ...state, unread: [...state.unread, id] });
  if (kind === "global shift") return { ...table, unread: [...table.unread, id] };
  if (register !== undefined)
    return { ...table, registers: new Map(table.registers).set(register, doubted(table.registers.get(register) ?? untouched)) };
  return { ...table, unread: [...table.unread, id] };
}

function notesOn({ id, kind, register, values, unread }: OffsetRow, { registers }: OffsetTable): OffsetNote[] {
  const state = register === undefined ? undefined : registers.get(register);
  if (unread || kind !== "measured zero" || state === undefined) return [];
  const ended = offsetCoordinates.flatMap((coordinate, i) => {
    const corrections = state.corrections[i as 0 | 1 | 2 | 3];
    return values[i as 0 | 1 | 2 | 3] === undefined || corrections.length === 0
      ? []
      : [`${coordinate} ${corrections.map(({ row }) => `"${row}"`).join(", ")}`];
  });
  return ended.length === 0
    ? []
    : [{ row: id, text: `This zero of ${register} was measured anew, so that the corrections before it have ended: ${ended.join("; ")}.` }];
}

/** The sum of the entries, without doubt 0 for none. */
export function sumOfEntries(entries: readonly (LoggedValue | undefined)[]): Uncertain {
  return entries.reduce((total, entry) => (entry === undefined ? total : total.plus(entry.value)), certain(0));
}
