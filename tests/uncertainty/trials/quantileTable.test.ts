import { expect, it } from "vitest";
import { normalQuantile } from "../../../lib/uncertainty/special/normalQuantile.ts";
import { evenValues, QuantileTable } from "../../../lib/uncertainty/trials/quantileTable.ts";

const normal = new QuantileTable(normalQuantile);

function valuesOf(table: QuantileTable, words: readonly number[]): number[] {
  const into = new Float64Array(words.length);
  table.fill(Uint32Array.from(words), into, 1, 0);
  return [...into];
}

// Normal quantile of (word + ½) / 2^32, mpmath with 30 digits: sqrt(2) * erfinv(2 * (mpf(word) + 0.5) / 2**32 - 1).
it.each([
  [0, -6.3379577545537895],
  [1, -6.166429517819751],
  [15, -5.785777965471043],
  [16, -5.775260513401542],
  [31, -5.665398415700684],
  [1000, -5.0398511259687115],
  [12345678, -2.761769519859486],
  [2 ** 30, -0.6744897498297384],
  [2 ** 31 - 1, -2.918099372916623e-10],
])(
  "QuantileTable.fill(words) gives the normal quantile of word %d and, with the other sign, of the word as far from the top",
  (word, expected) => {
    const [own, opposite] = valuesOf(normal, [word, 2 ** 32 - 1 - word]);
    expect(Math.abs((own as number) - expected)).toBeLessThan(2e-8);
    // Its chance is 1 less that of the other.
    expect(Math.abs((opposite as number) + expected)).toBeLessThan(2e-8);
  },
);

it("QuantileTable of an odd function is the same, but for the rounding of chances near 1", () => {
  const odd = new QuantileTable(normalQuantile, true);
  const words = Array.from({ length: 5000 }, (_, i) => Math.imul(i, 0x9e3779b1) >>> 0);
  const [whole, mirrored] = [valuesOf(normal, words), valuesOf(odd, words)];
  whole.forEach((value, i) => {
    expect(Math.abs(value - (mirrored[i] as number))).toBeLessThan(1e-7);
    // Opposite words have opposite values, to the last bit.
    expect(valuesOf(odd, [~(words[i] as number) >>> 0])).toEqual([-(mirrored[i] as number)]);
  });
});

it("QuantileTable gives every word a value of its own chance: the identity comes back", () => {
  const identity = new QuantileTable((chance) => chance);
  const words = [...Array(200).keys(), ...Array.from({ length: 5000 }, (_, i) => Math.imul(i, 0x9e3779b1) & 0x7fffffff)];
  valuesOf(identity, words).forEach((value, i) => {
    const expected = ((words[i] as number) + 0.5) * 2 ** -32;
    expect(Math.abs(value / expected - 1)).toBeLessThan(1e-14);
  });
});

it("QuantileTable.fill(words) scales and shifts, whatever the number of words", () => {
  const words = Uint32Array.from({ length: 11 }, (_, i) => Math.imul(i + 1, 0x9e3779b1));
  const plain = valuesOf(normal, [...words]);
  for (const length of [1, 4, 7, 11]) {
    const into = new Float64Array(length);
    normal.fill(words, into, 0.25, 10);
    expect([...into]).toEqual(plain.slice(0, length).map((value) => 10 + 0.25 * value));
  }
});

it("evenValues.fill(words) spreads all words evenly between shift - scale and shift + scale", () => {
  const into = new Float64Array(5);
  // As signed numbers the least, -1, 0, 1 and the greatest: each in the middle of its 2^-31 of the way.
  evenValues.fill(Uint32Array.of(2 ** 31, 2 ** 32 - 1, 0, 1, 2 ** 31 - 1), into, 2 ** 32, 8);
  expect([...into]).toEqual([8 + 1 - 2 ** 32, 8 - 1, 8 + 1, 8 + 3, 8 - 1 + 2 ** 32]);
});
