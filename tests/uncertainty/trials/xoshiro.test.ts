import { expect, it } from "vitest";
import { Xoshiro } from "../../../lib/uncertainty/trials/xoshiro.ts";

it("Xoshiro gives the words of xoshiro128**", () => {
  const random = new Xoshiro(Uint32Array.of(1, 2, 3, 5));
  // tests/reference/xoshiro.py.
  const expected = [11520, 0, 5921280, 82609920, 406357796, 694750747, 690289475, 3727848632, 2857776104, 3021396064];
  expect(expected.map(() => random.next() >>> 0)).toEqual(expected);
});

it("Xoshiro does not start from four zeros", () => {
  const random = new Xoshiro(new Uint32Array(4));
  expect(Array.from({ length: 20 }, () => random.next()).some((word) => word !== 0)).toBe(true);
});
