import { expect, it } from "vitest";
import {
  describeDimension,
  lengthDimension,
  multiplyDimensions,
  nameDimension,
  raiseDimension,
  sameDimension,
} from "../../lib/formula/dimension.ts";
import { findUnit, toBaseUnit, unit, unitSpellings } from "../../lib/formula/units.ts";

it("findUnit(spelling) tells upper and lower case apart and knows the usual spellings", () => {
  expect(findUnit("inch")).toBe(findUnit("in"));
  expect(findUnit("μm")).toBe(findUnit("um"));
  for (const spelling of ["MM", "Mm", "IN", '"', "″", "'", "degF", "mms", "constructor", "__proto__", ""])
    expect(findUnit(spelling)).toBeUndefined();
});

it("every unit has a dimension of its own and a positive, finite factor", () => {
  for (const spelling of unitSpellings()) {
    const found = findUnit(spelling);
    expect(found && found.numerator / found.denominator > 0 && found.numerator / found.denominator < 1e5).toBe(true);
    expect(found && Math.abs(found.dimension.length) + Math.abs(found.dimension.angle) + Math.abs(found.dimension.temperature)).toBe(1);
  }
});

// Exact decimal products: 0.1 in = 2.54 mm, 3.937 in = 99.9998 mm, 16.2444 in = 412.60776 mm, 0.4 mil = 0.01016 mm.
it.each([
  [0.1, "in", 1, 2.54],
  [3.937, "in", 3, 99.9998],
  [16.2444, "in", 4, 412.60776],
  [0.4, "mil", 1, 0.01016],
  [7, "um", 0, 0.007],
  [0.3, "um", 1, 0.0003],
  [33, "nm", 0, 0.000033],
  [1.1, "m", 1, 1100],
] as const)("toBaseUnit(%d, %s, %d decimals) is the double nearest to the decimal product", (value, symbol, decimals, expected) => {
  expect(toBaseUnit(value, unit(symbol), decimals)).toBe(expected);
});

it("toBaseUnit(value, unit, decimals) falls back to plain multiplication where the value has more decimals than said", () => {
  expect(toBaseUnit(0.123456, unit("in"), 2)).toBeCloseTo(0.123456 * 25.4, 14);
});

it("toBaseUnit(180, deg) is π and 90 deg is π/2 to the last digit", () => {
  expect(toBaseUnit(180, unit("deg"), 0)).toBe(Math.PI);
  expect(toBaseUnit(90, unit("deg"), 0)).toBe(Math.PI / 2);
});

it("dimensions multiply by adding exponents and take roots by halving them", () => {
  const area = multiplyDimensions(lengthDimension, lengthDimension);
  expect(area).toEqual({ length: 2, angle: 0, temperature: 0 });
  expect(sameDimension(raiseDimension(area, 1 / 2), lengthDimension)).toBe(true);
  expect(sameDimension(raiseDimension(raiseDimension(lengthDimension, 1 / 3), 3), lengthDimension)).toBe(true);
  expect(sameDimension(area, lengthDimension)).toBe(false);
});

it("describeDimension(dimension) names it in words with an article", () => {
  expect(describeDimension({ length: 0, angle: 0, temperature: 0 })).toBe("a number");
  expect(describeDimension({ length: 0, angle: 1, temperature: 0 })).toBe("an angle");
  expect(nameDimension({ length: 2, angle: 1, temperature: -1 })).toBe("length^2 · angle / temperature");
  expect(nameDimension({ length: 0, angle: 0, temperature: -1 })).toBe("1 / temperature");
  expect(nameDimension({ length: 0, angle: -1, temperature: -2 })).toBe("1 / (angle · temperature^2)");
});
