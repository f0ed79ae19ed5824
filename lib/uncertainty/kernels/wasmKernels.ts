import {
  type Code,
  f64,
  f64x2,
  get,
  i32,
  i32x4,
  i64x2,
  type Local,
  repeatWhile,
  set,
  type ValueType,
  v128,
  type WasmKernel,
  wasmModule,
} from "./wasmCode.ts";

/**
 * The loops over columns of a block, as code of the processor, two trials at once: the same operations in the same order as the plain loops
 * (`blockLoops`, `xoshiroWords`, `QuantileTable`), which give the same bits. All take addresses in bytes: first where to write and where to end.
 */
export function kernelModule(): Uint8Array<ArrayBuffer> {
  return wasmModule([randomWords(), evenValues(), tabulatedValues(), survey(), cells(), ...columnKernels()]);
}

const { add, subtract, multiply, divide } = f64x2;

/** A table keeps its two halves so far apart, because that is where the sign of a word comes to stand in an address (`tabulatedValues`). */
export const halvesApart = 2 ** 20;
/** A cell of a table: four coefficients. */
const cellBytes = 32;
/**
 * What an address is too high by: the exponent of ½, the smallest word, as a double holds it (1023 more than it is), is that of the first
 * sixteen cells of a table.
 */
export const addressOfHalf = (1023 - 1) * 16 * cellBytes;

/** A kernel that goes through columns, in rounds of some trials each, until the place that it writes to has come to the end. */
class Loop {
  private readonly types: ValueType[] = [];
  private readonly declared: number;
  readonly to: Local;
  readonly end: Local;
  readonly parameters: readonly Local[];

  constructor(parameters: readonly ValueType[]) {
    this.to = this.local("i32");
    this.end = this.local("i32");
    this.parameters = parameters.map((type) => this.local(type));
    this.declared = this.types.length;
  }

  local(type: ValueType): Local {
    this.types.push(type);
    return { index: this.types.length - 1 };
  }

  /** @param step what `to` goes on by in a round; so do the others, by what stands beside them */
  kernel(name: string, { before = [], round, step, others = [], after = [] }: LoopParts): WasmKernel {
    const goOn = ([place, by]: readonly [Local, number]) => set(place, i32.add(get(place), i32.const(by)));
    const body = [...round, ...[[this.to, step] as const, ...others].flatMap(goOn)];
    return {
      name,
      parameters: this.types.slice(0, this.declared),
      locals: this.types.slice(this.declared),
      body: [...before, ...repeatWhile(body, i32.lessUnsigned(get(this.to), get(this.end))), ...after],
    };
  }
}

interface LoopParts {
  readonly before?: Code;
  readonly round: Code;
  readonly step: number;
  readonly others?: readonly (readonly [Local, number])[];
  readonly after?: Code;
}

/** Bytes of two trials. */
const pair = 16;

/** Four generators of xoshiro128** side by side, one to a lane; their states stand at `from`, first all first words. */
function randomWords(): WasmKernel {
  const loop = new Loop(["i32"]);
  const [from] = loop.parameters as [Local];
  const [a, b, c, d, shifted] = Array.from({ length: 5 }, () => loop.local("v128")) as [Local, Local, Local, Local, Local];
  const rotate = (value: Local, bits: number) =>
    v128.or(i32x4.shiftLeft(get(value), i32.const(bits)), i32x4.shiftRight(get(value), i32.const(32 - bits)));
  const times = (value: Code, factor: number) => i32x4.multiply(value, i32x4.splat(i32.const(factor)));
  const mix = (value: Local, by: Local) => set(value, v128.exclusiveOr(get(value), get(by)));
  const one = i32x4.splat(i32.const(1));
  return loop.kernel("randomWords", {
    // Not all four words of a state may be 0.
    before: [...[a, b, c, d].flatMap((word, k) => set(word, v128.load(get(from), 16 * k))), ...set(d, v128.or(get(d), one))],
    round: [
      ...set(shifted, times(get(b), 5)),
      ...v128.store(get(loop.to), times(rotate(shifted, 7), 9)),
      ...set(shifted, i32x4.shiftLeft(get(b), i32.const(9))),
      ...[mix(c, a), mix(d, b), mix(b, c), mix(a, d), mix(c, shifted)].flat(),
      ...set(d, rotate(d, 11)),
    ],
    step: 16,
  });
}

/** start + step · word. */
function evenValues(): WasmKernel {
  const loop = new Loop(["i32", "f64", "f64"]);
  const [words, start, step] = loop.parameters as [Local, Local, Local];
  const word = f64x2.fromLowWords(v128.loadLow(get(words)));
  const value = add(f64x2.splat(get(start)), multiply(f64x2.splat(get(step)), word));
  return loop.kernel("evenValues", { round: v128.store(get(loop.to), value), step: pair, others: [[words, 8]] });
}

/**
 * shift + scale · (the cubic of a word's cell). The upper bits of a word as a double, with a half added, are its sign, its octave and its
 * sixteenth of the octave: shifted, they are the place of the cell.
 */
function tabulatedValues(): WasmKernel {
  const loop = new Loop(["i32", "i32", "f64", "f64"]);
  const [words, table, scale, shift] = loop.parameters as [Local, Local, Local, Local];
  const [x, cells, half, mask] = Array.from({ length: 4 }, () => loop.local("v128")) as [Local, Local, Local, Local];
  // Of each of the two trials its cell, and there the two lower coefficients and the two upper ones.
  const trials = [0, 1].map((trial) => ({
    cellOffset: i32x4.lane(get(cells), 2 * trial),
    cell: loop.local("i32"),
    lower: loop.local("v128"),
    upper: loop.local("v128"),
  })) as [TabulatedTrial, TabulatedTrial];
  const coefficients = (["lower", "upper"] as const).flatMap((which) =>
    ([0, 1] as const).map((k) => v128.pick(get(trials[0][which]), get(trials[1][which]), [k, k + 2])),
  );
  const cubic = coefficients.reduceRight((sum, coefficient) => add(coefficient, multiply(get(x), sum)));
  return loop.kernel("tabulatedValues", {
    before: [...set(half, f64x2.splat(f64.const(0.5))), ...set(mask, i32x4.splat(i32.const(-cellBytes)))],
    round: [
      ...set(x, add(f64x2.fromLowWords(v128.loadLow(get(words))), get(half))),
      ...set(cells, v128.and(i64x2.shiftRight(get(x), i32.const(43)), get(mask))),
      ...trials.flatMap(({ cellOffset, cell, lower, upper }) => [
        ...set(cell, i32.add(get(table), cellOffset)),
        ...set(lower, v128.load(get(cell))),
        ...set(upper, v128.load(get(cell), 16)),
      ]),
      ...v128.store(get(loop.to), add(f64x2.splat(get(shift)), multiply(f64x2.splat(get(scale)), cubic))),
    ],
    step: pair,
    others: [[words, 8]],
  });
}

interface TabulatedTrial {
  readonly cellOffset: Code;
  readonly cell: Local;
  readonly lower: Local;
  readonly upper: Local;
}

/** How many numbers `survey` leaves. */
export const surveyLength = 16;

/** Of z = (value - centre) · perScale the sums and the sums of squares, then the least and the greatest values: four of each. */
function survey(): WasmKernel {
  const loop = new Loop(["i32", "f64", "f64"]);
  const [result, centre, perScale] = loop.parameters as [Local, Local, Local];
  const [value, z] = [loop.local("v128"), loop.local("v128")];
  // Two trials have sums of their own, so that no addition waits for the one before it.
  const halves = [0, pair].map((offset) => ({
    offset,
    sum: loop.local("v128"),
    squares: loop.local("v128"),
    least: loop.local("v128"),
    most: loop.local("v128"),
  }));
  const kept = (["sum", "squares", "least", "most"] as const).flatMap((name) => halves.map((half) => half[name]));
  return loop.kernel("survey", {
    before: halves.flatMap(({ least, most }) => [
      ...set(least, f64x2.splat(f64.const(Number.POSITIVE_INFINITY))),
      ...set(most, f64x2.splat(f64.const(Number.NEGATIVE_INFINITY))),
    ]),
    round: halves.flatMap(({ offset, sum, squares, least, most }) => [
      ...set(value, v128.load(get(loop.to), offset)),
      ...set(z, multiply(subtract(get(value), f64x2.splat(get(centre))), f64x2.splat(get(perScale)))),
      ...set(sum, add(get(sum), get(z))),
      ...set(squares, add(get(squares), multiply(get(z), get(z)))),
      ...set(least, f64x2.lesser(get(least), get(value))),
      ...set(most, f64x2.greater(get(most), get(value))),
    ]),
    step: 2 * pair,
    after: kept.flatMap((found, k) => v128.store(get(result), get(found), pair * k)),
  });
}

/** The whole number below middle + (value - centre) · perUnit, which is not below 0, as a word. */
function cells(): WasmKernel {
  const loop = new Loop(["i32", "f64", "f64", "f64"]);
  const [values, middle, centre, perUnit] = loop.parameters as [Local, Local, Local, Local];
  const cellsAt = (offset: number) =>
    i32x4.fromNumbers(
      add(
        f64x2.splat(get(middle)),
        multiply(subtract(v128.load(get(values), offset), f64x2.splat(get(centre))), f64x2.splat(get(perUnit))),
      ),
    );
  return loop.kernel("cells", {
    round: v128.store(get(loop.to), v128.pick(cellsAt(0), cellsAt(pair), [0, 2])),
    step: pair,
    others: [[values, 2 * pair]],
  });
}

/** Of columns, and of a number that is the same in all trials. */
type Operation = (columns: readonly [a: Code, b: Code, c: Code, d: Code], number: Code) => Code;

/** By name: how many columns it reads, and whether a number besides. */
const operations = {
  negate: [1, ([a]) => f64x2.negate(a)],
  squareRoot: [1, ([a]) => f64x2.squareRoot(a)],
  add: [2, ([a, b]) => add(a, b)],
  subtract: [2, ([a, b]) => subtract(a, b)],
  multiply: [2, ([a, b]) => multiply(a, b)],
  divide: [2, ([a, b]) => divide(a, b)],
  hypotenuse: [2, ([a, b]) => f64x2.squareRoot(add(multiply(a, a), multiply(b, b)))],
  addPlus: [3, ([a, b, c]) => add(add(a, b), c)],
  subtractPlus: [3, ([a, b, c]) => add(subtract(a, b), c)],
  multiplyPlus: [3, ([a, b, c]) => add(multiply(a, b), c)],
  addMinus: [3, ([a, b, c]) => subtract(add(a, b), c)],
  subtractMinus: [3, ([a, b, c]) => subtract(subtract(a, b), c)],
  multiplyMinus: [3, ([a, b, c]) => subtract(multiply(a, b), c)],
  minusAdd: [3, ([a, b, c]) => subtract(c, add(a, b))],
  minusSubtract: [3, ([a, b, c]) => subtract(c, subtract(a, b))],
  minusMultiply: [3, ([a, b, c]) => subtract(c, multiply(a, b))],
  addProducts: [4, ([a, b, c, d]) => add(multiply(a, b), multiply(c, d))],
  subtractProducts: [4, ([a, b, c, d]) => subtract(multiply(a, b), multiply(c, d))],
} as const satisfies Readonly<Record<string, readonly [columns: number, operation: Operation]>>;

const numberOperations = {
  plusNumber: ([a], number) => add(a, number),
  numberMinus: ([a], number) => subtract(number, a),
  timesNumber: ([a], number) => multiply(a, number),
  overNumber: ([a], number) => divide(a, number),
} as const satisfies Readonly<Record<string, Operation>>;

export type ColumnKernelName = keyof typeof operations;
export type NumberKernelName = keyof typeof numberOperations;

function columnKernels(): WasmKernel[] {
  return [
    ...Object.entries(operations).map(([name, [columns, operation]]) => columnKernel(name, columns, operation, false)),
    ...Object.entries(numberOperations).map(([name, operation]) => columnKernel(name, 1, operation, true)),
  ];
}

/** Four trials a round, as many as the plain loops take. */
function columnKernel(name: string, columns: number, operation: Operation, withNumber: boolean): WasmKernel {
  const loop = new Loop([...Array.from({ length: columns }, () => "i32" as const), ...(withNumber ? (["f64"] as const) : [])]);
  const operands = loop.parameters.slice(0, columns);
  const number = withNumber ? f64x2.splat(get(loop.parameters[columns] as Local)) : [];
  const round = [0, pair].flatMap((offset) => {
    const [a = [], b = [], c = [], d = []] = operands.map((operand) => v128.load(get(operand), offset));
    return v128.store(get(loop.to), operation([a, b, c, d], number), offset);
  });
  return loop.kernel(name, { round, step: 2 * pair, others: operands.map((operand) => [operand, 2 * pair]) });
}
