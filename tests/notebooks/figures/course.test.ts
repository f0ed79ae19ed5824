import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { judgeRun } from "../../../lib/decision/judgeRun.ts";
import { judgeWarmUp } from "../../../lib/decision/judgeWarmUp.ts";
import { parseDocument } from "../../../lib/document/parseDocument.ts";
import { evaluateSetup } from "../../../lib/evaluateSetup.ts";
import { strategyInUse } from "../../../lib/record/strategyInUse.ts";
import { watchRun } from "../../../lib/run/watchRun.ts";
import { runChart, runChartTable } from "../../../notebooks/figures/runChart.ts";
import { warmUpChart, warmUpChartTable } from "../../../notebooks/figures/warmUpChart.ts";
import { drawn, faultsOf } from "./drawnFigure.ts";

const parsed = parseDocument(readFileSync(new URL("../../documents/runOfPlates.json", import.meta.url), "utf8"));
if (!parsed.ok) throw new Error("the run cannot be read");
const evaluation = evaluateSetup(parsed.value);
const inUse = strategyInUse(evaluation)?.evaluation;
const run = judgeRun(evaluation.setup, inUse);
const warmUp = judgeWarmUp(evaluation.setup, inUse);
if (!run?.ok || !warmUp?.ok) throw new Error("not judged");
const words = ["Told in words."];

describe("runChart", () => {
  const chart = run.value.charts.find(({ element, axis }) => element === "hole 3" && axis === "Y");
  if (chart === undefined) throw new Error("no chart");

  it.each([320, 520, 900])("is sound at %d pixels, with a mark on the part beyond the limits", (width) => {
    const figure = drawn((environment) => runChart(chart, { unit: "mm", width, id: "run", words }, environment));
    expect(faultsOf(figure)).toEqual([]);
    expect(figure.root.querySelectorAll("path.fig-bad.fig-typed")).toHaveLength(1);
    expect(figure.root.querySelectorAll("circle")).toHaveLength(7);
    expect(figure.words).toEqual(expect.arrayContaining(["mean + 3 σ", "mean", "mean − 3 σ", "part of the run"]));
  });

  it("has every part in its table, and says which is beyond", () => {
    const { rows } = runChartTable(chart, "mm");
    expect(rows.map(([part]) => part)).toEqual(["1", "2", "3", "4", "5", "6", "7", "8"]);
    expect(rows.filter(([, , within]) => within === "no").map(([part]) => part)).toEqual(["6"]);
  });

  it("is sound whatever the parts are", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 5, maxLength: 60 }),
        fc.constantFrom("mm" as const, "inch" as const),
        (values, unit) => {
          const of = { element: "hole", axis: "X" as const, values, run: watchRun(values), capabilities: [], prior: 0.01, left: 0.002 };
          expect(faultsOf(drawn((environment) => runChart(of, { unit, width: 400, id: "run", words }, environment)))).toEqual([]);
        },
      ),
      { numRuns: 25 },
    );
  });
});

describe("warmUpChart", () => {
  const { readings } = evaluation.setup.warmUp;

  it.each([320, 900])("is sound at %d pixels, with readings, curve, zero and what is allowed", (width) => {
    const figure = drawn((environment) => warmUpChart(warmUp.value, readings, { unit: "mm", width, id: "warm-up", words }, environment));
    expect(faultsOf(figure)).toEqual([]);
    expect(figure.root.querySelectorAll("circle")).toHaveLength(9);
    expect(figure.words).toEqual(expect.arrayContaining(["zero as set", "allowed", "minutes since the start"]));
  });

  it("tells readings and curve in its table", () => {
    // -241.5054 less the start of -241.506, and none by the curve.
    expect(warmUpChartTable(warmUp.value, readings, "mm").rows[0]).toEqual(["0", "+0.0006", "0.0000"]);
  });
});
