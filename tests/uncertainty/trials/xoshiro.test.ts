import { expect, it } from "vitest";
import { xoshiroWords } from "../../../lib/uncertainty/trials/xoshiro.ts";

it("xoshiroWords(start, words) gives the words of xoshiro128**", () => {
  // tests/reference/xoshiro.py.
  const expected = [11520, 0, 5921280, 82609920, 406357796, 694750747, 690289475, 3727848632, 2857776104, 3021396064];
  const words = new Uint32Array(expected.length);
  xoshiroWords(Uint32Array.of(1, 2, 3, 5), words);
  expect([...words]).toEqual(expected);
});

it("xoshiroWords(start, words) does not start from four zeros", () => {
  const words = new Uint32Array(20);
  xoshiroWords(new Uint32Array(4), words);
  expect(words.some((word) => word !== 0)).toBe(true);
});

it("xoshiroWords(start, words, lane, lanes) lets generators take turns, each with the words that it has alone", () => {
  const starts = [Uint32Array.of(1, 2, 3, 5), Uint32Array.of(7, 11, 13, 17)] as const;
  const together = new Uint32Array(20);
  const both = Uint32Array.from({ length: 8 }, (_, i) => (starts[i % 2] as Uint32Array)[i >> 1] as number);
  for (const lane of [0, 1]) xoshiroWords(both, together, lane, 2);
  starts.forEach((start, lane) => {
    const alone = new Uint32Array(10);
    xoshiroWords(start, alone);
    expect([...together].filter((_, i) => i % 2 === lane)).toEqual([...alone]);
  });
});
