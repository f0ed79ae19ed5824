import { expect, it } from "vitest";
import { failure, success } from "../../lib/base/outcome.ts";
import { secondOrderInWords, secondOrderOfAll } from "../../lib/record/secondOrderInWords.ts";
import type { SecondOrder } from "../../lib/uncertainty/secondOrder.ts";
import { writerOf } from "../../notebooks/figures/displayUnit.ts";
import { sourceOf } from "../properties/expressions.ts";

// u = 0.0036 with two digits: δ = 0.00005 (JCGM 101:2008, 7.9.2).
const terms = (standardUncertainty: number, doubt = 0, pair: readonly [string, string] = ["a", "b"]): SecondOrder => {
  const [first, second] = pair.map((id) => sourceOf(id, 0));
  const sources = [first, pair[0] === pair[1] ? first : second] as SecondOrder["terms"][number]["sources"];
  const variance = standardUncertainty ** 2 - 0.0036 ** 2;
  return { firstOrder: 0.0036, standardUncertainty, doubt, variance, shift: 0, terms: [{ sources, variance }] };
};
const words = (...found: readonly SecondOrder[]) => secondOrderInWords(found.map(success), writerOf("mm"));

it("secondOrderInWords(result, writer) is silent where u does not change by half of its last digit", () => {
  expect(words(terms(0.003649))).toBeUndefined();
  expect(secondOrderOfAll([[success(terms(0.003649))], [success(terms(0.0036)), success(terms(0.00356))]])).toBe(
    "The terms of second order (JCGM 100, 5.1.2, note) change no standard uncertainty in its two digits.",
  );
});

it("secondOrderInWords(result, writer) tells u with the terms and the sources that make most of them", () => {
  expect(words(terms(0.0041))).toBe(
    "the terms of second order matter: u with them is 0.0041 mm in place of 0.0036 mm, most by a together with b",
  );
  expect(words(terms(0.0041, 0.0002, ["a", "a"]))).toBe(
    "the terms of second order matter: u with them is 0.0041 mm in place of 0.0036 mm, known to 0.00020 mm, most by a alone",
  );
  expect(secondOrderInWords([success(terms(0.0041))], writerOf("inch"))).toContain("0.00016 in in place of 0.00014 in");
  expect(secondOrderOfAll([[success(terms(0.0041))]])).toBeUndefined();
});

it("secondOrderInWords(result, writer) names the axis of a point, and what is not known", () => {
  expect(words(terms(0.0036), terms(0.0041))).toMatch(/^along Y the terms of second order matter/);
  expect(words(terms(0.00366, 0.00005))).toBe(
    "whether the terms of second order matter is not known: u with them would be 0.0037 mm in place of 0.0036 mm, known to 0.000050 mm",
  );
  const none = failure({ at: "x", what: "the terms are not known: no value", remedy: "run trials" });
  expect(secondOrderInWords([none], writerOf("mm"))).toBe("the terms are not known: no value. Run trials");
  expect(secondOrderOfAll([[none]])).toBeUndefined();
});
