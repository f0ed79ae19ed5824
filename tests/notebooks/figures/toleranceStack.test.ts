import { describe, expect, it } from "vitest";
import { mm } from "../../../lib/base/quantity.ts";
import { type Stack, stackOf } from "../../../lib/tolerance/stack.ts";
import { budgetsOf, type Contribution } from "../../../lib/uncertainty/budget.ts";
import { writerOf } from "../../../notebooks/figures/displayUnit.ts";
import { stackInWords } from "../../../notebooks/figures/stackInWords.ts";
import { stackTable } from "../../../notebooks/figures/stackTable.ts";
import { toleranceStack } from "../../../notebooks/figures/toleranceStack.ts";
import { drawn, faultsOf } from "./drawnFigure.ts";
import { budget, contribution, resultWith } from "./exampleBudget.ts";

const figure = (stack: Stack, width = 520) =>
  drawn((environment) => toleranceStack(stack, { title: "wall", unit: "mm", width }, environment));
const coordinate = (value: number, limits: [number, number], ...contributions: Contribution[]) =>
  stackOf({ id: "wall", kind: "coordinate", of: "wall", axis: "X", limits: { lower: mm(limits[0]), upper: mm(limits[1]) } }, [
    budget(value, ...contributions),
  ]);
const position = (x: number, y: number, zone: number, ...contributions: Contribution[]) =>
  stackOf(
    { id: "hole", kind: "position", of: "hole", zone: mm(zone) },
    budgetsOf([
      resultWith(x, contributions),
      resultWith(
        y,
        contributions.map((each) => ({ ...each, source: { ...each.source, id: `${each.source.id} y` } })),
      ),
    ]),
  );

/** A source that ends, equally likely anywhere. */
function bounded(label: string, halfWidth: number): Contribution {
  const made = contribution(label, halfWidth / Math.sqrt(3));
  return { ...made, sensitivity: 1, source: { ...made.source, distribution: { shape: "rectangular", halfWidth } } };
}

describe("toleranceStack(stack, options)", () => {
  it("names both limits with their signs, and the shares", () => {
    // Normal with u 0.01 in ±0.03: root sum square and worst case are both 3 u, all of the tolerance.
    const { words } = figure(coordinate(0, [-0.03, 0.03], contribution("a", 0.01)));
    expect(words).toEqual(expect.arrayContaining(["−0.03", "+0.03 mm"]));
    expect(words.filter((word) => word === "100 %")).toHaveLength(2);
  });

  it("says the chance outside as one in so many, with its number", () => {
    // Outside ±3 standard deviations: 0.0027, 1 in 370 (JCGM 100:2008, Table G.1: 99.73 % within 3).
    expect(figure(coordinate(0, [-0.03, 0.03], contribution("a", 0.01))).words).toContain("Chance outside: 1 in 370 (0.0027).");
  });

  // A normal of 0.01 and a rectangle of h times 0.01 along both axes, radius r times 0.01: the noncentral chi-square's tail averaged over both
  // rectangles (scipy 1.17, stats.ncx2.sf, Gauss-Legendre of 200 places each).
  it.each([
    [1, 5.5, 5.648808751186586e-6],
    [1, 6.3, 1.055439432838823e-7],
    [1, 6.6, 2.0322189432061073e-8],
    [1, 7.3, 3.124430024671952e-10],
    [0.3, 5.9, 4.453955552848098e-8],
    [0.3, 6, 2.4945784010854166e-8],
  ])("of a position tells a rare chance outside to its digits, or a bound of it: h = %d, r = %d", (h, r, outside) => {
    const stack = position(0, 0, 0.02 * r, contribution("a", 0.01), bounded("b", 0.01 * h));
    expect(Math.abs(1 - stack.chance - outside)).toBeLessThanOrEqual(stack.chanceError);
    expect(Math.abs(1 - stack.distribution.cumulative(0.02 * r) - outside)).toBeLessThanOrEqual(stack.distribution.error);
    const words = stackInWords(stack, writerOf("mm"))[1] as string;
    const [, mantissa, exponent] = /\((\S+) × 10⁻(.)\)\.$/.exec(words) as RegExpExecArray;
    const told = Number(mantissa) * 10 ** -"⁰¹²³⁴⁵⁶⁷⁸⁹".indexOf(exponent as string);
    if (words.includes("less than")) {
      expect(told).toBeGreaterThan(outside);
      expect(told).toBeLessThan(outside + 5e-9);
    } else expect(Math.abs(told / outside - 1)).toBeLessThan(0.051);
  });

  it("of a coordinate tells parts per thousand million", () => {
    // Outside ±6 standard deviations: 2 in a thousand million, 1.973 × 10⁻⁹ (tables of the normal).
    expect(figure(coordinate(0, [-0.06, 0.06], contribution("a", 0.01))).words.join(" ")).toContain(
      "Chance outside: 2 in a thousand million (2.0 × 10⁻⁹).",
    );
  });

  it("hatches what lies outside, and nothing when all is inside", () => {
    const hatched = (stack: Stack) => figure(stack).root.querySelectorAll(".fig-outside").length;
    expect(hatched(coordinate(0, [-0.01, 0.01], contribution("a", 0.01)))).toBe(2);
    expect(hatched(coordinate(0.01, [-0.1, 0.01], contribution("a", 0.01)))).toBe(1);
    expect(hatched(coordinate(0, [-1, 1], contribution("a", 0.01)))).toBe(0);
  });

  it("says none only where the distribution ends within the limits", () => {
    expect(figure(coordinate(0, [-0.03, 0.03], bounded("a", 0.01))).words.join(" ")).toContain(
      "Chance outside: none, the distribution ends within the limits.",
    );
    expect(figure(coordinate(0, [-1, 1], contribution("a", 0.01))).words.join(" ")).toContain(
      "Chance outside: less than 1 in a thousand million.",
    );
  });

  it("draws a position from nothing to its zone", () => {
    const { words, root } = figure(position(0.01, 0.02, 0.1, contribution("a", 0.005)));
    expect(words).toContain("zone ⌀ 0.1 mm");
    expect(root.querySelectorAll(".fig-limit")).toHaveLength(1);
  });

  it("cuts off bars that lie far outside, and still says how far", () => {
    const { root, words } = figure(coordinate(0, [-0.01, 0.01], contribution("a", 1)));
    expect(root.querySelectorAll(".fig-break")).toHaveLength(4);
    expect(words.join(" ")).toContain("30\u202f000 %");
  });

  it.each([
    ["no sources", coordinate(0.01, [-0.1, 0.1])],
    ["no sources, and outside", coordinate(0.2, [-0.1, 0.1])],
    ["a position without sources", position(0, 0, 0.1)],
    ["one bounded source", coordinate(0, [-0.1, 0.1], bounded("a", 0.05))],
    ["huge limits", coordinate(4e4, [-1e6, 1e6], contribution("a", 2e5))],
    ["tiny limits", coordinate(1e-7, [-1e-6, 2e-6], contribution("a", 3e-7))],
    ["a deviation far outside", coordinate(5, [-0.01, 0.01], contribution("a", 0.001))],
    ["limits on one side of nothing", coordinate(0.02, [0.01, 0.05], contribution("a", 0.005))],
    ["a spike in a wide tolerance", coordinate(0, [-5, 5], contribution("a", 0.0001))],
    [
      "heavy tails",
      coordinate(0, [-0.05, 0.05], {
        ...contribution("a", 0.01),
        source: { ...contribution("a", 0.01).source, distribution: { shape: "scaledT", scale: 0.01, degreesOfFreedom: 1 } },
      }),
    ],
    [
      "a sine",
      coordinate(0, [-0.05, 0.05], {
        ...contribution("a", 0.01),
        source: { ...contribution("a", 0.01).source, distribution: { shape: "arcsine", halfWidth: 0.01 * Math.SQRT2 } },
      }),
    ],
  ])("is whole with %s", (_what, stack) => {
    for (const width of [320, 340, 520]) expect(faultsOf(figure(stack, width))).toEqual([]);
  });
});

it("stackInWords(stack, writer) tells that sources without an end were counted with three standard uncertainties", () => {
  const words = (stack: Stack) => stackInWords(stack, writerOf("mm")).join(" ");
  expect(words(coordinate(0, [-0.1, 0.1], contribution("a", 0.01)))).toContain("3 standard uncertainties");
  expect(words(coordinate(0, [-0.1, 0.1], bounded("a", 0.01)))).not.toContain("3 standard uncertainties");
});

it("stackTable(stack, options) has both components of a position, at one standard uncertainty and at the limit", () => {
  const { columns, rows } = stackTable(position(0, 0, 0.1, bounded("a", 0.01)), { title: "hole", unit: "mm" });
  expect(columns).toHaveLength(7);
  // A half-width of 0.01 has the standard uncertainty 0.00577 (JCGM 100:2008, 4.3.7).
  expect(rows[0]).toEqual(["a", "machine", "+0.00577", "0.00000", "+0.01000", "0.00000", "its own end"]);
});
