/** Doublings from the smallest chance, 2^-33, to a half. */
const octaves = 32;
/** Four bits after the first choose one of so many. */
const cellsPerOctave = 16;
/** Below this octave, for chances below 2^-28, a cell holds one word at most. */
const firstWide = 5;
/** Of one half. */
export const tableCells = octaves * cellsPerOctave;

/** What turns uniform random words into values of a distribution. */
export interface WordValues {
  /** Writes shift + scale · (the value of the word) for each word. */
  fill(words: Uint32Array, into: Float64Array, scale: number, shift: number): void;
}

/** Evenly from -1 to 1: the word itself, as a signed number, in the middle of those that it stands for. */
export const evenValues: WordValues = {
  fill(words, into, scale, shift) {
    const { start, step } = evenStart(scale, shift);
    for (let i = 0; i < into.length; i++) into[i] = start + step * ((words[i] as number) | 0);
  },
};

/** Value of the signed word 0, and what one more adds. */
export function evenStart(scale: number, shift: number): { readonly start: number; readonly step: number } {
  const step = scale * 2 ** -31;
  return { start: shift + step / 2, step };
}

/**
 * A function of a uniform random word, tabulated for speed: any distribution costs the same few operations.
 *
 * A word stands for the chance in the middle of its own 2^-32. As a signed number with a half added, x, it is the lower half of all chances where
 * it is above 0, and the upper half, counted from 1, below; |x| · 2^-32 is the chance of the tail that it cuts off. Tails are cut into cells that
 * halve towards 0, sixteen to a halving, so that they are as fine as the middle. In each cell a cubic of x meets the function at four Chebyshev
 * points; each of the smallest chances has its own value. For the normal and t quantiles the error is below 2e-8 standard deviations (tests).
 */
export class QuantileTable implements WordValues {
  /** Four of every cell, lowest power first: the lower half from the smallest chance on, then the upper one from the greatest on. */
  readonly coefficients: Float64Array;

  /**
   * @param valueAt the quantile for a chance in (0, 1), or any other smooth function of it
   * @param isOdd whether it has the opposite value for the opposite chance, as the quantile of a symmetric distribution: half the work
   */
  constructor(valueAt: (chance: number) => number, isOdd = false) {
    this.coefficients = new Float64Array(2 * tableCells * 4);
    for (let cell = 0; cell < tableCells; cell++) {
      const lower = coefficientsOf(valueAt, cell);
      // In the upper half x is below 0: odd powers change their sign.
      const upper = isOdd ? lower.map((coefficient) => -coefficient) : coefficientsOf((chance) => valueAt(1 - chance), cell);
      this.coefficients.set(lower, cell * 4);
      this.coefficients.set(
        upper.map((coefficient, power) => (power % 2 === 1 ? -coefficient : coefficient)),
        (tableCells + cell) * 4,
      );
    }
  }

  fill(words: Uint32Array, into: Float64Array, scale: number, shift: number): void {
    const { coefficients } = this;
    const whole = into.length - (into.length % 4);
    // Four in a round, which would cost as much as one of them.
    for (let i = 0; i < whole; i += 4) {
      into[i] = shift + scale * valueOfWord(coefficients, words[i] as number);
      into[i + 1] = shift + scale * valueOfWord(coefficients, words[i + 1] as number);
      into[i + 2] = shift + scale * valueOfWord(coefficients, words[i + 2] as number);
      into[i + 3] = shift + scale * valueOfWord(coefficients, words[i + 3] as number);
    }
    for (let i = whole; i < into.length; i++) into[i] = shift + scale * valueOfWord(coefficients, words[i] as number);
  }
}

function valueOfWord(coefficients: Float64Array, word: number): number {
  const signed = word | 0;
  // Twice |x|: always odd, so that there is a first bit.
  const twice = ((signed ^ (signed >> 31)) << 1) | 1;
  const zeros = Math.clz32(twice);
  // The bits after the first choose one of sixteen cells.
  const at = ((word >>> 31) << 11) | ((octaves - 1 - zeros) << 6) | (((twice << zeros) >>> 25) & 0x3c);
  const x = signed + 0.5;
  return (
    (coefficients[at] as number) +
    x * ((coefficients[at + 1] as number) + x * ((coefficients[at + 2] as number) + x * (coefficients[at + 3] as number)))
  );
}

/** Of a cell, for |x|. */
function coefficientsOf(value: (chance: number) => number, cell: number): readonly number[] {
  const octave = Math.floor(cell / cellsPerOctave);
  const sixteenths = cellsPerOctave + (cell % cellsPerOctave);
  if (octave < firstWide) {
    // Of the numbers from 2^(octave - 1) to twice that, the one with its half that lies in this cell or below.
    const word = Math.floor((sixteenths * 2 ** octave) / (2 * cellsPerOctave));
    return [value((word + 0.5) * 2 ** -32), 0, 0, 0];
  }
  const width = 2 ** (octave - 1) / cellsPerOctave;
  const [a, b, c, d] = cubicThrough((t) => value((sixteenths + t) * width * 2 ** -32));
  // From the place t within the cell to |x| = (sixteenths + t) · width.
  const m = sixteenths;
  const ofPlace = [a - m * (b - m * (c - m * d)), b - m * (2 * c - 3 * m * d), c - 3 * m * d, d];
  return ofPlace.map((coefficient, power) => coefficient / width ** power);
}

const nodes = [0, 1, 2, 3].map((k) => (1 - Math.cos(((2 * k + 1) * Math.PI) / 8)) / 2) as [number, number, number, number];

/** Coefficients, lowest power first, of the cubic that meets the function at the Chebyshev points of (0, 1): Newton's divided differences. */
function cubicThrough(value: (t: number) => number): [number, number, number, number] {
  const [a, b, c, d] = nodes;
  const [fa, fb, fc, fd] = nodes.map(value) as [number, number, number, number];
  const ab = (fb - fa) / (b - a);
  const bc = (fc - fb) / (c - b);
  const cd = (fd - fc) / (d - c);
  const abc = (bc - ab) / (c - a);
  const bcd = (cd - bc) / (d - b);
  const abcd = (bcd - abc) / (d - a);
  return [fa - a * (ab - b * (abc - c * abcd)), ab - (a + b) * abc + (a * b + a * c + b * c) * abcd, abc - (a + b + c) * abcd, abcd];
}
