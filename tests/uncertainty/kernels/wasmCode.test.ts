import { expect, it } from "vitest";
import { f64, get, i32, repeatWhile, set, v128, wasmModule } from "../../../lib/uncertainty/kernels/wasmCode.ts";

// The numbers of the LEB128 examples in the DWARF 4 standard, figure 22 and 23 (from memory), behind the opcode of i32.const.
it.each([
  [2, [0x02]],
  [-2, [0x7e]],
  [127, [0xff, 0x00]],
  [-127, [0x81, 0x7f]],
  [128, [0x80, 0x01]],
  [-128, [0x80, 0x7f]],
  [129, [0x81, 0x01]],
  [-129, [0xff, 0x7e]],
])("i32.const(%d) is written in LEB128", (value, bytes) => {
  expect(i32.const(value)).toEqual([0x41, ...bytes]);
});

it("f64.const(value) is written as the eight bytes of the double, the lowest first (IEEE 754)", () => {
  expect(f64.const(0.5)).toEqual([0x44, 0, 0, 0, 0, 0, 0, 0xe0, 0x3f]);
});

it("wasmModule(kernels) is a module that the engine takes and runs on the memory which it is given", async () => {
  const [to, end, value] = [{ index: 0 }, { index: 1 }, { index: 2 }] as const;
  // Puts the two numbers at 0 into every sixteen bytes from `to` to `end`.
  const body = [
    ...set(value, v128.load(i32.const(0))),
    ...repeatWhile([...v128.store(get(to), get(value)), ...set(to, i32.add(get(to), i32.const(16)))], i32.lessUnsigned(get(to), get(end))),
  ];
  const memory = new WebAssembly.Memory({ initial: 1 });
  const module = wasmModule([{ name: "repeat", parameters: ["i32", "i32"], locals: ["v128"], body }]);
  const { instance } = await WebAssembly.instantiate(module, { host: { memory } });
  const numbers = new Float64Array(memory.buffer);
  numbers.set([3, 7]);
  (instance.exports["repeat"] as (to: number, end: number) => void)(16, 64);
  expect([...numbers.subarray(0, 10)]).toEqual([3, 7, 3, 7, 3, 7, 3, 7, 0, 0]);
});
