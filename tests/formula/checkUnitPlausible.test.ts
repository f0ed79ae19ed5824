import { expect, it } from "vitest";
import { mm } from "../../lib/base/quantity.ts";
import { checkUnitPlausible } from "../../lib/formula/checkUnitPlausible.ts";

const stylusRadius = { from: mm(0.5), to: mm(5) };
const travel = { from: mm(0), to: mm(800) };

it("checkUnitPlausible(value, undefined, range) doubts inches in a millimetre field", () => {
  expect(checkUnitPlausible(mm(0.1181), undefined, "mm", stylusRadius)).toEqual({
    at: "",
    what: "the number stands for 0.1181 mm, which does not fit here; meant in inches it would be 2.99974 mm, which does",
    remedy: "write the unit behind the number",
  });
});

it("checkUnitPlausible(value, undefined, range) doubts millimetres in an inch field: 3 typed as inches is 76.2 mm", () => {
  expect(checkUnitPlausible(mm(76.2), undefined, "inch", stylusRadius)?.what).toContain("meant in millimetres it would be 3 mm");
});

it("checkUnitPlausible(value, undefined, unit, range) offers no unit that bare numbers have anyway: 1000 mm is not 39.37 mm", () => {
  expect(checkUnitPlausible(mm(76.2), undefined, "mm", stylusRadius)).toBeUndefined();
});

it("checkUnitPlausible(value, unit, range) believes a unit that was typed", () => {
  expect(checkUnitPlausible(mm(76.2), "inch", "mm", stylusRadius)).toBeUndefined();
});

it.each([
  [3, stylusRadius, "it fits"],
  [-3, stylusRadius, "its size fits"],
  [0, stylusRadius, "zero is zero in both units"],
  [12, stylusRadius, "it fits in neither unit"],
  [5.2, stylusRadius, "it fits within the 5 % of 10^0.02"],
  [16.2, travel, "a wide range tells nothing"],
])("checkUnitPlausible(%d mm) says nothing where %3$s", (value, range) => {
  expect(checkUnitPlausible(mm(value), undefined, "mm", range)).toBeUndefined();
});

it("checkUnitPlausible(-10 000 mm, undefined, travel) doubts millimetres read as inches", () => {
  expect(checkUnitPlausible(mm(-412.607 * 25.4), undefined, "inch", travel)?.what).toContain("it would be -412.607 mm");
});

it("checkUnitPlausible(value, undefined, range) rejects a range upside down", () => {
  expect(() => checkUnitPlausible(mm(1), undefined, "mm", { from: mm(5), to: mm(1) })).toThrow(
    "expectedRange: expected 0 <= from <= to, got 5 to 1",
  );
  expect(() => checkUnitPlausible(mm(1), undefined, "mm", { from: mm(Number.NaN), to: mm(1) })).toThrow(RangeError);
});
