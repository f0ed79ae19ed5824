import { axes } from "../base/vector.ts";
import type { OffsetHistory, OffsetTable } from "../offsets/offsetHistory.ts";
import type { OffsetsEvaluation } from "../offsets/offsetTable.ts";
import type { RegisterFact } from "./slipFacts.ts";

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
