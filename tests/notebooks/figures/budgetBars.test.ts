import { describe, expect, it } from "vitest";
import type { Budget } from "../../../lib/uncertainty/budget.ts";
import { families } from "../../../lib/uncertainty/source.ts";
import { budgetBars } from "../../../notebooks/figures/budgetBars.ts";
import { budgetTable } from "../../../notebooks/figures/budgetTable.ts";
import type { DisplayUnit } from "../../../notebooks/figures/displayUnit.ts";
import { drawn, faultsOf } from "./drawnFigure.ts";
import { budget, contribution } from "./exampleBudget.ts";

const bars = (found: Budget, width = 520, unit: DisplayUnit = "mm") =>
  drawn((environment) => budgetBars(found, { title: "zero X", unit, width }, environment));

describe("budgetBars(budget, options)", () => {
  it("groups by family in fixed order, the larger amount first, with signs", () => {
    const { words } = bars(
      budget(
        1,
        contribution("cut", 0.002, "process"),
        contribution("drift", -0.003, "heat"),
        contribution("radius", 0.001, "contact tool"),
        contribution("trigger", -0.004, "contact tool"),
      ),
    );
    expect(words.filter((word) => (families as readonly string[]).includes(word))).toEqual(["contact tool", "heat", "process"]);
    expect(words.filter((word) => /^[+−]/.test(word))).toEqual(["−0.0040", "+0.0010", "−0.0030", "+0.0020"]);
  });

  it("states the combined and the expanded uncertainty with k", () => {
    // Normal, all well known: 95.45 % is k = 2.00 (JCGM 100:2008, Table G.1).
    expect(
      bars(budget(1, contribution("a", 0.003), contribution("b", 0.004)))
        .words.join(" ")
        .replaceAll("\u202f", " "),
    ).toContain("together u = 0.0050 mm, unlimited effective degrees of freedom, U = 0.0100 mm (k = 2.00, 95.45 %)");
    // t of 4 degrees of freedom at 95.45 %: 2.87 (JCGM 100:2008, Table G.2).
    expect(
      bars(budget(1, contribution("a", 0.003, "machine", 4)))
        .words.join(" ")
        .replaceAll("\u202f", " "),
    ).toContain("4.0 effective degrees of freedom, U = 0.0086 mm (k = 2.87");
  });

  it("merges the smallest sources that make less than 1 % of the variance together", () => {
    const small = Array.from({ length: 7 }, (_, i) => contribution(`small ${i}`, 0.0003));
    const { words } = bars(budget(0, contribution("large", 0.01), ...small));
    // 7 · 0.0003² of 0.01² + 7 · 0.0003²: 0.63 %.
    expect(words).toContain("7 more, 0.63 % of the variance");
    expect(words).not.toContain("small 0");
  });

  it("leaves one small source its name, and merges nothing that makes 1 % or more", () => {
    expect(bars(budget(0, contribution("large", 0.01), contribution("small", 0.0001))).words).toContain("small");
    expect(bars(budget(0, contribution("large", 0.01), contribution("a", 0.0008), contribution("b", 0.0008))).words).toContain("b");
  });

  it("shows twenty-four of sixty equal sources, and says what the others make", () => {
    const figure = bars(budget(0, ...Array.from({ length: 60 }, (_, i) => contribution(`s${i}`, 0.001))));
    expect(figure.words).toContain("36 more, 60 % of the variance");
    expect(faultsOf(figure)).toEqual([]);
  });

  it("says that a result without sources is exact", () => {
    for (const found of [budget(3), budget(3, contribution("nothing", 0))]) {
      const figure = bars(found);
      expect(figure.words).toEqual(["exact: no source of doubt enters"]);
      expect(faultsOf(figure)).toEqual([]);
    }
  });

  it.each([
    ["one source", budget(0, contribution("only", -0.002))],
    ["huge amounts", budget(0, contribution("a", 4e7), contribution("b", -2e7))],
    ["tiny amounts", budget(0, contribution("a", 4e-9), contribution("b", -2e-9))],
    ["amounts of very different size", budget(0, contribution("a", 1e3), contribution("b", 1e-6), contribution("c", 2e-6))],
    [
      "long names",
      budget(
        0,
        contribution("scatter of a touch whose name somebody has made far too long to be drawn", 0.001),
        contribution("b", 0.001, "heat", 1),
      ),
    ],
  ])("is whole with %s", (_what, found) => {
    for (const width of [320, 340, 520]) expect(faultsOf(bars(found, width))).toEqual([]);
  });

  it("shows inches and degrees", () => {
    const found = budget(0, contribution("a", 0.00254), contribution("b", -0.001));
    expect(bars(found, 520, "inch").words).toContain("+0.00010");
    expect(bars(found, 520, "degree").words).toContain("+0.15");
  });
});

describe("budgetTable(budget, options)", () => {
  it("has every source, also those that the figure merges", () => {
    const found = budget(
      0,
      contribution("large", 0.01),
      ...Array.from({ length: 5 }, (_, i) => contribution(`small ${i}`, 0.0001, "part", 3)),
    );
    const { rows } = budgetTable(found, { title: "zero X", unit: "mm" });
    expect(rows).toHaveLength(6);
    expect(rows[0]).toEqual(["large", "machine", "+0.0100", "> 99.9 %", "unlimited", "stated"]);
    expect(rows[1]?.slice(3)).toEqual(["< 0.1 %", "3", "stated"]);
  });
  it("has no row and says so when the result is exact", () => {
    expect(budgetTable(budget(3), { title: "x", unit: "mm" })).toMatchObject({ rows: [], caption: expect.stringContaining("exact") });
  });
});
