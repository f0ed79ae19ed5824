import { expect, it } from "vitest";
import { chanceInDigits, chanceInWords, formatMet, formatShare, groups } from "../../../notebooks/figures/formatChance.ts";

it.each([
  [0, "none"],
  [1e-12, "less than 1 in a thousand million"],
  [2.4e-9, "2 in a thousand million"],
  [3.4e-7, "340 in a thousand million"],
  [2e-6, "2 in a million"],
  [1 / 3000, "1 in 3\u202f000"],
  [1 / 370.4, "1 in 370"],
  [0.05, "1 in 20"],
  [0.41, "41 %"],
])("chanceInWords(%d) is %s", (chance, words) => {
  expect(chanceInWords(chance)).toBe(words);
});

it.each([
  [0, "0"],
  [1e-12, "below 10⁻⁹"],
  [3.3e-6, "3.3 × 10⁻⁶"],
  [0.00033, "0.00033"],
  [0.0512, "0.051"],
])("chanceInDigits(%d) is %s", (chance, digits) => {
  expect(chanceInDigits(chance)).toBe(digits);
});

// 99.73 % within ±3 and 95.45 % within ±2 standard deviations: JCGM 100:2008, Table G.1.
it.each([
  [1, "> 99.99 %"],
  [0.99998, "> 99.99 %"],
  [0.9998, "99.98 %"],
  [0.9973, "99.7 %"],
  [0.9545, "95 %"],
  [0.9996, "99.96 %"],
  [0.5, "50 %"],
  [0.002, "0.2 %"],
  [0, "< 0.01 %"],
])("formatMet(%d) is %s, and never 0 % or 100 %", (chance, text) => {
  expect(formatMet(chance)).toBe(text);
});

it.each([
  [0, "0 %"],
  [1e-12, "< 0.1 %"],
  [0.0521, "5.2 %"],
  [0.313, "31 %"],
  [1, "100 %"],
  [1.004, "100.4 %"],
  [0.9962, "99.6 %"],
  [0.99999, "> 99.9 %"],
  [1.00001, "> 100 %"],
  [1 + Number.EPSILON, "100 %"],
  [12.5, "1\u202f250 %"],
])("formatShare(%d) is %s", (share, text) => {
  expect(formatShare(share)).toBe(text);
});

it("chanceInWords(p) and the others refuse what is no chance", () => {
  expect(() => chanceInWords(Number.NaN)).toThrow("chance: expected 0 to 1, got NaN");
  expect(() => chanceInDigits(1.5)).toThrow("got 1.5");
  expect(() => formatMet(-0.1)).toThrow("got -0.1");
  expect(() => formatShare(Number.POSITIVE_INFINITY)).toThrow("share: expected a finite number");
});

it("groups(1234567) sets thousands apart (ISO 80000-1:2009, 7.3.1)", () => {
  expect([groups(999), groups(1000), groups(1234567)]).toEqual(["999", "1\u202f000", "1\u202f234\u202f567"]);
});
