import { expect, it } from "vitest";
import { type Dimension, lengthDimension } from "../../lib/formula/dimension.ts";
import { parseAngle, parseLength, parseQuantity, parseTemperatureDifference } from "../../lib/formula/parseQuantity.ts";
import { type Unit, unit } from "../../lib/formula/units.ts";

function complaint(text: string, fieldUnit: "mm" | "inch" = "mm"): unknown {
  const outcome = parseLength(text, { unit: fieldUnit });
  return outcome.ok ? outcome.value.value : [outcome.problems[0]?.what, outcome.problems[0]?.character];
}

// Values are decimal arithmetic with 1 in = 25.4 mm exactly (NIST SP 811, B.8).
it.each([
  ["412.607", "mm", 412.607, 3, "412.607 mm"],
  ["-412.607", "mm", -412.607, 3, "-412.607 mm"],
  ["16.2444", "inch", 412.60776, 4, "16.2444 in = 412.60776 mm"],
  ["2.5 in", "mm", 63.5, 1, "2.5 in = 63.5 mm"],
  ["63.5 mm", "inch", 63.5, 1, "63.5 mm"],
  ["20 um", "mm", 0.02, 0, "20 um = 0.02 mm"],
  ["20 µm", "mm", 0.02, 0, "20 um = 0.02 mm"],
  ["0.5 thou", "mm", 0.0127, 1, "0.5 thou = 0.0127 mm"],
  ["412.607-", "mm", -412.607, 3, "-412.607 mm"],
  ["12,5 mm", "inch", 12.5, 1, "12.5 mm"],
  ["1.5e-3 in", "mm", 0.0381, 4, "1.5e-3 in = 0.0381 mm"],
  ["１２．５", "mm", 12.5, 1, "12.5 mm"],
  ["-0.000", "mm", 0, 3, "0.000 mm"],
] as const)("parseLength(%j, {unit: %s}) is %d mm", (text, fieldUnit, value, decimals, understoodAs) => {
  expect(parseLength(text, { unit: fieldUnit })).toMatchObject({ ok: true, value: { value, text, decimals, understoodAs } });
});

it.each([
  ["6 mm / 2", "mm", 3, "6 mm / 2 = 3 mm"],
  ["5.25in/2", "mm", 66.675, "5.25 in / 2 = 66.675 mm"],
  ["(12.5 + 0.1 in) / 2", "mm", 7.52, "(12.5 mm + 0.1 in) / 2 = 7.52 mm"],
  ["(12.5 + 0.1 in) / 2", "inch", 160.02, "(12.5 in + 0.1 in) / 2 = 160.02 mm"],
  ["3 mm + 0.1 in", "inch", 5.54, "3 mm + 0.1 in = 5.54 mm"],
  ["6/2", "inch", 76.2, "6 / 2 = 3 in = 76.2 mm"],
  ["6/2", "mm", 3, "6 / 2 = 3 mm"],
  ["1/2 in", "mm", 12.7, "1/2 in = 12.7 mm"],
  ["12,5 / 2", "mm", 6.25, "12.5 / 2 = 6.25 mm"],
  ["sqrt(4 mm * 9 mm)", "mm", 6, "sqrt(4 mm * 9 mm) = 6 mm"],
  ["sin(30 deg) * 10 mm", "mm", 5, "sin(30 deg) * 10 mm = 5 mm"],
  ["-(1 + 2)", "mm", -3, "-(1 + 2) = -3 mm"],
] as const)("parseLength(%j, {unit: %s}) evaluates a formula to %d mm and says how", (text, fieldUnit, value, understoodAs) => {
  const outcome = parseLength(text, { unit: fieldUnit });
  expect(outcome).toMatchObject({
    ok: true,
    value: { text, decimals: undefined, resolution: undefined, typedUnit: undefined, understoodAs },
  });
  expect(outcome.ok && outcome.value.value).toBeCloseTo(value, 12);
});

it.each([
  ["6 mm / (2 mm)", "the formula gives a number"],
  ["6 mm/2 mm", "the formula gives a number"],
  ["3 mm * 4 mm", "the formula gives a length^2"],
  ["10 mm * 30 deg", "the formula gives a length · angle"],
  ["sin(30 deg) * 10", "the formula gives a number"],
  ["12.5 / (0.1 in)", "the formula gives a 1 / length"],
])("parseLength(%j) refuses what is no length: %s", (text, what) => {
  expect(complaint(text)).toEqual([what, undefined]);
});

it.each([
  ["", ["nothing is typed", undefined]],
  ["30 deg", ['"deg" is a unit of angle', 3]],
  ["3 MM", ['"MM" is not a unit known here', 2]],
  ["12.5o3", ['"o3" behind a number is not a unit: it is misspelled, or an operator is missing', 4]],
  ["1 234.5", ['an operator is missing between "1" and "234.5"', 2]],
  ['5"', ['the sign " is not understood in a formula', 1]],
  ["5″", ['the sign "″" can mean a foot, an inch, or a minute or second of arc', 1]],
  ["5'", ["the sign ' is not understood in a formula", 1]],
  ["5¼ in", ['the sign "¼" is a fraction set as one sign', 1]],
  ["3 mm²", ['the sign "²" is a raised or lowered sign', 4]],
  ["wall + 1", ['unknown name "wall"', 0]],
  ["12,500", ["the comma can be a decimal mark (12.500) or a thousands mark (12500)", 2]],
  ["1e999", ["the number is too large", 0]],
  ["1e308 in", ["the number is too large", undefined]],
  ["NaN", ['"NaN" is not understood in a formula', 0]],
  ["0x10", ['"x10" behind a number is not a unit: it is misspelled, or an operator is missing', 1]],
  ["1/0", ["division by zero", 1]],
])("parseLength(%j) says what is wrong and where", (text, expected) => {
  expect(complaint(text)).toEqual(expected);
  const outcome = parseLength(text, { unit: "mm" });
  expect(outcome.ok ? undefined : outcome.problems[0]?.got).toBe(text);
});

it("parseLength(text) tells the unit typed and the step of the last decimal", () => {
  expect(parseLength("12.345", { unit: "mm" })).toMatchObject({ value: { typedUnit: undefined, resolution: 0.001 } });
  expect(parseLength("12.34 in", { unit: "mm" })).toMatchObject({ value: { typedUnit: "in", resolution: 0.254 } });
  expect(parseLength("0.0005", { unit: "inch" })).toMatchObject({ value: { typedUnit: undefined, resolution: 0.00254 } });
});

it("parseLength(text, {decimalMark}) keeps the decision in numbers and in formulas", () => {
  expect(parseLength("412,607", { unit: "mm", decimalMark: "," })).toMatchObject({ value: { value: 412.607 } });
  expect(parseLength("412.607", { unit: "mm", decimalMark: "," }).ok).toBe(false);
  expect(parseLength("(412,607 + max(1,5; 2)) / 2", { unit: "mm", decimalMark: "," })).toMatchObject({ value: { value: 207.3035 } });
  expect(parseLength("1,234", { unit: "mm", decimalMark: "." })).toMatchObject({ value: { value: 1234, understoodAs: "1234 mm" } });
});

it("parseLength(text) gives the same outcome for the same text however often and in whichever unit it was asked before", () => {
  const first = parseLength("(1 + 2) / 3 + 1", { unit: "mm" });
  for (let n = 0; n < 2500; n++) parseLength(`${n} + 1`, { unit: "inch" });
  expect(parseLength("(1 + 2) / 3 + 1", { unit: "inch" })).toMatchObject({ value: { value: 50.8 } });
  expect(parseLength("(1 + 2) / 3 + 1", { unit: "mm" })).toEqual(first);
});

it("parseAngle(text, {unit}) is in radians", () => {
  expect(parseAngle("180", { unit: "deg" })).toMatchObject({ value: { value: Math.PI, understoodAs: "180 deg = 3.14159265359 rad" } });
  expect(parseAngle("0.5 mrad", { unit: "deg" })).toMatchObject({ value: { value: 0.0005 } });
  expect(parseAngle("90°", { unit: "rad" })).toMatchObject({ value: { value: Math.PI / 2, typedUnit: "deg" } });
  expect(parseAngle("atan2(0.02 mm, 200 mm)", { unit: "deg" })).toMatchObject({ value: { value: Math.atan2(0.02, 200) } });
  expect(parseAngle("30 + 30 arcmin", { unit: "deg" })).toMatchObject({
    value: { understoodAs: "30 deg + 30 arcmin = 0.532325421858 rad" },
  });
  expect(parseAngle("3 mm", { unit: "deg" })).toMatchObject({ ok: false, problems: [{ what: '"mm" is a unit of length' }] });
  expect(parseAngle("30'", { unit: "deg" })).toMatchObject({
    ok: false,
    problems: [{ remedy: "write ft for feet or arcmin for minutes of arc" }],
  });
});

it("parseTemperatureDifference(text) takes kelvins and degrees Celsius alike", () => {
  expect(parseTemperatureDifference("6.5")).toMatchObject({ value: { value: 6.5, understoodAs: "6.5 K" } });
  expect(parseTemperatureDifference("26.5 °C - 20 °C")).toMatchObject({ value: { value: 6.5 } });
  expect(parseTemperatureDifference("6.5 degC")).toMatchObject({ value: { value: 6.5, understoodAs: "6.5 degC = 6.5 K" } });
  expect(parseTemperatureDifference("70 degF")).toMatchObject({ ok: false, problems: [{ what: '"degF" is not a unit known here' }] });
});

it("parseQuantity(text, dimension, bareUnit) takes compound units that the caller makes", () => {
  const perKelvin: Dimension = { length: 0, angle: 0, temperature: -1 };
  const ppm: Unit = { symbol: "1e-6/K", dimension: perKelvin, numerator: 1, denominator: 1e6 };
  expect(parseQuantity("11.5", perKelvin, ppm)).toMatchObject({ value: { value: 11.5e-6, understoodAs: "11.5 1e-6/K" } });
  expect(parseQuantity("23e-6 / (1 K)", perKelvin, ppm)).toMatchObject({ value: { value: 23e-6 } });
});

it("parseQuantity(text, dimension, bareUnit) throws where the two do not belong together", () => {
  expect(() => parseQuantity("1", lengthDimension, unit("deg"))).toThrow("bareUnit: expected a unit of a length, got deg");
});
