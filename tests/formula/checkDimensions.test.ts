import { expect, it } from "vitest";
import { checkDimensions } from "../../lib/formula/checkDimensions.ts";
import { type Dimension, describeDimension } from "../../lib/formula/dimension.ts";
import { formatExpression } from "../../lib/formula/formatExpression.ts";
import { parseExpression } from "../../lib/formula/parseExpression.ts";
import { unit } from "../../lib/formula/units.ts";

const names = new Map<string, Dimension>([
  ["wall", { length: 1, angle: 0, temperature: 0 }],
  ["skew", { length: 0, angle: 1, temperature: 0 }],
  ["warmth", { length: 0, angle: 0, temperature: 1 }],
  ["share", { length: 0, angle: 0, temperature: 0 }],
]);

function check(text: string, bare?: "mm" | "in" | "deg"): string {
  const parsed = parseExpression(text);
  if (!parsed.ok) return parsed.problems[0]?.what ?? "";
  const outcome = checkDimensions(parsed.value, names, bare && unit(bare));
  if (!outcome.ok) return `${outcome.problems[0]?.what} @${outcome.problems[0]?.character}`;
  return describeDimension(outcome.value.dimension);
}

function adopted(text: string, bare: "mm" | "in" | "deg"): string {
  const parsed = parseExpression(text);
  const outcome = parsed.ok ? checkDimensions(parsed.value, names, unit(bare)) : parsed;
  return outcome.ok ? formatExpression(outcome.value.expression) : (outcome.problems[0]?.what ?? "");
}

it.each([
  ["wall * wall", "a length^2"],
  ["wall / warmth", "a length / temperature"],
  ["sqrt(wall * 2 in)", "a length"],
  ["(wall^3)^(1/3)", "a length"],
  ["wall^-2 * wall^2", "a number"],
  ["sin(skew) * wall", "a length"],
  ["atan2(wall, 3 mm)", "an angle"],
  ["asin(wall / (2 mm))", "an angle"],
  ["hypot(wall, 1 mm)", "a length"],
  ["mean(wall, 1 mm, 2 in)", "a length"],
  ["skew / (1 rad) * wall", "a length"],
  ["wall * 11.5e-6 / (1 K) * warmth", "a length"],
  ["2 + 3", "a number"],
])("checkDimensions(%j) is %s", (text, expected) => {
  expect(check(text)).toBe(expected);
});

it.each([
  ["wall + skew", "cannot add a length and an angle @5"],
  ["wall - 1", "cannot subtract a length and a number @5"],
  ["1 + skew", "cannot add a number and an angle @2"],
  ["sin(wall)", "sin needs an angle, not a length @0"],
  ["sin(30)", "sin needs an angle, not a number @0"],
  ["asin(skew)", "asin needs a number, not an angle @0"],
  ["hypot(wall, warmth)", "hypot of a length and a temperature @0"],
  ["max(wall, 3)", "max of a length and a number @0"],
  ["2^wall", "the exponent must be a number, not a length @1"],
  ["wall^share", "a length can be raised only to an exponent that is written out @4"],
  ["wall + walk", 'unknown name "walk" @7'],
  ["constructor", 'unknown name "constructor" @0'],
])("checkDimensions(%j) names the operation and both sides: %s", (text, expected) => {
  expect(check(text)).toBe(expected);
});

it("checkDimensions(text) says how an angle becomes a number where only that is missing", () => {
  const parsed = parseExpression("wall * skew + wall");
  const outcome = parsed.ok ? checkDimensions(parsed.value, names) : parsed;
  expect(outcome).toMatchObject({ ok: false, problems: [{ remedy: "an angle becomes a number by sin, cos or tan, or divided by 1 rad" }] });
});

it.each([
  ["12.5 + 0.1 in", "mm", "12.5 mm + 0.1 in"],
  ["12.5 + 0.1 mm", "in", "12.5 in + 0.1 mm"],
  ["wall - 2", "in", "wall - 2 in"],
  ["-(1 + 2) + wall", "mm", "-((1 + 2) * 1 mm) + wall"],
  ["2 * 3 + 1 mm", "mm", "2 * 3 * 1 mm + 1 mm"],
  ["2 * (3 + 1 mm)", "mm", "2 * (3 mm + 1 mm)"],
  ["min(3, 4 in)", "mm", "min(3 mm, 4 in)"],
  ["30 + 2 arcmin", "deg", "30 deg + 2 arcmin"],
  ["2 * wall", "mm", "2 * wall"],
  ["2 + 3", "mm", "2 + 3"],
] as const)("checkDimensions(%j, unit %s) gives bare numbers in sums the unit of the place: %s", (text, bare, expected) => {
  expect(adopted(text, bare)).toBe(expected);
});

it.each([
  ["2 + 30 deg", "mm", "cannot add a number and an angle"],
  ["share + wall", "mm", "cannot add a number and a length"],
  ["6 mm / (2 mm) + wall", "mm", "cannot add a number and a length"],
  ["cos(skew) + wall", "mm", "cannot add a number and a length"],
] as const)("checkDimensions(%j, unit %s) gives a unit to nothing else", (text, bare, expected) => {
  expect(adopted(text, bare)).toBe(expected);
});
