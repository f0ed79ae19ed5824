import {
  type BinaryLoop,
  type BlockLoops,
  type NumberLoop,
  type PairLoop,
  type ProductsLoop,
  plainLoops,
  type UnaryLoop,
} from "../internals/blockLoops.ts";
import { blockSize } from "../trials/blockWords.ts";
import { evenStart, QuantileTable, tableCells, type WordValues } from "../trials/quantileTable.ts";
import { type BlockKernels, plainKernels } from "./blockKernels.ts";
import type { ColumnSurvey } from "./columnSurvey.ts";
import { addressOfHalf, type ColumnKernelName, halvesApart, kernelModule, type NumberKernelName, surveyLength } from "./wasmKernels.ts";

/** What is used of WebAssembly (W3C, WebAssembly JavaScript Interface): every engine has it, and it can do nothing but compute. */
declare const WebAssembly:
  | {
      readonly Module: new (bytes: Uint8Array<ArrayBuffer>) => object;
      readonly Memory: new (size: { readonly initial: number }) => WasmMemory;
      readonly Instance: new (module: object, imports: { readonly host: { readonly memory: WasmMemory } }) => { readonly exports: unknown };
    }
  | undefined;

interface WasmMemory {
  readonly buffer: ArrayBuffer;
  grow(pages: number): number;
}

type Kernel = (to: number, end: number, ...operands: readonly number[]) => void;
type KernelName = ColumnKernelName | NumberKernelName | "randomWords" | "evenValues" | "tabulatedValues" | "survey" | "cells";

const pageBytes = 65536;
const bytesOfHalf = tableCells * 4 * 8;
/** Tables that have room before the halves of others begin. */
const mostTables = halvesApart / bytesOfHalf;
/** Tables first, both halves of all of them; then what is found of a column; then what is asked for. */
const surveyAt = 2 * halvesApart;
const cellsAt = surveyAt + 8 * surveyLength;
const firstFree = cellsAt + 4 * blockSize;

/**
 * A memory with the kernels that work on it. There is one for everything that runs in a thread, because an engine sets aside far more for each than
 * it holds; so it is lent, and whoever borrows it next writes over what was there.
 */
class Workspace implements BlockKernels {
  readonly loops: BlockLoops;
  private readonly memory: WasmMemory;
  private readonly kernels: Readonly<Record<KernelName, Kernel>>;
  private readonly tables = new Map<QuantileTable, number>();
  private found = new Float64Array(0);
  private cellsFound = new Int32Array(0);
  private free = firstFree;
  /** How many times it was lent. */
  loans = 0;

  constructor(memory: WasmMemory, kernels: Readonly<Record<KernelName, Kernel>>) {
    this.memory = memory;
    this.kernels = kernels;
    this.loops = loopsOf(kernels);
  }

  /** Makes room for so many numbers, and forgets whoever had it before. @throws RangeError where the machine has no such memory */
  lend(numbers: number): void {
    const missing = firstFree + 8 * numbers - this.memory.buffer.byteLength;
    if (missing > 0) this.memory.grow(Math.ceil(missing / pageBytes));
    // Growing leaves all earlier views without their memory.
    this.found = new Float64Array(this.memory.buffer, surveyAt, surveyLength);
    this.cellsFound = new Int32Array(this.memory.buffer, cellsAt, blockSize);
    this.loans += 1;
    this.free = firstFree;
  }

  numbers(length: number): Float64Array {
    return new Float64Array(this.memory.buffer, this.take(8 * length), length).fill(0);
  }

  words(length: number): Uint32Array {
    return new Uint32Array(this.memory.buffer, this.take(4 * length), length).fill(0);
  }

  fillWords(starts: Uint32Array, words: Uint32Array): void {
    this.kernels.randomWords(words.byteOffset, words.byteOffset + words.byteLength, starts.byteOffset);
  }

  fillValues(values: WordValues, words: Uint32Array, into: Float64Array, scale: number, shift: number): void {
    const to = into.byteOffset;
    const end = to + into.byteLength;
    if (values instanceof QuantileTable) {
      const table = this.tables.get(values) ?? this.place(values);
      this.kernels.tabulatedValues(to, end, words.byteOffset, table - addressOfHalf, scale, shift);
    } else {
      const { start, step } = evenStart(scale, shift);
      this.kernels.evenValues(to, end, words.byteOffset, start, step);
    }
  }

  survey(column: Float64Array, centre: number, perScale: number): ColumnSurvey {
    this.kernels.survey(column.byteOffset, column.byteOffset + column.byteLength, surveyAt, centre, perScale);
    const [a, b, c, d, e, f, g, h, least0, least1, least2, least3, most0, most1, most2, most3] = this.found as unknown as SurveyNumbers;
    return {
      sum: a + b + (c + d),
      squares: e + f + (g + h),
      least: Math.min(least0, least1, least2, least3),
      most: Math.max(most0, most1, most2, most3),
    };
  }

  cells(column: Float64Array, middle: number, centre: number, perUnit: number): Int32Array {
    this.kernels.cells(cellsAt, cellsAt + 4 * column.length, column.byteOffset, middle, centre, perUnit);
    return this.cellsFound;
  }

  /** Whether a column stands in this memory. */
  has(column: Float64Array): boolean {
    return column.buffer === this.memory.buffer;
  }

  private take(bytes: number): number {
    const at = this.free;
    this.free += Math.ceil(bytes / 64) * 64;
    return at;
  }

  private place(table: QuantileTable): number {
    // The next one that is needed comes back by itself.
    if (this.tables.size >= mostTables) this.tables.clear();
    const at = this.tables.size * bytesOfHalf;
    const { coefficients } = table;
    const half = coefficients.length / 2;
    new Float64Array(this.memory.buffer, at, half).set(coefficients.subarray(0, half));
    new Float64Array(this.memory.buffer, at + halvesApart, half).set(coefficients.subarray(half));
    this.tables.set(table, at);
    return at;
  }
}

type Four = readonly [number, number, number, number];
type SurveyNumbers = readonly [...sums: Four, ...squares: Four, ...least: Four, ...most: Four];

/** Undefined until it is first asked for; null where the engine, or the page's policy, has no use of it. */
let workspace: Workspace | null | undefined;

/** A loan of the workspace: it holds until the next. */
export interface Loan {
  readonly kernels: BlockKernels;
  /** Whether nobody has borrowed it since. */
  isMine(): boolean;
}

/** Borrows the memory, with room for so many numbers; undefined where there is none, and the plain kernels must do. */
export function borrowWorkspace(numbers: number): Loan | undefined {
  if (workspace === undefined) workspace = openWorkspace() ?? null;
  const lent = workspace;
  if (lent === null) return undefined;
  try {
    lent.lend(numbers);
  } catch {
    return undefined;
  }
  const loan = lent.loans;
  return { kernels: lent, isMine: () => lent.loans === loan };
}

/** The kernels that reach a column where it stands. */
export function kernelsAt(column: Float64Array): BlockKernels {
  return workspace?.has(column) ? workspace : plainKernels;
}

function openWorkspace(): Workspace | undefined {
  if (typeof WebAssembly === "undefined") return undefined;
  try {
    const memory = new WebAssembly.Memory({ initial: Math.ceil(firstFree / pageBytes) });
    const { exports } = new WebAssembly.Instance(new WebAssembly.Module(kernelModule()), { host: { memory } });
    return new Workspace(memory, exports as Readonly<Record<KernelName, Kernel>>);
  } catch {
    // A policy of the page forbids it, or the engine does not know these instructions.
    return undefined;
  }
}

function loopsOf(kernels: Readonly<Record<KernelName, Kernel>>): BlockLoops {
  const one = (name: ColumnKernelName): UnaryLoop => {
    const kernel = kernels[name];
    return (to, x, count) => kernel(to.byteOffset, to.byteOffset + 8 * count, x.byteOffset);
  };
  const withNumber = (name: NumberKernelName): NumberLoop => {
    const kernel = kernels[name];
    return (to, x, number, count) => kernel(to.byteOffset, to.byteOffset + 8 * count, x.byteOffset, number);
  };
  const two = (name: ColumnKernelName): BinaryLoop => {
    const kernel = kernels[name];
    return (to, x, y, count) => kernel(to.byteOffset, to.byteOffset + 8 * count, x.byteOffset, y.byteOffset);
  };
  const three = (name: ColumnKernelName): PairLoop => {
    const kernel = kernels[name];
    return (to, a, b, c, count) => kernel(to.byteOffset, to.byteOffset + 8 * count, a.byteOffset, b.byteOffset, c.byteOffset);
  };
  const four = (name: ColumnKernelName): ProductsLoop => {
    const kernel = kernels[name];
    return (to, a, b, c, d, count) =>
      kernel(to.byteOffset, to.byteOffset + 8 * count, a.byteOffset, b.byteOffset, c.byteOffset, d.byteOffset);
  };
  return {
    unary: { ...plainLoops.unary, negate: one("negate"), squareRoot: one("squareRoot") },
    number: {
      plusNumber: withNumber("plusNumber"),
      numberMinus: withNumber("numberMinus"),
      timesNumber: withNumber("timesNumber"),
      overNumber: withNumber("overNumber"),
    },
    binary: {
      ...plainLoops.binary,
      add: two("add"),
      subtract: two("subtract"),
      multiply: two("multiply"),
      divide: two("divide"),
      hypotenuse: two("hypotenuse"),
    },
    plusOther: { add: three("addPlus"), subtract: three("subtractPlus"), multiply: three("multiplyPlus") },
    minusOther: { add: three("addMinus"), subtract: three("subtractMinus"), multiply: three("multiplyMinus") },
    otherMinus: { add: three("minusAdd"), subtract: three("minusSubtract"), multiply: three("minusMultiply") },
    products: { add: four("addProducts"), subtract: four("subtractProducts") },
  };
}
