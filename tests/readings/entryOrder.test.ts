import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compareRanks, rankQuantity, rankWords } from "../../lib/readings/entryOrder.ts";

const sorted = (texts: readonly string[], direction: "ascending" | "descending" = "ascending", unit: "mm" | "inch" = "mm") =>
  texts
    .map((text) => rankQuantity(text, unit))
    .sort((a, b) => compareRanks(a, b, direction))
    .map(({ text }) => text);

describe("rankQuantity(text, unit) and compareRanks(a, b, direction)", () => {
  // One inch is 25.4 mm exactly (ISO 80000-3, annex; the international inch of 1959).
  it("put numbers in the order of their size with their units, words after them, and nothing last", () => {
    expect(sorted(["", "1 in", "25 mm", "?", "30", "6 mm / 2", "-4", "26 mm"])).toEqual([
      "-4",
      "6 mm / 2",
      "25 mm",
      "1 in",
      "26 mm",
      "30",
      "?",
      "",
    ]);
    expect(sorted(["1", "26 mm", "25 mm"], "ascending", "inch")).toEqual(["25 mm", "1", "26 mm"]);
  });

  it("keep nothing last when the others go down", () => {
    expect(sorted(["", "1", "abc", "10", "2"], "descending")).toEqual(["abc", "10", "2", "1", ""]);
  });

  it("take the first of several readings, the upper limit of a tolerance, and angles by themselves", () => {
    expect(sorted(["-4.5 -4.6", "-5.1 -4", "±0.05", "0.02"])).toEqual(["-5.1 -4", "-4.5 -4.6", "0.02", "±0.05"]);
    expect(sorted(["1 rad", "5", "10 deg"])).toEqual(["5", "10 deg", "1 rad"]);
  });

  it("take a number that can be read in two ways for words, not for either", () => {
    expect(rankQuantity("12,500", "mm").group).toBe("words");
  });

  it("are an order: the one way round the opposite of the other, and transitive", () => {
    const text = fc.oneof(
      fc.double({ noNaN: true, min: -1e6, max: 1e6 }).map(String),
      fc.constantFrom("", "a2", "a10", "2 in", "5 deg", "B"),
    );
    fc.assert(
      fc.property(text, text, text, (a, b, c) => {
        const [x, y, z] = [a, b, c].map((each) => rankQuantity(each, "mm")) as [never, never, never];
        expect(Math.sign(compareRanks(x, y))).toBe(-Math.sign(compareRanks(y, x)) + 0);
        if (compareRanks(x, y) <= 0 && compareRanks(y, z) <= 0) expect(compareRanks(x, z)).toBeLessThanOrEqual(0);
      }),
    );
  });
});

it("rankWords(text) puts names in their natural order", () => {
  const names = ["b10", "b2", "", "B1", "a"].map(rankWords).sort((a, b) => compareRanks(a, b));
  expect(names.map(({ text }) => text)).toEqual(["a", "B1", "b2", "b10", ""]);
});
