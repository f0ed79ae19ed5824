/**
 * The generator xoshiro128** (D. Blackman, S. Vigna, ACM Trans. Math. Softw. 47 (2021) 36). Made within the function whose loop asks it, so that its
 * state stays in registers.
 */
export class Xoshiro {
  private a: number;
  private b: number;
  private c: number;
  private d: number;

  /** @param start four words, taken over; its last is made odd, since the generator must not start from four zeros */
  constructor(start: Uint32Array) {
    // Signed, so that they stay integers of the machine.
    this.a = (start[0] as number) | 0;
    this.b = (start[1] as number) | 0;
    this.c = (start[2] as number) | 0;
    this.d = (start[3] as number) | 1;
  }

  /** The next 32 random bits, as a signed integer. */
  next(): number {
    const product = Math.imul(this.b, 5);
    const word = Math.imul((product << 7) | (product >>> 25), 9);
    const shifted = this.b << 9;
    this.c ^= this.a;
    this.d ^= this.b;
    this.b ^= this.c;
    this.a ^= this.d;
    this.c ^= shifted;
    this.d = (this.d << 11) | (this.d >>> 21);
    return word;
  }
}
