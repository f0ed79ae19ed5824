import { expect, it } from "vitest";
import { firstOrderInWords } from "../../lib/record/firstOrderInWords.ts";
import { validateFirstOrder } from "../../lib/uncertainty/validateFirstOrder.ts";
import { writerOf } from "../../notebooks/figures/displayUnit.ts";

// u = 0.0036 with two digits: δ = 0.00005 (JCGM 101:2008, 7.9.2).
const words = (lower: number, upper: number, doubt = 0, unit: "mm" | "inch" = "mm") =>
  firstOrderInWords(
    {
      isTooCurved: false,
      check: validateFirstOrder({ value: 1, standardUncertainty: 0.0036, expandedUncertainty: 0.0072 }, [lower, upper], doubt, 2),
    },
    writerOf(unit),
  );

it("firstOrderInWords(result, writer) says by how much the ends differ where first order holds", () => {
  expect(words(0.9928, 1.00723)).toBe("first order holds: the ends differ by 0.000030 mm, 0.000050 mm is allowed");
  expect(words(0.9928, 1.0072)).toBe("first order holds: the ends differ by less than 0.000001 mm, 0.000050 mm is allowed");
});

it("firstOrderInWords(result, writer) says which end is where, when it does not hold", () => {
  expect(words(0.9928, 1.0084)).toBe("first order does not hold here: the upper end is 0.001200 mm farther out, 0.000050 mm is allowed");
  expect(words(0.9938, 1.0072)).toContain("the lower end is 0.001000 mm farther in");
  expect(words(0.9828, 1.0072)).toContain("the lower end is 0.010000 mm farther out");
  // 0.00254 mm are 0.0001 inch.
  expect(words(0.9928, 1.00974, 0, "inch")).toContain("the upper end is 0.0001000 in farther out");
});

it("firstOrderInWords(result, writer) does not pretend to know", () => {
  expect(words(0.9928, 1.00723, 0.0001)).toBe(
    "not known: the ends differ by 0.000030 mm, 0.000050 mm is allowed, and they are only known to 0.000100 mm",
  );
  expect(words(0.9928, 1.00723, Number.POSITIVE_INFINITY)).toContain("not known");
  expect(firstOrderInWords({ isTooCurved: true, check: undefined }, writerOf("mm"))).toContain("only trials with a value tell");
  expect(firstOrderInWords({ isTooCurved: false, check: undefined }, writerOf("mm"))).toBeUndefined();
});
