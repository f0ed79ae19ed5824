import { type Axis, axes } from "../base/vector.ts";
import type { NestPlace } from "../equipment/nestPlace.ts";
import type { OffsetHistory, OffsetTable } from "../offsets/offsetHistory.ts";
import type { OffsetsEvaluation } from "../offsets/offsetTable.ts";
import { type Budget, budgetsOf } from "../uncertainty/budget.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { estimateOf } from "./estimate.ts";
import type { NestShiftFact, RegisterFact, ShiftFact } from "./slipFacts.ts";

/**
 * What the log of offsets says of registers: the last measured zero of each, axis by axis, beside what stood there and in the others before; and the
 * register that the programme calls, where nobody ever wrote it.
 *
 * @param called the register of the zero in use
 */
export function registersOf(offsets: OffsetsEvaluation, called: string): RegisterFact[] {
  const { history, registers } = offsets;
  const written = registers.flatMap(({ register }) => lastWritten(register, history));
  return registers.some(({ register }) => register === called)
    ? written
    : [...written, { at: "machine.register", register: called, called: true, written: undefined, others: [] }];
}

function lastWritten(register: string, { rows, tables }: OffsetHistory): RegisterFact[] {
  const last = rows.findLastIndex((row) => row.kind === "measured zero" && row.register === register && !row.unread);
  const [row, before] = [rows[last], tables[last - 1]];
  if (row === undefined || before === undefined) return [];
  return axes.flatMap((_, i): RegisterFact[] => {
    const value = row.values[i as 0 | 1 | 2]?.value;
    const own = measuredIn(before, register, i);
    if (value === undefined || own === undefined) return [];
    const others = [...before.registers.keys()].flatMap((other) => {
      const held = other === register ? undefined : measuredIn(before, other, i);
      return held === undefined ? [] : [{ register: other, before: held }];
    });
    return [{ at: `offsets.${row.id}`, register, called: false, written: { value, before: own }, others }];
  });
}

function measuredIn({ registers }: OffsetTable, register: string, axis: number): number | undefined {
  return registers.get(register)?.measured[axis as 0 | 1 | 2]?.value.value;
}

/**
 * What is in force beyond what the registers hold: of every register its local shift, and the global one, which moves all of them. A local shift that names what it
 * is for is asked for; nothing asks for a global one.
 */
export function shiftsOf({ history, registers }: OffsetsEvaluation): ShiftFact[] {
  const table = history.tables.at(-1);
  if (table === undefined) return [];
  const local = [...table.registers].flatMap(([register, { localShift, unread }]) =>
    unread.length > 0 ? [] : inForce(localShift).map((each) => ({ ...each, register, nestActive: isForNest(register) })),
  );
  const global =
    table.unread.length > 0 ? [] : inForce(table.globalShift).map((each) => ({ ...each, register: "every register", nestActive: false }));
  const all = [...local, ...global];
  const budgets = budgetsOf(all.map(({ value }) => value));
  return all.map(({ row, register, axis, nestActive }, i) => ({
    at: `offsets.${row}`,
    register,
    axis,
    remaining: estimateOf(budgets[i] as (typeof budgets)[number]),
    nestActive,
  }));

  function isForNest(name: string): boolean {
    return registers.find(({ register }) => register === name)?.nest !== "";
  }
}

function inForce(shift: OffsetTable["globalShift"]): { readonly row: string; readonly axis: Axis; readonly value: Uncertain }[] {
  return axes.flatMap((axis, i) => {
    const entry = shift[i as 0 | 1 | 2];
    return entry === undefined ? [] : [{ row: entry.row, axis, value: entry.value }];
  });
}

/**
 * Shifts of nests beside their pitch as drawn: those that are logged and in force, and places where nests were found, which are told from the first nest.
 *
 * @param zero X and Y of part zero in the machine, for places that stand in no register
 */
export function nestShiftsOf(
  nests: readonly NestPlace[],
  offsets: OffsetsEvaluation | undefined,
  zero: readonly (Budget | undefined)[],
): NestShiftFact[] {
  const pitchOf = new Map(nests.map(({ id, nominal }) => [id, nominal]));
  const logged = (offsets?.registers ?? []).flatMap(({ nest, coordinates }): NestShiftFact[] =>
    inPlane.flatMap((axis, i): NestShiftFact[] => {
      const { measured, localShift } = coordinates[i as 0 | 1];
      const pitch = pitchOf.get(nest)?.[i];
      if (pitch === undefined || measured === undefined || localShift === undefined) return [];
      return [nestShift(`offsets.${localShift.row}`, axis, localShift.budget, pitch, measured.budget)];
    }),
  );
  const places = nests.flatMap(({ id, found, nominal }) =>
    inPlane.map((axis, i) => ({ id, axis, i, value: found?.[i], pitch: nominal[i] as number })),
  );
  const known = places.flatMap(({ value, ...place }) => (value === undefined ? [] : [{ ...place, value }]));
  const budgets = budgetsOf(known.map(({ value }) => value));
  const found = known.flatMap(({ id, axis, i, pitch }, k): NestShiftFact[] => {
    const measured = zero[i];
    return measured === undefined ? [] : [nestShift(`nests.${id}.found${axis}`, axis, budgets[k] as Budget, pitch, measured)];
  });
  return [...logged, ...found];
}

const inPlane = ["X", "Y"] as const;

function nestShift(at: string, axis: Axis, shift: Budget, pitch: number, zero: Budget): NestShiftFact {
  return {
    at,
    axis,
    shift: shift.value,
    pitch,
    measuredZero: zero.value,
    standardUncertainty: Math.hypot(shift.standardUncertainty, zero.standardUncertainty),
  };
}
