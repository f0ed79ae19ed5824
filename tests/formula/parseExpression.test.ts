import { expect, it } from "vitest";
import { namesIn } from "../../lib/formula/expression.ts";
import { formatExpression } from "../../lib/formula/formatExpression.ts";
import { parseExpression } from "../../lib/formula/parseExpression.ts";
import { isReservedName } from "../../lib/formula/reservedNames.ts";

/** The tree with every binding shown by brackets, or the complaint and its character. */
function bound(text: string): string {
  const outcome = parseExpression(text);
  if (!outcome.ok) return outcome.problems.map(({ what, character }) => `${what} @${character}`).join("; ");
  const show = (node: typeof outcome.value): string => {
    if (node.kind === "number") return node.unit ? `[${node.text} ${node.unit.symbol}]` : node.text;
    if (node.kind === "name") return node.name;
    if (node.kind === "negate") return `(-${show(node.operand)})`;
    if (node.kind === "call") return `${node.function}(${node.arguments.map(show).join(", ")})`;
    return `(${show(node.left)} ${node.operator} ${show(node.right)})`;
  };
  return show(outcome.value);
}

it.each([
  ["1 + 2 * 3", "(1 + (2 * 3))"],
  ["1 - 2 - 3", "((1 - 2) - 3)"],
  ["a / b / c", "((a / b) / c)"],
  ["-a^2", "(-(a ^ 2))"],
  ["2^-a", "(2 ^ (-a))"],
  ["2^3^2", "(2 ^ (3 ^ 2))"],
  ["+a", "a"],
  ["(a + b) * c", "((a + b) * c)"],
  ["hypot(a - b, 3 mm)", "hypot((a - b), [3 mm])"],
  ["mean(a; b; c)", "mean(a, b, c)"],
  ["2 * pi", "(2 * pi)"],
  ["länge_2 − θ", "(länge_2 - θ)"],
])("parseExpression(%j) binds as arithmetic does: %s", (text, expected) => {
  expect(bound(text)).toBe(expected);
});

it.each([
  ["5.25in/2", "([5.25 in] / 2)"],
  ["6 mm / 2", "([6 mm] / 2)"],
  ["a / 2 mm", "(a / [2 mm])"],
  ["1/2 in", "[1/2 in]"],
  ["6/2 mm", "[6/2 mm]"],
  ["-1/2 in", "(-[1/2 in])"],
  ["1/2 in + 3 mm", "([1/2 in] + [3 mm])"],
  ["3 * 1/2 in", "(3 * [1/2 in])"],
  ["-3 mm", "(-[3 mm])"],
  ["30° + 2 µrad", "([30 deg] + [2 urad])"],
  ["(3 mm)^2", "([3 mm] ^ 2)"],
  ["12 in - 3 in", "([12 in] - [3 in])"],
])("parseExpression(%j) puts a unit to the number before it: %s", (text, expected) => {
  expect(bound(text)).toBe(expected);
});

it.each([
  ["a b", 'an operator is missing between "a" and "b" @2'],
  ["3 x", '"x" behind a number is not a unit: it is misspelled, or an operator is missing @2'],
  ["2(a + b)", 'an operator is missing between "2" and "(" @1'],
  ["(a)(b)", 'an operator is missing between ")" and "(" @3'],
  ["(a)3", 'an operator is missing between ")" and "3" @3'],
  ["3 deg 30", 'an operator is missing between "deg" and "30" @6'],
  ["5 1/4 in", 'an operator is missing between "5" and "1" @2'],
  ["(1/2) in", 'the unit "in" must stand directly behind a number @6'],
  ["2^3 mm", 'the unit "mm" must stand directly behind a number @4'],
  ["3 mm^2", 'it is unclear what the power behind "mm" raises @2'],
  ["12.5 / 0.1 in", 'it is unclear whether "in" belongs to the last number or to the fraction before it @11'],
  ["1/2/3 in", "divided by a fraction with a unit: it is unclear what is divided by what @1"],
  ["8 / 1/2 in", "divided by a fraction with a unit: it is unclear what is divided by what @2"],
  ["mm + 3", 'the unit "mm" needs a number before it @0'],
])("parseExpression(%j) lets nothing but NUMBER UNIT stand side by side", (text, expected) => {
  expect(bound(text)).toBe(expected);
});

it.each(["5.25in/2 in mm", "5.25in/2 to mm", "a to mm", "(5 in) in mm", "5 mm in in"])(
  "parseExpression(%j) refuses a conversion, which full mathjs would take for a product, and says what to do",
  (text) => {
    const outcome = parseExpression(text);
    expect(outcome.ok).toBe(false);
    expect(outcome.ok ? "" : `${outcome.problems[0]?.what} ${outcome.problems[0]?.remedy}`).toMatch(/conver|directly behind/);
  },
);

it.each([
  ["x = 3", "="],
  ["[1, 2]", "["],
  ['"text"', '"'],
  ["a ? 1 : 2", "?"],
  ["a.b", "."],
  ["5'", "'"],
  ["10%", "%"],
  ["a!", "!"],
  ["a & b", "&"],
  ["a # b", "#"],
  ["{a: 1}", "{"],
  ["a\\b", "\\"],
  ["3 🙂", "🙂"],
])("parseExpression(%j) refuses the sign %s by name and place", (text, sign) => {
  const outcome = parseExpression(text);
  expect(outcome).toMatchObject({
    ok: false,
    problems: [{ what: `the sign ${sign} is not understood in a formula`, character: text.indexOf(sign) }],
  });
});

it.each(["to", "mod", "and", "or", "xor", "not", "true", "false", "null", "undefined", "NaN", "Infinity"])(
  "parseExpression(%j) refuses the words that mathjs gives a meaning",
  (word) => {
    expect(bound(`a + ${word}`)).toBe(`"${word}" is not understood in a formula @4`);
    expect(bound(`3 ${word} 4`)).toContain(`"${word}" is not understood`);
  },
);

it.each(["constructor", "__proto__", "toString", "hasOwnProperty", "valueOf", "import", "eval", "end", "i", "e"])(
  "parseExpression(%j) is a name like any other, and no function",
  (name) => {
    const outcome = parseExpression(name);
    expect(outcome.ok && outcome.value).toMatchObject({ kind: "name", name });
    expect(bound(`${name}(1)`)).toBe(`there is no function "${name}" @0`);
  },
);

it.each([
  ["", "nothing is typed @undefined"],
  ["1 +", 'something is missing behind "+" @3'],
  ["(1 + 2", "a closing bracket is missing @6"],
  ["1 + 2)", "a bracket is closed that was not opened @5"],
  ["()", "there is nothing between the brackets @1"],
  ["(1 + )", 'something is missing behind "+" @5'],
  ["1 */ 2", '"/" is not expected here @3'],
  ["* 2", '"*" is not expected here @0'],
  ["sqrt", "the function sqrt needs brackets @0"],
  ["sqrt()", "sqrt takes 1 argument, not 0 @0"],
  ["atan2(1)", "atan2 takes 2 arguments, not 1 @0"],
  ["min()", "min takes 1 or more arguments, not 0 @0"],
  ["1, 2", "only the arguments of a function are parted @1"],
  ["a; b", "only the arguments of a function are parted @1"],
])("parseExpression(%j) says what is wrong and where", (text, expected) => {
  expect(bound(text)).toBe(expected);
});

it("parseExpression(text) suggests the function or unit that was meant", () => {
  expect(parseExpression("sqr(4)")).toMatchObject({ problems: [{ remedy: 'perhaps "sqrt" was meant' }] });
  expect(parseExpression("2 MM + 1")).toMatchObject({ problems: [{ remedy: 'perhaps "mm" was meant' }] });
});

it("parseExpression(text) reads a comma between digits as a decimal comma outside a function and asks inside one", () => {
  expect(bound("(12,5 + 1) / 2")).toBe("((12.5 + 1) / 2)");
  expect(bound("max(1,5; 2)")).toBe("the comma can be a decimal mark or part two arguments @5");
  expect(bound("max(1, 5)")).toBe("max(1, 5)");
  expect(bound("12,500 / 2")).toContain("the comma can be a decimal mark (12.500) or a thousands mark (12500) @2");
});

it("parseExpression(text, {decimalMark}) settles the comma", () => {
  const withComma = parseExpression("max(1,5; 2)", { decimalMark: "," });
  expect(withComma.ok && formatExpression(withComma.value)).toBe("max(1.5, 2)");
  const withPoint = parseExpression("max(1,5,2)", { decimalMark: "." });
  expect(withPoint.ok && formatExpression(withPoint.value)).toBe("max(1, 5, 2)");
});

it("parseExpression(text) keeps the place of every name and operator in the text as typed", () => {
  expect(parseExpression("µ_1  +  boss")).toMatchObject({
    value: { character: 5, left: { kind: "name", name: "μ_1", character: 0 }, right: { name: "boss", character: 8 } },
  });
  expect(parseExpression("30° * (a - b)")).toMatchObject({ value: { character: 4, left: { character: 0 }, right: { character: 9 } } });
});

it.each([
  ["brackets", `${"(".repeat(60)}a${")".repeat(60)}`, "brackets more than 50 deep @50"],
  ["length", "a + ".repeat(600), "a formula of 2400 characters @undefined"],
  ["name", "a".repeat(81), "a name of 81 characters @0"],
])("parseExpression(text) bounds its work: %s", (_, text, expected) => {
  expect(bound(text)).toBe(expected);
});

it.each([
  ["a long sum", Array(660).fill("a").join("+ "), undefined],
  ["signs", `${"-".repeat(1999)}a`, undefined],
  ["a tower of powers", Array(999).fill("a").join("^"), undefined],
  ["deep calls", `${"abs(".repeat(49)}a${")".repeat(49)}`, undefined],
  ["open brackets", "(".repeat(50), 'something is missing behind "("'],
])("parseExpression(%s) at the limit gives an outcome and no overflow", (_, text, what) => {
  const outcome = parseExpression(text);
  expect(outcome.ok ? namesIn(outcome.value) : outcome.problems[0]?.what).toEqual(outcome.ok ? ["a"] : what);
});

it("namesIn(expression) lists each name once, in order of use", () => {
  const outcome = parseExpression("boss - hypot(bore, 2 mm) * pi + boss^2");
  expect(outcome.ok && namesIn(outcome.value)).toEqual(["boss", "bore"]);
});

it("isReservedName(name) covers units, functions, constants, and refused words, and leaves names of the runtime free", () => {
  for (const name of ["mm", "in", "K", "μm", "sqrt", "pi", "mod", "true"]) expect(isReservedName(name)).toBe(true);
  for (const name of ["boss", "width", "invalidation", "constructor", "__proto__", "mm2"]) expect(isReservedName(name)).toBe(false);
});
