/**
 * Writes WebAssembly (W3C, WebAssembly Core Specification 2.0; opcodes from its appendix): only what the kernels of trials need. A piece of
 * code is a list of bytes, and an instruction is a function of its operands that puts its opcode behind them, as a stack machine wants it, so that code
 * reads like the expression that it computes.
 */
export type Code = readonly number[];

export type ValueType = "i32" | "f64" | "v128";

/** Where a value is kept in a kernel: parameters come first, in their order, then the others. */
export interface Local {
  readonly index: number;
}

/** A function of a module that gives nothing back: it works on the memory. */
export interface WasmKernel {
  readonly name: string;
  readonly parameters: readonly ValueType[];
  readonly locals: readonly ValueType[];
  readonly body: Code;
}

const typeCodes: Readonly<Record<ValueType, number>> = { i32: 0x7f, f64: 0x7c, v128: 0x7b };

type Instruction = (...operands: readonly Code[]) => Code;

function instruction(...opcode: readonly number[]): Instruction {
  return (...operands) => ([] as number[]).concat(...operands, opcode);
}

/** One of the instructions on 128 bits, which stand behind a prefix. */
function vector(opcode: number): Instruction {
  return instruction(0xfd, ...unsigned(opcode));
}

function load(opcode: Code, alignment: number): (address: Code, offset?: number) => Code {
  return (address, offset = 0) => [...address, ...opcode, alignment, ...unsigned(offset)];
}

function store(opcode: Code, alignment: number): (address: Code, value: Code, offset?: number) => Code {
  return (address, value, offset = 0) => [...address, ...value, ...opcode, alignment, ...unsigned(offset)];
}

export const get = (local: Local): Code => [0x20, ...unsigned(local.index)];
export const set = (local: Local, value: Code): Code => [...value, 0x21, ...unsigned(local.index)];

export const i32 = {
  const: (value: number): Code => [0x41, ...signed(value)],
  lessUnsigned: instruction(0x49),
  add: instruction(0x6a),
};

export const i32x4 = {
  splat: vector(0x11),
  lane: (vectorOf: Code, lane: number): Code => [...vectorOf, 0xfd, 0x1b, lane],
  shiftLeft: vector(0xab),
  shiftRight: vector(0xad),
  multiply: vector(0xb5),
  /** Two numbers without their fractions as the two lower words; the upper ones become 0. */
  fromNumbers: vector(0xfc),
};

export const i64x2 = { shiftRight: vector(0xcd) };

export const f64 = { const: (value: number): Code => [0x44, ...new Uint8Array(Float64Array.of(value).buffer)] };

export const f64x2 = {
  splat: vector(0x14),
  negate: vector(0xed),
  squareRoot: vector(0xef),
  add: vector(0xf0),
  subtract: vector(0xf1),
  multiply: vector(0xf2),
  divide: vector(0xf3),
  /** The second where it is less, or greater; the first otherwise, and where either is no number. */
  lesser: vector(0xf6),
  greater: vector(0xf7),
  /** Of the two lower words of four, as signed numbers. */
  fromLowWords: vector(0xfe),
};

export const v128 = {
  load: load([0xfd, 0x00], 3),
  /** Two words into the lower half; the upper one becomes 0. */
  loadLow: load([0xfd, 0x5d], 2),
  store: store([0xfd, 0x0b], 3),
  and: vector(0x4e),
  or: vector(0x50),
  exclusiveOr: vector(0x51),
  /** Two numbers out of the four of two vectors, counted through both. */
  pick: (a: Code, b: Code, lanes: readonly [number, number]): Code => [
    ...a,
    ...b,
    0xfd,
    0x0d,
    ...lanes.flatMap((lane) => Array.from({ length: 8 }, (_, byte) => lane * 8 + byte)),
  ],
};

/** Does the body again as long as the condition, asked at its end, is not 0. */
export function repeatWhile(body: Code, condition: Code): Code {
  return [0x03, 0x40, ...body, ...condition, 0x0d, 0, 0x0b];
}

/** A module of kernels that works on a memory which is handed in as `host.memory`. */
export function wasmModule(kernels: readonly WasmKernel[]): Uint8Array<ArrayBuffer> {
  const types = kernels.map(({ parameters }): Code => [0x60, ...list(parameters.map((type) => [typeCodes[type]])), 0]);
  const memory: Code = [...text("host"), ...text("memory"), 2, 0, 1];
  const names = kernels.map(({ name }, k): Code => [...text(name), 0, ...unsigned(k)]);
  const bodies = kernels.map(({ locals, body }): Code => {
    const code = [...list(locals.map((type) => [1, typeCodes[type]])), ...body, 0x0b];
    return [...unsigned(code.length), ...code];
  });
  return new Uint8Array([
    ...[0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00],
    ...section(1, list(types)),
    ...section(2, list([memory])),
    ...section(3, list(kernels.map((_, k) => unsigned(k)))),
    ...section(7, list(names)),
    ...section(10, list(bodies)),
  ]);
}

function section(id: number, content: Code): Code {
  return [id, ...unsigned(content.length), ...content];
}

function list(items: readonly Code[]): Code {
  return [...unsigned(items.length), ...items.flat()];
}

function text(letters: string): Code {
  return list([...letters].map((letter) => [letter.charCodeAt(0)]));
}

/** LEB128: seven bits to a byte, the lowest first. */
function unsigned(value: number): number[] {
  return value < 128 ? [value] : [(value & 127) | 128, ...unsigned(value >>> 7)];
}

/** The same of a signed number: it ends where the rest is only its sign. */
function signed(value: number): number[] {
  return value >= -64 && value < 64 ? [value & 127] : [(value & 127) | 128, ...signed(value >> 7)];
}
