import { describe, expect, it } from "vitest";
import { readSetup } from "../../lib/document/readSetup.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { recordOf } from "../../lib/recordOf.ts";
import { cell } from "../ledger/blocks.ts";
import { documentFrom, must } from "../properties/setups.ts";

function sweptBy(tool: object, more: object = {}) {
  return documentFrom({
    part: { elements: [{ id: "bore", kind: "bore", diameter: "40", datum: "A" }] },
    tools: [{ id: "dial", kind: "swept indicator", scatter: "0.002", ...tool }],
    touches: [{ id: "t", element: "bore", travelling: "sweep", tool: "dial", readings: "X100 Y50", total: { x: "0.2", y: "-0.1" } }],
    strategies: [{ id: "s", touches: ["t"] }],
    ...more,
  });
}

function read(tool: object, more: object = {}) {
  const { setup, problems } = readSetup(sweptBy(tool, more));
  return { lever: setup.tools[0]?.lever, told: problems.map(({ at, what }) => `${at}: ${what}`) };
}

const degree = Math.PI / 180;

describe("the angle of an indicator's lever", () => {
  // 20° are π/9 rad and 1200 arcmin (SI Brochure, table 8).
  it.each(["20", "20 deg", "20°", "1200 arcmin", "2 * ten"])("may be %j, with a doubt beside it", (leverAngle) => {
    const { lever, told } = read({ leverAngle, leverAngleUncertainty: "3" }, { ledger: [cell("ten", "10 deg")] });
    expect(told).toEqual([]);
    expect(lever?.angle).toBeCloseTo(Math.PI / 9, 12);
    expect(lever?.standardUncertainty).toBeCloseTo(3 * degree, 12);
  });

  it("may bring its doubt along, in itself or by a cell, and shares the cell's source", () => {
    for (const [leverAngle, source] of [
      ["20 deg ± 3 deg", "tool dial, lever angle"],
      ["tilted", "cell tilted"],
    ] as const) {
      const { strategies, problems } = evaluateSetup(sweptBy({ leverAngle }, { ledger: [cell("tilted", "20 deg ± 3 deg")] }));
      expect(problems).toEqual([]);
      const budget = must(must(strategies[0]?.evaluation ?? { ok: false, problems: [] }).zero[0]);
      // Half the total of 0.2 times the sine of the angle, by hand; a bore's axis lies away from the larger reading.
      expect(Math.abs(budget.contributions.find(({ source: { id } }) => id.startsWith(source))?.sensitivity ?? 0)).toBeCloseTo(
        0.1 * Math.sin(20 * degree),
        12,
      );
      expect(budget.value).toBeCloseTo(100 - 0.1 * Math.cos(20 * degree), 12);
    }
  });

  it.each([
    [{ leverAngle: "61" }, "leverAngle"],
    [{ leverAngle: "-5" }, "leverAngle"],
    [{ leverAngle: "steep" }, "leverAngle"],
    [{ leverAngle: "20 mm" }, "leverAngle"],
    [{ leverAngle: "1e999" }, "leverAngle"],
    [{ leverAngle: "NaN" }, "leverAngle"],
    [{ leverAngle: "20", leverAngleUncertainty: "-1" }, "leverAngleUncertainty"],
    [{ leverAngle: "20 deg ± 1 deg", leverAngleUncertainty: "1" }, "leverAngleUncertainty"],
    [{ leverAngleUncertainty: "3" }, "leverAngle"],
    [{ leverAngleLimit: "61" }, "leverAngleLimit"],
    [{ leverAngleLimit: "-1" }, "leverAngleLimit"],
    [{ leverAngle: "20", leverAngleLimit: "30" }, "leverAngleLimit"],
    [{ kind: "touch probe", radius: "3", leverAngle: "20" }, "leverAngle"],
    [{ kind: "touch probe", radius: "3", leverAngleLimit: "20" }, "leverAngleLimit"],
  ])("is refused as %j, at its entry, and gives no zero", (tool, at) => {
    expect(read(tool).told.map((text) => text.split(": ")[0])).toContain(`tools.dial.${at}`);
    const evaluation = evaluateSetup(sweptBy(tool)).strategies[0]?.evaluation;
    expect(evaluation?.ok && evaluation.value.zero[0].ok).toBe(false);
  });

  it("changes nothing once the spindle stands on the axis: a total of nothing has no cosine", () => {
    const still = { touches: [{ id: "t", element: "bore", travelling: "sweep", tool: "dial", readings: "X100 Y50" }] };
    for (const tool of [{ leverAngle: "30", leverAngleUncertainty: "5" }, { leverAngleLimit: "30" }]) {
      const { strategies } = evaluateSetup(sweptBy(tool, still));
      const budget = must(must(strategies[0]?.evaluation ?? { ok: false, problems: [] }).zero[0]);
      expect(budget.value).toBe(100);
      expect(budget.contributions.map(({ source }) => source.id)).toEqual(["touch t, scatter X"]);
    }
  });
});

describe("the record of a sweep", () => {
  const recorded = (tool: object) => {
    const document = sweptBy(tool);
    return recordOf(document, evaluateSetup(document));
  };

  it("says how the lever stood, and what it read", () => {
    expect(recorded({ leverAngle: "20 deg ± 3 deg" }).tools[0]?.lever?.written).toBe("lever at 20°, u 3.0°");
    expect(recorded({ leverAngleLimit: "30" }).tools[0]?.lever?.written).toBe("lever at 30° at most");
    expect(recorded({}).tools[0]?.lever).toBeNull();
    expect(recorded({}).readings[0]).toMatchObject({ typed: "X100 Y50", total: "X 0.2, Y -0.1" });
  });
});

it("a total reading of a touch that is no sweep is told; one of nothing is none", () => {
  const face = { id: "left", kind: "face", outward: "-X", datum: "A" };
  const touched = (total: object) =>
    readSetup(
      documentFrom({
        part: { elements: [face] },
        tools: [{ id: "tip", kind: "touch probe", radius: "3", scatter: "0.002" }],
        touches: [{ id: "t", element: "left", travelling: "+X", tool: "tip", readings: "-400", total }],
        strategies: [{ id: "s", touches: ["t"] }],
      }),
    ).problems.map(({ at, what }) => `${at}: ${what}`);
  expect(touched({ x: "0.2" })).toContain("touches.t.total.x: only a sweep leaves a total reading");
  expect(touched({ y: "-0.1" })).toContain("touches.t.total.y: only a sweep leaves a total reading");
  expect(touched({ x: "0", y: "" })).toEqual([]);
});
