import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseNumber } from "../../lib/formula/parseNumber.ts";
import { findMarks, hasDoubtfulMark, settleMarks, suggestMeaning } from "../../lib/readings/numberMarks.ts";

// Marks and groups of three as ISO 80000-1 (clause 7.3) and everyday usage in English and German have them.

describe("findMarks(texts)", () => {
  it.each([
    ["12,500", { doubtful: 1, isDecimalSomewhere: false, isThousandsSomewhere: false }],
    ["12,5", { doubtful: 0, isDecimalSomewhere: true, isThousandsSomewhere: false }],
    ["0,125", { doubtful: 0, isDecimalSomewhere: true, isThousandsSomewhere: false }],
    ["1234,567", { doubtful: 0, isDecimalSomewhere: true, isThousandsSomewhere: false }],
    ["1.234,5", { doubtful: 0, isDecimalSomewhere: true, isThousandsSomewhere: false }],
    ["1,234.5", { doubtful: 0, isDecimalSomewhere: false, isThousandsSomewhere: true }],
    ["1,234,567", { doubtful: 0, isDecimalSomewhere: false, isThousandsSomewhere: true }],
    ["12.500", { doubtful: 0, isDecimalSomewhere: false, isThousandsSomewhere: false }],
  ])("tells of the comma in %s", (text, expected) => {
    expect(findMarks([text]).commas).toEqual(expected);
  });

  it("looks at every number of a text with signs, units and blanks round it", () => {
    expect(findMarks(["X-12,500 -12,501 mm", "(13,250 + 1) / 2"]).commas.doubtful).toBe(3);
    expect(findMarks(["412.607"]).points).toMatchObject({ doubtful: 1, isDecimalSomewhere: false });
  });
});

it("suggestMeaning(own, other) goes by the numbers that leave no doubt, and by none where they disagree", () => {
  const suggested = (...texts: string[]) => {
    const { commas, points } = findMarks(texts);
    return suggestMeaning(commas, points);
  };
  expect(suggested("12,500", "0,5")).toBe("decimal");
  expect(suggested("12,500", "1.234,5")).toBe("decimal");
  expect(suggested("12,500", "1,234.5")).toBe("thousands");
  expect(suggested("12,500", "0.5")).toBe("thousands");
  expect(suggested("12,500")).toBeUndefined();
  expect(suggested("12,500", "0,5", "0.5")).toBeUndefined();
});

describe("settleMarks(text, meanings)", () => {
  it("writes doubtful numbers in one way and leaves the others as typed", () => {
    expect(settleMarks("X-12,500 13,5 mm", { commas: "decimal" })).toBe("X-12.500 13,5 mm");
    expect(settleMarks("X-12,500 13,5 mm", { commas: "thousands" })).toBe("X-12500 13,5 mm");
    expect(settleMarks("1.234 12.5", { points: "thousands" })).toBe("1234 12.5");
    expect(settleMarks("12,500", {})).toBe("12,500");
  });

  it("leaves no number in doubt, and gives the one that was meant", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 0, max: 999 }), fc.constantFrom("", "-"), (whole, rest, sign) => {
        const text = `${sign}${whole},${String(rest).padStart(3, "0")}`;
        expect(hasDoubtfulMark(text, ",")).toBe(true);
        const read = (commas: "decimal" | "thousands") => {
          const number = parseNumber(settleMarks(text, { commas }));
          return number.ok ? Math.abs(number.value.value) : undefined;
        };
        expect(read("decimal")).toBe(Number(`${whole}.${String(rest).padStart(3, "0")}`));
        expect(read("thousands")).toBe(whole * 1000 + rest);
      }),
    );
  });
});
