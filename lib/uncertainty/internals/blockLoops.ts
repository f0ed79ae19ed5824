import { arctangent2, cosine, sine } from "./smallAngles.ts";

/**
 * What is done with whole columns of a block. Each loop stands by itself, so that it is compiled for its one operation, and takes four trials in a
 * round, because a round costs as much as the operation: `count` is a multiple of `trialsPerRound`.
 */
export const trialsPerRound = 4;

type Column = Float64Array;
export type UnaryLoop = (to: Column, x: Column, count: number) => void;
export type BinaryLoop = (to: Column, x: Column, y: Column, count: number) => void;
export type NumberLoop = (to: Column, x: Column, number: number, count: number) => void;
export type PairLoop = (to: Column, a: Column, b: Column, c: Column, count: number) => void;
export type ProductsLoop = (to: Column, a: Column, b: Column, c: Column, d: Column, count: number) => void;

const unaryLoops = {
  negate(to: Column, x: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = -(x[i] as number);
      to[i + 1] = -(x[i + 1] as number);
      to[i + 2] = -(x[i + 2] as number);
      to[i + 3] = -(x[i + 3] as number);
    }
  },
  squareRoot(to: Column, x: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = Math.sqrt(x[i] as number);
      to[i + 1] = Math.sqrt(x[i + 1] as number);
      to[i + 2] = Math.sqrt(x[i + 2] as number);
      to[i + 3] = Math.sqrt(x[i + 3] as number);
    }
  },
  sine(to: Column, x: Column, count: number) {
    for (let i = 0; i < count; i++) to[i] = sine(x[i] as number);
  },
  cosine(to: Column, x: Column, count: number) {
    for (let i = 0; i < count; i++) to[i] = cosine(x[i] as number);
  },
};

/** With an operand that is the same in all trials. */
const numberLoops = {
  plusNumber(to: Column, x: Column, number: number, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (x[i] as number) + number;
      to[i + 1] = (x[i + 1] as number) + number;
      to[i + 2] = (x[i + 2] as number) + number;
      to[i + 3] = (x[i + 3] as number) + number;
    }
  },
  numberMinus(to: Column, x: Column, number: number, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = number - (x[i] as number);
      to[i + 1] = number - (x[i + 1] as number);
      to[i + 2] = number - (x[i + 2] as number);
      to[i + 3] = number - (x[i + 3] as number);
    }
  },
  timesNumber(to: Column, x: Column, number: number, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (x[i] as number) * number;
      to[i + 1] = (x[i + 1] as number) * number;
      to[i + 2] = (x[i + 2] as number) * number;
      to[i + 3] = (x[i + 3] as number) * number;
    }
  },
  overNumber(to: Column, x: Column, number: number, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (x[i] as number) / number;
      to[i + 1] = (x[i + 1] as number) / number;
      to[i + 2] = (x[i + 2] as number) / number;
      to[i + 3] = (x[i + 3] as number) / number;
    }
  },
};

const binaryLoops = {
  add(to: Column, x: Column, y: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (x[i] as number) + (y[i] as number);
      to[i + 1] = (x[i + 1] as number) + (y[i + 1] as number);
      to[i + 2] = (x[i + 2] as number) + (y[i + 2] as number);
      to[i + 3] = (x[i + 3] as number) + (y[i + 3] as number);
    }
  },
  subtract(to: Column, x: Column, y: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (x[i] as number) - (y[i] as number);
      to[i + 1] = (x[i + 1] as number) - (y[i + 1] as number);
      to[i + 2] = (x[i + 2] as number) - (y[i + 2] as number);
      to[i + 3] = (x[i + 3] as number) - (y[i + 3] as number);
    }
  },
  multiply(to: Column, x: Column, y: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (x[i] as number) * (y[i] as number);
      to[i + 1] = (x[i + 1] as number) * (y[i + 1] as number);
      to[i + 2] = (x[i + 2] as number) * (y[i + 2] as number);
      to[i + 3] = (x[i + 3] as number) * (y[i + 3] as number);
    }
  },
  divide(to: Column, x: Column, y: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (x[i] as number) / (y[i] as number);
      to[i + 1] = (x[i + 1] as number) / (y[i + 1] as number);
      to[i + 2] = (x[i + 2] as number) / (y[i + 2] as number);
      to[i + 3] = (x[i + 3] as number) / (y[i + 3] as number);
    }
  },
  hypotenuse(to: Column, x: Column, y: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = Math.sqrt((x[i] as number) * (x[i] as number) + (y[i] as number) * (y[i] as number));
      to[i + 1] = Math.sqrt((x[i + 1] as number) * (x[i + 1] as number) + (y[i + 1] as number) * (y[i + 1] as number));
      to[i + 2] = Math.sqrt((x[i + 2] as number) * (x[i + 2] as number) + (y[i + 2] as number) * (y[i + 2] as number));
      to[i + 3] = Math.sqrt((x[i + 3] as number) * (x[i + 3] as number) + (y[i + 3] as number) * (y[i + 3] as number));
    }
  },
  arctangent2(to: Column, y: Column, x: Column, count: number) {
    for (let i = 0; i < count; i++) to[i] = arctangent2(y[i] as number, x[i] as number);
  },
};

/** (a ∘ b) + c. */
const plusOther = {
  add(to: Column, a: Column, b: Column, c: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (a[i] as number) + (b[i] as number) + (c[i] as number);
      to[i + 1] = (a[i + 1] as number) + (b[i + 1] as number) + (c[i + 1] as number);
      to[i + 2] = (a[i + 2] as number) + (b[i + 2] as number) + (c[i + 2] as number);
      to[i + 3] = (a[i + 3] as number) + (b[i + 3] as number) + (c[i + 3] as number);
    }
  },
  subtract(to: Column, a: Column, b: Column, c: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (a[i] as number) - (b[i] as number) + (c[i] as number);
      to[i + 1] = (a[i + 1] as number) - (b[i + 1] as number) + (c[i + 1] as number);
      to[i + 2] = (a[i + 2] as number) - (b[i + 2] as number) + (c[i + 2] as number);
      to[i + 3] = (a[i + 3] as number) - (b[i + 3] as number) + (c[i + 3] as number);
    }
  },
  multiply(to: Column, a: Column, b: Column, c: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (a[i] as number) * (b[i] as number) + (c[i] as number);
      to[i + 1] = (a[i + 1] as number) * (b[i + 1] as number) + (c[i + 1] as number);
      to[i + 2] = (a[i + 2] as number) * (b[i + 2] as number) + (c[i + 2] as number);
      to[i + 3] = (a[i + 3] as number) * (b[i + 3] as number) + (c[i + 3] as number);
    }
  },
};

/** (a ∘ b) - c. */
const minusOther = {
  add(to: Column, a: Column, b: Column, c: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (a[i] as number) + (b[i] as number) - (c[i] as number);
      to[i + 1] = (a[i + 1] as number) + (b[i + 1] as number) - (c[i + 1] as number);
      to[i + 2] = (a[i + 2] as number) + (b[i + 2] as number) - (c[i + 2] as number);
      to[i + 3] = (a[i + 3] as number) + (b[i + 3] as number) - (c[i + 3] as number);
    }
  },
  subtract(to: Column, a: Column, b: Column, c: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (a[i] as number) - (b[i] as number) - (c[i] as number);
      to[i + 1] = (a[i + 1] as number) - (b[i + 1] as number) - (c[i + 1] as number);
      to[i + 2] = (a[i + 2] as number) - (b[i + 2] as number) - (c[i + 2] as number);
      to[i + 3] = (a[i + 3] as number) - (b[i + 3] as number) - (c[i + 3] as number);
    }
  },
  multiply(to: Column, a: Column, b: Column, c: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (a[i] as number) * (b[i] as number) - (c[i] as number);
      to[i + 1] = (a[i + 1] as number) * (b[i + 1] as number) - (c[i + 1] as number);
      to[i + 2] = (a[i + 2] as number) * (b[i + 2] as number) - (c[i + 2] as number);
      to[i + 3] = (a[i + 3] as number) * (b[i + 3] as number) - (c[i + 3] as number);
    }
  },
};

/** c - (a ∘ b). */
const otherMinus = {
  add(to: Column, a: Column, b: Column, c: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (c[i] as number) - ((a[i] as number) + (b[i] as number));
      to[i + 1] = (c[i + 1] as number) - ((a[i + 1] as number) + (b[i + 1] as number));
      to[i + 2] = (c[i + 2] as number) - ((a[i + 2] as number) + (b[i + 2] as number));
      to[i + 3] = (c[i + 3] as number) - ((a[i + 3] as number) + (b[i + 3] as number));
    }
  },
  subtract(to: Column, a: Column, b: Column, c: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (c[i] as number) - ((a[i] as number) - (b[i] as number));
      to[i + 1] = (c[i + 1] as number) - ((a[i + 1] as number) - (b[i + 1] as number));
      to[i + 2] = (c[i + 2] as number) - ((a[i + 2] as number) - (b[i + 2] as number));
      to[i + 3] = (c[i + 3] as number) - ((a[i + 3] as number) - (b[i + 3] as number));
    }
  },
  multiply(to: Column, a: Column, b: Column, c: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (c[i] as number) - (a[i] as number) * (b[i] as number);
      to[i + 1] = (c[i + 1] as number) - (a[i + 1] as number) * (b[i + 1] as number);
      to[i + 2] = (c[i + 2] as number) - (a[i + 2] as number) * (b[i + 2] as number);
      to[i + 3] = (c[i + 3] as number) - (a[i + 3] as number) * (b[i + 3] as number);
    }
  },
};

/** Two products at once. */
const productLoops = {
  add(to: Column, a: Column, b: Column, c: Column, d: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (a[i] as number) * (b[i] as number) + (c[i] as number) * (d[i] as number);
      to[i + 1] = (a[i + 1] as number) * (b[i + 1] as number) + (c[i + 1] as number) * (d[i + 1] as number);
      to[i + 2] = (a[i + 2] as number) * (b[i + 2] as number) + (c[i + 2] as number) * (d[i + 2] as number);
      to[i + 3] = (a[i + 3] as number) * (b[i + 3] as number) + (c[i + 3] as number) * (d[i + 3] as number);
    }
  },
  subtract(to: Column, a: Column, b: Column, c: Column, d: Column, count: number) {
    for (let i = 0; i < count; i += 4) {
      to[i] = (a[i] as number) * (b[i] as number) - (c[i] as number) * (d[i] as number);
      to[i + 1] = (a[i + 1] as number) * (b[i + 1] as number) - (c[i + 1] as number) * (d[i + 1] as number);
      to[i + 2] = (a[i + 2] as number) * (b[i + 2] as number) - (c[i + 2] as number) * (d[i + 2] as number);
      to[i + 3] = (a[i + 3] as number) * (b[i + 3] as number) - (c[i + 3] as number) * (d[i + 3] as number);
    }
  },
};

/** Every loop there is, by what it does. */
export interface BlockLoops {
  readonly unary: typeof unaryLoops;
  readonly number: typeof numberLoops;
  readonly binary: typeof binaryLoops;
  readonly plusOther: typeof plusOther;
  readonly minusOther: typeof minusOther;
  readonly otherMinus: typeof otherMinus;
  readonly products: typeof productLoops;
}

export const plainLoops: BlockLoops = {
  unary: unaryLoops,
  number: numberLoops,
  binary: binaryLoops,
  plusOther,
  minusOther,
  otherMinus,
  products: productLoops,
};
