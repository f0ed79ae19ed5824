import { expect, it } from "vitest";
import { parseCellName } from "../../lib/formula/cellName.ts";
import { checkDimensions } from "../../lib/formula/checkDimensions.ts";
import { angleDimension, type Dimension, dimensionless, lengthDimension } from "../../lib/formula/dimension.ts";
import { parseExpression } from "../../lib/formula/parseExpression.ts";
import { convertToUnit, parseUnit, resultUnit } from "../../lib/formula/resultUnit.ts";

it.each([
  [lengthDimension, "mm", "in"],
  [angleDimension, "deg", "deg"],
  [{ length: 0, angle: 0, temperature: 1 }, "K", "K"],
  [{ length: 2, angle: 0, temperature: 0 }, "mm^2", "in^2"],
  [{ length: 1, angle: 0, temperature: -1 }, "mm/K", "in/K"],
  [{ length: 0, angle: 0, temperature: -1 }, "1/K", "1/K"],
  [{ length: 1, angle: -1, temperature: -1 }, "mm/(deg·K)", "in/(deg·K)"],
  [dimensionless, "", ""],
])("resultUnit(%j) is %s, in an inch notebook %s", (dimension, mm, inch) => {
  expect([resultUnit(dimension, "mm").symbol, resultUnit(dimension, "inch").symbol]).toEqual([mm, inch]);
  expect(resultUnit(dimension, "inch").dimension).toEqual(dimension);
});

// Square inch 645.16 mm², cubic inch 16.387 064 cm³, exactly: NIST SP 811 (2008), appendix B.8; the degree π/180 rad: SI Brochure, table 8.
it.each([
  ["in^2", { length: 2, angle: 0, temperature: 0 }, 645.16, 1],
  ["in^3", { length: 3, angle: 0, temperature: 0 }, 16387.064, 1],
  ["um/K", { length: 1, angle: 0, temperature: -1 }, 0.0115, 11.5],
  ["um / m·K^-1", { length: 0, angle: 0, temperature: -1 }, 11.5e-6, 11.5],
  ["um/(m*K)", { length: 0, angle: 0, temperature: -1 }, 11.5e-6, 11.5],
  ["um/m/K", { length: 0, angle: 0, temperature: -1 }, 11.5e-6, 11.5],
  ["1/K", { length: 0, angle: 0, temperature: -1 }, 0.5, 0.5],
  ["deg", angleDimension, Math.PI, 180],
  ["thou", lengthDimension, 25.4, 1000],
  ["1", dimensionless, 0.25, 0.25],
])("convertToUnit to %s of a %j: %d in base units is %d", (text, dimension, value, expected) => {
  const converted = convertToUnit({ dimension, value, standardUncertainty: value / 10 }, text);
  expect(converted.ok && converted.value.value).toBeCloseTo(expected, 11);
  expect(converted.ok && converted.value.standardUncertainty).toBeCloseTo(expected / 10, 11);
});

it.each([
  ["mm^2", '"mm^2" is a unit of length^2', 0],
  ["K", '"K" is a unit of temperature', 0],
  ["kg", '"kg" is not understood in a unit', 0],
  ["mm mm", '"mm" is not understood in a unit', 3],
  ["mm/", "the unit ends too early", 3],
  ["mm/(K", "the unit ends too early", 5],
  ["mm)", '")" is not understood in a unit', 2],
  ["", "the unit ends too early", 0],
  ["mm²", 'the sign "²" is a raised or lowered sign', 2],
  ["nm^99", "the powers are too large", 0],
])("convertToUnit(a length, %j) is refused: %s", (text, what, character) => {
  const converted = convertToUnit({ dimension: lengthDimension, value: 1, standardUncertainty: 0 }, text);
  expect(converted).toMatchObject({ ok: false, problems: [{ what, character }] });
});

it("a value too large for a unit is refused, and a lone unit stays the one of the table", () => {
  expect(convertToUnit({ dimension: lengthDimension, value: 1e305, standardUncertainty: 0 }, "nm")).toMatchObject({ ok: false });
  const parsed = parseUnit(" inch ");
  expect(parsed.ok && parsed.value.symbol).toBe("in");
});

it.each([
  ["wall^0.5", { length: 0.5, angle: 0, temperature: 0 }],
  ["(wall^(1/3))^6", { length: 2, angle: 0, temperature: 0 }],
  ["(wall^0.1 * wall^0.2 / wall^0.3)", dimensionless],
  ["wall^0.333", "a length raised to 0.333 has no unit"],
  ["wall^1e300", "a length raised to 1e+300 has no unit"],
  ["(wall^1e-10)^1e10", "a length raised to 1e-10 has no unit"],
  ["(wall^1.00000000001 / wall)^1e11", "a length raised to 1 has no unit"],
  ["sqrt(sqrt(sqrt(sqrt(wall))))", "a length^0.125 raised to 0.5 has no unit"],
])("checkDimensions(%s) knows powers that are whole or simple fractions: %j", (text, expected) => {
  const parsed = parseExpression(text);
  const checked = parsed.ok ? checkDimensions(parsed.value, new Map<string, Dimension>([["wall", lengthDimension]])) : parsed;
  expect(checked.ok ? checked.value.dimension : checked.problems[0]?.what).toEqual(expected);
});

it.each([
  [" left_face ", "left_face"],
  ["größe2", "größe2"],
  ["e\u0301tage", "étage"],
  ["constructor", "constructor"],
  ["", "nothing is typed"],
  ["mm", '"mm" means something else in formulas'],
  ["within", '"within" means something else in formulas'],
  ["deviation", '"deviation" means something else in formulas'],
  ["2a", '"2a" cannot stand in a formula as a name'],
  ["a b", '"a b" cannot stand in a formula as a name'],
  ["a-b", '"a-b" cannot stand in a formula as a name'],
  ["w".repeat(81), "a name of 81 characters"],
])("parseCellName(%j) is %s", (typed, expected) => {
  const name = parseCellName(typed);
  expect(name.ok ? name.value : name.problems[0]?.what).toBe(expected);
});
