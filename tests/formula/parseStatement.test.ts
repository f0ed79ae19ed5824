import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { checkStatement } from "../../lib/formula/checkStatement.ts";
import { describeDoubt } from "../../lib/formula/describeDoubt.ts";
import { angleDimension, lengthDimension } from "../../lib/formula/dimension.ts";
import { evaluateStatement } from "../../lib/formula/evaluateStatement.ts";
import { namesIn } from "../../lib/formula/expression.ts";
import { formatStatement, formulaWithNumbers } from "../../lib/formula/formatStatement.ts";
import { parseStatement } from "../../lib/formula/parseStatement.ts";
import { unit } from "../../lib/formula/units.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { dimensions, own, read, values } from "./statements.ts";

// JCGM 100:2008, 7.2.2: the same result in its four forms (there in grams).
it.each([
  ["100.02147 mm ± 0.00035 mm"],
  ["100.02147(35) mm"],
  ["100.02147(0.00035) mm"],
  ["(100.02147 ± 0.00035) mm"],
  ["100.02147 ± 0.00035 mm"],
  ["100.02147 mm +- 0.35 um"],
  ["100.02147 mm+/-0.35 um"],
  ["100.02147mm ± 0.7um (k=2)"],
  ["100,02147(35) mm"],
])("%s is 100.02147 with standard uncertainty 0.00035", (text) => {
  const result = read(text);
  expect(result).toMatchObject({ value: 100.02147 });
  expect(typeof result === "string" ? 0 : result.standardUncertainty).toBeCloseTo(0.00035, 15);
});

it.each([
  // JCGM 100:2008, 4.3.3: three standard deviations of 240 µg are a standard uncertainty of 80 µg.
  ["1000.000325 mm ± 0.24 um (k = 3)", 1000.000325, 80e-6, 9],
  // 4.3.7, example 1: an error of at most 0.40e-6 is 0.23e-6.
  ["16.52e-6 within 0.40e-6", 16.52e-6, 0.23e-6, 8],
  // 4.3.8, example: from 16.40e-6 to 16.92e-6, evenly: 0.15e-6 about the middle.
  ["from 16.40e-6 to 16.92e-6", 16.66e-6, 0.15e-6, 8],
  // 4.3.9: a/√6; a √((1 + β²)/6). JCGM 101:2008, 6.4.6: a/√2; 6.4.3 with a half-width of 4 to 8: √(6²/3 + 2²/9).
  ["3 mm within 6 mm triangular", 3, Math.sqrt(6), 14],
  ["3 mm within 6 mm trapezoidal (top 0.5)", 3, 6 * Math.sqrt(1.25 / 6), 14],
  ["3 mm within 6 mm arcsine", 3, 6 / Math.SQRT2, 14],
  ["3 mm within 8 mm curvilinear trapezoidal (top 0.5)", 3, Math.sqrt(12 + 4 / 9), 14],
  // JCGM 101:2008, 6.4.10 and table 1: an exponential above its limit a has the standard deviation q - a (of scipy 1.17: expon(loc = a, scale = q - a).std()).
  ["0.02 mm not below 0.005 mm", 0.02, 0.015, 14],
  ["0.02 mm not below 0.005 mm exponential", 0.02, 0.015, 14],
  ["2.5 not  below 0", 2.5, 2.5, 14],
  ["(-1.5 not below -2) mm", -1.5, 0.5, 14],
  ["estimate(share) * 1 mm not below estimate(share) * 0.5 mm exponential", 0.4, 0.2, 14],
  ["3 mm not below 3 mm", 3, 0, 14],
  // Common practice, no source: limits at three standard deviations.
  ["3 mm within 6 mm normal", 3, 2, 14],
  // Names keep their own doubt: 0.02 of wall and 0.015 of the statement.
  ["2 * wall ± 0.03 mm", 25, 0.05, 14],
  ["wall ± 0.015", 12.5, 0.025, 14],
  // Sizes over what is sure: 0.4 · 0.05; the sample deviation of 3, 5, 8; limits 0.5 to either side of 12.5.
  ["3 mm ± estimate(share) * 0.05 mm", 3, 0.02, 14],
  ["3 mm ± deviation(heights)", 3, Math.sqrt(19 / 3), 14],
  ["from estimate(wall) - 0.5 mm to 13 mm", 12.5, 0.5 / Math.sqrt(3), 14],
  ["wall within estimate(wall) / 1000 triangular", 12.5, Math.hypot(0.02, 0.0125 / Math.sqrt(6)), 14],
  ["3 mm ± count(heights) * 1 um (k = 2)", 3, 0.0015, 14],
  ["0.5 in ± 0.001 in", 12.7, 0.0254, 14],
  ["-3 mm +- 0", -3, 0, 14],
  // JCGM 100:2008, 5.1.6: u(x)/|x| stated; 4.3.3 for k; 4.3.7 for limits.
  ["12.5 mm ± 0.1 %", 12.5, 0.0125, 14],
  ["-12.5 mm +- 0.1% (k = 2)", -12.5, 0.00625, 14],
  ["(12.5 ± 0.1 %) mm", 12.5, 0.0125, 14],
  ["0.5 in ± 1 %", 12.7, 0.127, 14],
  ["16.52e-6 ± 10 %", 16.52e-6, 16.52e-7, 14],
  ["3 mm within 6 % triangular", 3, 0.18 / Math.sqrt(6), 14],
  ["2 * wall ± 0.2 % (df 5)", 25, Math.hypot(0.04, 0.05), 14],
  ["12.5 mm ± estimate(share) / 4 %", 12.5, 0.0125, 14],
  ["12.5 mm ± 0 %", 12.5, 0, 14],
  ["from 3 to 3 mm", 3, 0, 14],
])("%s is %d with standard uncertainty %d", (text, value, standardUncertainty, decimals) => {
  const result = read(text);
  expect(typeof result === "string" ? result : result.value).toBeCloseTo(value, 12);
  expect(typeof result === "string" ? result : result.standardUncertainty).toBeCloseTo(standardUncertainty, decimals);
});

// JCGM 100:2008, 4.4.3 and table 1 (readings from memory; mean, s/√n and ν as printed there: 100.145, 0.333, 19); here in kelvins.
it("readings give their mean, s/√n, n - 1 degrees of freedom, and evidence that counts them", () => {
  const text =
    "96.90; 98.18; 98.25; 98.61; 99.03; 99.49; 99.56; 99.74; 99.89; 100.07; 100.33; 100.42; 100.68; 100.95; 101.11; 101.20; 101.57; 101.84; 102.36; 102.72 K";
  const parsed = parseStatement(text);
  const checked = parsed.ok ? checkStatement(parsed.value, dimensions) : parsed;
  const evaluated = checked.ok ? evaluateStatement(checked.value, values, own) : checked;
  if (!evaluated.ok) throw new Error(evaluated.problems[0]?.what);
  const { value, standardUncertainty, sources } = budgetOf(evaluated.value);
  expect(value).toBeCloseTo(100.145, 3);
  expect(standardUncertainty).toBeCloseTo(0.333, 3);
  expect(sources).toMatchObject([
    {
      id: "own",
      degreesOfFreedom: 19,
      distribution: { shape: "scaledT", degreesOfFreedom: 19 },
      evidence: { kind: "measured", readings: 20 },
    },
  ]);
});

// JCGM 100:2008, F.2.2.1: an indication in steps δx has u = δx/√12, however often it is the same.
it.each([
  ["12.50; 12.50; 12.50 mm", 12.5, 0.01 / Math.sqrt(12)],
  ["12.5; 12.50; 12.500 mm", 12.5, 0.001 / Math.sqrt(12)],
  ["0.50; 0.50 in", 12.7, (0.01 * 25.4) / Math.sqrt(12)],
  ["12; 12 mm", 12, 1 / Math.sqrt(12)],
  // Nine alike and one a digit beside: s/√n is a tenth of a digit, and the readings tell no more than the digit.
  ["1.0; 1.0; 1.0; 1.0; 1.0; 1.0; 1.0; 1.0; 1.0; 1.1 mm", 1.01, 0.1 / Math.sqrt(12)],
  // Scatter that is seen shows the rounding with it: s/√n = 0.01/√2/√2.
  ["12.50; 12.51 mm", 12.505, 0.005],
])("readings %s have the doubt of their last digit where they scatter by less", (text, value, standardUncertainty) => {
  const result = read(text);
  expect(typeof result === "string" ? result : result.value).toBeCloseTo(value, 12);
  expect(typeof result === "string" ? result : result.standardUncertainty).toBeCloseTo(standardUncertainty, 12);
});

/** tests/reference/oneWayAnalysis.py (scipy). */
const grouped: readonly {
  readonly groups: readonly (readonly number[])[];
  readonly chance: number;
  readonly whenGroupsDiffer: { readonly mean: number; readonly u: number; readonly degreesOfFreedom: number };
  readonly whenGroupsAgree: { readonly mean: number; readonly u: number; readonly degreesOfFreedom: number };
}[] = JSON.parse(readFileSync(new URL("../reference/oneWayAnalysis.json", import.meta.url), "utf8"));

// JCGM 100:2008, H.5.2: groups whose F passes 5 % count as groups, others as one (scipy).
it.each(grouped)("readings in groups $groups have the doubt of their groups where these differ", ({ groups, chance, ...expected }) => {
  const { mean, u, degreesOfFreedom } = chance < 0.05 ? expected.whenGroupsDiffer : expected.whenGroupsAgree;
  const result = read(`${groups.map((group) => group.map((value) => value.toFixed(4)).join("; ")).join(" | ")} mm`);
  if (typeof result === "string") throw new Error(result);
  expect(result.value).toBeCloseTo(mean, 10);
  expect(result.standardUncertainty).toBeCloseTo(u, 10);
  expect(result.sources).toMatchObject([{ degreesOfFreedom }]);
  // The values that the estimate is the mean of, and their s/√n.
  const { repeats = [] } = result.sources[0] ?? {};
  expect(repeats.length).toBe(degreesOfFreedom + 1);
  expect(repeats.reduce((sum, value) => sum + value, 0) / repeats.length).toBeCloseTo(mean, 10);
});

it("readings in groups that all agree have the doubt of their last digit", () => {
  const result = read("12.50; 12.50 | 12.50; 12.50 mm");
  expect(typeof result === "string" ? result : result.standardUncertainty).toBeCloseTo(0.01 / Math.sqrt(12), 12);
});

it("equal readings without a digit that tells their step are refused", () => {
  expect(read("1/2 in; 1/2 in")).toMatch(/no digit tells by what step/);
});

it("a doubt with few degrees of freedom is a t of that many; limits of a normal one are kept for the worst case", () => {
  const sourceOf = (text: string) => {
    const parsed = parseStatement(text);
    const checked = parsed.ok ? checkStatement(parsed.value, dimensions, { bareUnit: unit("mm") }) : parsed;
    const evaluated = checked.ok ? evaluateStatement(checked.value, values, own) : checked;
    return evaluated.ok ? budgetOf(evaluated.value).sources.find(({ id }) => id === "own") : evaluated.problems[0];
  };
  for (const notes of ["(9 degrees of freedom) (k = 2)", "(df 9, k = 2)", "(k=2; df = 9)"]) {
    expect(sourceOf(`wall ± 0.02 mm ${notes}`)).toMatchObject({
      estimate: 0,
      degreesOfFreedom: 9,
      distribution: { shape: "scaledT", scale: 0.01, degreesOfFreedom: 9 },
      evidence: { kind: "stated" },
    });
  }
  expect(sourceOf("5 mm within 0.3 mm normal")).toMatchObject({ estimate: 5, limit: 0.3, degreesOfFreedom: Number.POSITIVE_INFINITY });
});

// JCGM 100:2008, G.4.2: u known to 25 % has 8 degrees of freedom; table E.1: to 10 %, 50 of them.
it.each([
  ["12.5 mm ± 0.002 mm (known to 25 %)", 8],
  ["12.5 mm ± 0.1 % (k = 2; known to 10%)", 50],
])("%s has %d degrees of freedom", (text, degreesOfFreedom) => {
  const result = read(text);
  if (typeof result === "string") throw new Error(result);
  expect(result.sources[0]?.degreesOfFreedom).toBeCloseTo(degreesOfFreedom, 10);
  expect(result.sources[0]?.distribution).toMatchObject({ shape: "scaledT" });
});

it.each([
  ["", "nothing is typed @undefined"],
  ["12 mm ±", "a number is missing here @7"],
  ["± 2 mm", "the value is missing before its doubt @0"],
  ["12 mm ± 1 deg", "the doubt is an angle, the value a length @8"],
  ["12 mm ± -1 mm", "a doubt cannot be negative @8"],
  ["12 mm ± 1 mm ± 2 mm", "a value has one doubt, and here is a second one @13"],
  ["12 mm within 1 mm ± 2 mm", "a value has one doubt, and here is a second one @18"],
  ["1; 2 mm ± 3 mm", "a value has one doubt, and here is a second one @8"],
  ["2 * (wall ± 1 mm)", "± stands inside brackets: a value has its doubt behind the whole formula @10"],
  ["max(wall, 3 mm +-1 mm)", "+- stands inside brackets: a value has its doubt behind the whole formula @15"],
  ["wall ± bore", 'a doubt cannot itself be in doubt, and "bore" is @7'],
  ["3 mm ± 2 * share * wall", 'a doubt cannot itself be in doubt, and "share" is @7'],
  ["3 mm ± mean(heights)", 'a doubt cannot itself be in doubt, and "heights" is @7'],
  ["3 mm within estimate(bore)", "a doubt cannot be negative @12"],
  ["3 mm ± estimate(skew)", "the doubt is an angle, the value a length @7"],
  ["3 mm ± heights", '"heights" is a column, and one value is expected here @7'],
  ["0.02 mm not below 0.03 mm", "the expectation is below this limit @18"],
  ["0.02 mm not below 1 K", "the limit is a temperature, the expectation a length @18"],
  ["0.02 mm not below", "a number is missing here @17"],
  [" not below 1 mm", "the value is missing before its doubt @0"],
  ["0.02 mm not below 5 %", "a limit is no share of the value @17"],
  ["0.02 mm not below 0 mm ± 1 mm", "a value has one doubt, and here is a second one @23"],
  [
    "0.02 mm not below 0 mm (df 9)",
    "degrees of freedom belong behind a standard uncertainty: 12.5 mm ± 0.002 mm (9 degrees of freedom) @24",
  ],
  ["0.02 mm not below 0 mm triangular", '"triangular" needs two limits, and this quantity has one @23'],
  ["0.02 mm not below 0 mm exponentail", '"exponentail" is not understood here @23'],
  ["0.02 mm within 0.01 mm exponential", '"exponential" is of a quantity with one limit, of which the expectation is known @23'],
  ["from 1 mm to 2 mm exponential", '"exponential" is of a quantity with one limit, of which the expectation is known @18'],
  ["0.02 mm not above 1 mm", '"not" is not understood in a formula @8'],
  ["wall not below 12 mm", 'a doubt cannot itself be in doubt, and "wall" is @0'],
  ["1 mm + (2 mm not below 0 mm)", '"not" is not understood in a formula @13'],
  ["3 mm within bore", 'a doubt cannot itself be in doubt, and "bore" is @12'],
  ["3 mm within 2 * bore", 'a doubt cannot itself be in doubt, and "bore" is @12'],
  ["wall; 3 mm", '"wall" is a name, and a number is expected here @0'],
  ["from wall to 3 mm", 'a doubt cannot itself be in doubt, and "wall" is @5'],
  ["from estimate(wall) to 3 mm", "the second limit is below the first @23"],
  ["from 3 mm", '"from" needs a second limit behind "to" @9'],
  ["from 3 mm to 2 mm", "the second limit is below the first @13"],
  ["from 3 mm to 2 K", "the second limit is a temperature, the first one a length @13"],
  ["1 mm; 2 K", "this reading is a temperature, the first one a length @6"],
  ["1; ; 2 mm", "a number is missing here @2"],
  ["3 mm within 1 mm uniform", '"uniform" is not understood here @17'],
  ["3 mm within 1 mm trapezoidal", "trapezoidal needs the share of its width that is flat @28"],
  ["3 mm within 1 mm trapezoidal (top 1.5)", '"top 1.5" cannot be @34'],
  ["3 mm (k = 2)", "a coverage factor belongs behind an expanded uncertainty: 12.5 mm ± 0.004 mm (k = 2) @6"],
  ["3 mm within 1 mm (df 9)", "degrees of freedom belong behind a standard uncertainty: 12.5 mm ± 0.002 mm (9 degrees of freedom) @18"],
  ["3 mm ± 1 mm (k = 0)", '"k = 0" cannot be @17'],
  ["3 mm ± 1 mm (known to 0 %)", '"known to 0 %" cannot be @22'],
  ["3 mm ± 1 mm (known to 25)", '"known to 25" cannot be @22'],
  ["3 mm ± 1 mm (k = 2, confident)", '"confident" is not understood behind a doubt @19'],
  ["3 mm ± 1 mm (k = 2) (k = 3)", "this is said twice @13"],
  ["12.50(1.2) mm", '"1.2" is no uncertainty of 12.50 @6'],
  ["12.50(12) kg", '"kg" is not a unit known here @10'],
  ["12,500(2) mm", "the comma can be a decimal mark (12.500) or a thousands mark (12500) @2"],
  ["2 * 12.50(1) mm", 'an operator is missing between "12.50" and "(" @9'],
  ["(wall ± 0.1) mm", 'the unit "mm" behind the brackets needs bare numbers inside @1'],
  ["0 mm ± 5 %", "the value is 0, and a doubt in per cent of nothing says nothing @7"],
  ["wall - wall within 1 %", "the value is 0, and a doubt in per cent of nothing says nothing @19"],
  ["12 mm ± -1 %", "a doubt cannot be negative @8"],
  ["12 mm ± %", "a number is missing here @7"],
  ["12 mm ± 1 mm %", "the doubt in per cent is a length @8"],
  ["12 mm ± share %", 'a doubt cannot itself be in doubt, and "share" is @8'],
  ["warmth ± 1 %", "a temperature has no doubt in per cent, since where its scale begins is a matter of choice @9"],
  ["from 3 mm to 5 %", "a limit is no share of the value @12"],
  ["12 mm + 5 %", "the sign % is not understood in a formula @10"],
  [
    "12.1 | 12.2 mm",
    "| parts groups of readings, such as days, and no group here has two: what differs between them cannot be told from the scatter @5",
  ],
  ["12.1; 12.2 | ", "a number is missing here @12"],
  ["12.1; 12.2 | wall", '"wall" is a name, and a number is expected here @13'],
  ["12.1; 12.2 | 12.3 ± 1", "a value has one doubt, and here is a second one @18"],
  ["wall + heights", '"heights" is a column, and one value is expected here @7'],
])("parseStatement(%j) and its check say what is wrong and where", (text, expected) => {
  expect(read(text)).toContain(expected.replace(/ @\w+$/, ""));
  expect(read(text)).toMatch(new RegExp(`${/@\w+$/.exec(expected)?.[0]}$`));
});

it.each([
  // The unit given once goes for both; where it is not that of the notebook, both numbers must have as many decimals.
  ["12.500 ± 0.002 in", "mm", 317.5],
  ["12.5 ± 2 um", "mm", "it is unclear whether this number is in um or in mm @0"],
  ["12.5 mm ± 0.002", "in", "it is unclear whether this number is in mm or in in @10"],
  ["12.5 mm ± 0.002", "mm", 12.5],
  ["25.4 mm + wall ± 0.001", "in", "it is unclear in which unit this number is @17"],
  ["wall ± 0.001", "in", 12.5],
  ["2 mm * 3 mm ± 1", "mm", "it is unclear in which unit this number is @14"],
  ["1; 2 in; 3", "in", 50.8],
  ["1; 2 in; 3 mm", "in", "it is unclear in which unit this number is @0"],
  ["12.500 ± 0.002", "mm", 12.5],
] as const)("%s in a notebook in %s: %s", (text, notebook, expected) => {
  const result = read(text, notebook);
  expect(typeof result === "string" ? result : result.value).toBe(expected);
});

it("checkStatement(statement, dimensions, place) gives bare statements the unit of their place and refuses other dimensions", () => {
  const check = (text: string, place: Parameters<typeof checkStatement>[2]) => {
    const parsed = parseStatement(text);
    return parsed.ok ? checkStatement(parsed.value, dimensions, place) : parsed;
  };
  const inches = { bareUnit: unit("in"), dimension: lengthDimension };
  expect(check("1 ± 0.1", inches)).toMatchObject({
    ok: true,
    value: { dimension: lengthDimension, doubt: { distribution: { standardDeviation: 2.54 } } },
  });
  expect(check("share * 2", inches)).toMatchObject({ ok: false, problems: [{ what: "the formula gives a number", expected: "a length" }] });
  expect(check("1", {})).toMatchObject({ ok: true, value: { isBare: true } });
  expect(() => check("1", { bareUnit: unit("in"), dimension: angleDimension })).toThrow(RangeError);
});

it.each([
  ["12.500(2) mm", "12.500 mm ± 0.002 mm", "standard uncertainty 0.0020 mm"],
  [
    "wall+-.02 (df 1)(k = 2)",
    "wall ± 0.02 (k = 2) (1 degree of freedom)",
    "expanded uncertainty 0.020 mm with k = 2: standard uncertainty 0.010 mm, 1 degree of freedom",
  ],
  [
    "wall within ± 0.1 mm",
    "wall within 0.1 mm",
    "within 0.10 mm of the best estimate, equally likely anywhere: standard uncertainty 0.058 mm",
  ],
  [
    "from 1 to 2 mm normal",
    "from 1 to 2 mm normal",
    "within 0.50 mm of the best estimate, normal with the limits at three standard deviations: standard uncertainty 0.17 mm",
  ],
  [
    "1;1 mm",
    "1; 1 mm",
    "mean of 2 readings, which scatter by less than their last digit tells: within 0.50 mm, equally likely anywhere: standard uncertainty 0.29 mm",
  ],
  ["12.5 mm ± 0.1%", "12.5 mm ± 0.1 %", "0.1 % of the value: standard uncertainty 0.013 mm"],
  ["12.5 mm ± .2 % (k=2)", "12.5 mm ± 0.2 % (k = 2)", "expanded uncertainty 0.2 % of the value with k = 2: standard uncertainty 0.013 mm"],
  [
    "50 mm within 1 % triangular",
    "50 mm within 1 % triangular",
    "within 1 % of the value, 0.50 mm of the best estimate, most likely in the middle (triangular): standard uncertainty 0.20 mm",
  ],
  [
    "10;11;12.5;9|10.5;11.5;12;9.5 mm",
    "10; 11; 12.5; 9 | 10.5; 11.5; 12; 9.5 mm",
    "mean of 8 readings in 2 groups, which do not differ more than their readings scatter (F = 0.0723, chance by scatter alone 80 %), each scattering by 1.3 mm within its group: standard uncertainty 0.43 mm, 7 degrees of freedom",
  ],
  [
    ".02 mm not below 5 um exponential",
    "0.02 mm not below 5 um",
    "never more than 0.015 mm below the best estimate, without an end above it (exponential): standard uncertainty 0.015 mm",
  ],
  ["1;3 mm", "1; 3 mm", "mean of 2 readings, each scattering by 1.4 mm: standard uncertainty 1.0 mm, 1 degree of freedom"],
  [
    "wall within 1e-20 mm arcsine",
    "wall within 1e-20 mm arcsine",
    "within 1.0e-20 mm of the best estimate, most likely at the ends (arcsine): standard uncertainty 7.1e-21 mm",
  ],
])("%s is printed as %s and told as %s", (text, printed, told) => {
  const parsed = parseStatement(text);
  const checked = parsed.ok ? checkStatement(parsed.value, dimensions, { bareUnit: unit("mm") }) : parsed;
  expect(parsed.ok && formatStatement(parsed.value)).toBe(printed);
  expect(checked.ok && checked.value.doubt && describeDoubt(checked.value.doubt, unit("mm"))).toBe(told);
});

it.each([
  ["(left_face + right_face) / 2", "(−398.4655 mm + −238.2548 mm) / 2"],
  ["-left_face^2 - right_face", "-(−398.4655 mm)^2 - −238.2548 mm"],
  ["-left_face / right_face", "-(−398.4655 mm) / (−238.2548 mm)"],
  ["2 * left_face ± 0.002 mm", "2 * −398.4655 mm ± 0.002 mm"],
])("formulaWithNumbers(%s) is %s", (text, expected) => {
  const parsed = parseStatement(text);
  const numbers = new Map([
    ["left_face", "−398.4655 mm"],
    ["right_face", "−238.2548 mm"],
  ]);
  expect(parsed.ok && namesIn(parsed.value.expression).every((name) => numbers.has(name))).toBe(true);
  expect(parsed.ok && formulaWithNumbers(parsed.value, (name) => numbers.get(name) ?? "")).toBe(expected);
});
