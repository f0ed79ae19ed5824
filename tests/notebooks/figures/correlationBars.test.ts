import { describe, expect, it } from "vitest";
import type { ResultCorrelation } from "../../../lib/decision/correlationsOfResult.ts";
import { correlationBars } from "../../../notebooks/figures/correlationBars.ts";
import { correlationTable } from "../../../notebooks/figures/correlationTable.ts";
import { drawn, faultsOf } from "./drawnFigure.ts";

const of = (...coefficients: readonly number[]): ResultCorrelation[] =>
  coefficients.map((coefficient, i) => ({ id: `result ${i + 1}`, group: "sizes", coefficient }));
const bars = (correlations: readonly ResultCorrelation[], width = 520) =>
  drawn((environment) => correlationBars(correlations, { title: "zero X", width }, environment));

describe("correlationBars(correlations, options)", () => {
  it("has a dot at its place on the scale from -1 to 1, to the right for what errs the same way", () => {
    const { root, words } = bars(of(0.5, -0.25));
    const places = [...root.querySelectorAll("circle")].map((dot) => Number(dot.getAttribute("cx")));
    const marks = [...root.querySelectorAll("text.fig-middle")].map((mark) => Number(mark.getAttribute("x")));
    const [least, nothing, most] = marks as [number, number, number];
    expect(places[0]).toBeCloseTo((nothing + most) / 2, 1);
    expect(places[1]).toBeCloseTo(nothing + (least - nothing) / 4, 1);
    expect(words).toEqual(expect.arrayContaining(["+0.50", "−0.25", "−1", "0", "+1"]));
  });
  it("tells what it does not draw: the weaker ones beyond eight, and those that share no doubt", () => {
    const figure = bars(of(0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.25, -0.2, 0.1, 0.004, 0));
    expect(figure.root.querySelectorAll("circle")).toHaveLength(8);
    expect(figure.words).toContain("2 results more, none stronger than +0.20.");
    expect(figure.words).toContain("With 2 results it shares no doubt.");
  });
  it("says so where nothing goes together with it, or nothing else is in doubt", () => {
    expect(bars(of(0, 0.001)).words).toEqual(["It shares no doubt with any other result."]);
    expect(bars([]).words).toEqual(["No other result is in doubt."]);
  });
  it.each([
    ["all kinds", of(1, -1, 0.9999, -0.9999, 0.01)],
    [
      "long names",
      [{ id: "deviation of a hole whose name somebody has made far too long to be drawn", group: "sizes" as const, coefficient: -0.9999 }],
    ],
    ["none", of()],
  ])("is whole with %s", (_what, correlations) => {
    for (const width of [320, 340, 429, 430, 520]) expect(faultsOf(bars(correlations, width))).toEqual([]);
  });
});

it("correlationTable(correlations, options) has every result, with its sign", () => {
  expect(correlationTable(of(1, -0.9999, 0.123, -0.001), { title: "zero X" }).rows).toEqual([
    ["result 1", "+1.00"],
    ["result 2", "<\u202f−0.99"],
    ["result 3", "+0.12"],
    ["result 4", "0.00"],
  ]);
});
