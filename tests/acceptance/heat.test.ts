import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { blankEntries } from "../../lib/document/blankEntries.ts";
import { newDocument } from "../../lib/document/newDocument.ts";
import { renameBlock } from "../../lib/document/renameBlock.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { programmeFactor } from "../../lib/equipment/heat.ts";
import { cautions } from "../../lib/record/cautions.ts";
import { cell } from "../ledger/blocks.ts";
import { evaluateDocument } from "./openDocument.ts";

type Heat = SetupDocument["heat"];

/** An aluminium plate touched at its left and front edge, with two holes 380 mm apart; nothing else is doubtful. */
function plate(heat: Partial<Heat>, where = { x: 0, y: 0 }): SetupDocument {
  const blank = newDocument();
  const face = (id: string, outward: "-X" | "-Y" | "+Z", datum: string) => ({ ...blankEntries.element(id), outward, datum });
  const hole = (id: string, x: string) => ({
    ...blankEntries.element(id),
    kind: "bore" as const,
    made: "here" as const,
    x,
    y: "40",
    diameter: "8",
  });
  return {
    ...blank,
    part: {
      ...blank.part,
      elements: [face("left", "-X", "A"), face("front", "-Y", "B"), hole("near", "10"), hole("far", "390")],
      characteristics: [
        { ...blankEntries.characteristic("span"), kind: "distance", of: "far", from: "near", axis: "X", tolerance: "±0.05" },
        { ...blankEntries.characteristic("far hole"), kind: "coordinate", of: "far", axis: "X", tolerance: "±0.1" },
      ],
    },
    tools: [{ ...blankEntries.tool("probe"), radius: "3", scatter: "0" }],
    touches: [
      {
        ...blankEntries.touch("t1"),
        element: "left",
        travelling: "+X",
        tool: "probe",
        readings: String(where.x - 3),
        y: String(where.y + 30),
      },
      {
        ...blankEntries.touch("t2"),
        element: "front",
        travelling: "+Y",
        tool: "probe",
        readings: String(where.y - 3),
        x: String(where.x + 30),
      },
    ],
    strategies: [{ ...blankEntries.strategy("corner"), touches: ["t1", "t2"] }],
    chosen: "corner",
    heat: { ...blank.heat, ...heat },
  };
}

const body = (temperature: string, coefficient: string, temperatureUncertainty = "", coefficientUncertainty = "") => ({
  temperature,
  temperatureUncertainty,
  coefficient,
  coefficientUncertainty,
});

/** The plate at 26.5 °C, its scales at 22 °C; temperatures to 0.6 K, coefficients to 5 %. */
const warm = { part: body("26.5", "23.6", "0.6", "1.18"), scale: body("22", "11.5", "0.6", "0.575") };

// A cold start. Inputs invented; expected values computed by an independent program, given to six decimals.
describe("an aluminium plate at 26.5 °C", () => {
  it("two holes 380 mm apart are 0.049552 nearer at 20 °C, which is all of the tolerance", () => {
    const stack = evaluateDocument(plate(warm)).stack("corner", "span", "thisPart");
    expect(stack.deviation).toBeCloseTo(-0.049552, 6);
    expect(stack.shares.deviation).toBeCloseTo(0.99104, 5);
  });

  it("once taken out, 0.006672 of doubt is left, and the factor for the programme is 1.000130", () => {
    const evaluation = evaluateDocument(plate({ ...warm, expected: "taken out" }));
    const stack = evaluation.stack("corner", "span", "thisPart");
    expect(stack.deviation).toBe(0);
    expect(stack.components[0]?.standardUncertainty).toBeCloseTo(0.006672, 6);
    const { heat } = evaluation.setup.machine;
    expect(heat && programmeFactor(heat)).toBeCloseTo(1.0001304, 10);
    expect(cautions(evaluation).find(({ id }) => id === "heat")?.text).toContain("1.000130");
  });

  it("what is left in the work is told as such", () => {
    expect(cautions(evaluateDocument(plate(warm))).find(({ id }) => id === "heat")?.text).toContain("Nothing takes that out");
  });

  it("the batch has the same deviation: readings come from a warm part as well", () => {
    expect(evaluateDocument(plate(warm)).stack("corner", "span", "batch").deviation).toBeCloseTo(-0.049552, 6);
  });
});

// ISO 1:2016: sizes on a drawing hold at 20 °C (value from memory, recomputed).
it("at 20 °C nothing expands, and only the doubt of the temperatures is left: 380 mm · 23.6e-6/K · 0.6 K", () => {
  const stack = evaluateDocument(plate({ part: body("20", "23.6", "0.6"), scale: body("20", "11.5") })).stack("corner", "span", "thisPart");
  expect(stack.deviation).toBe(0);
  expect(stack.components[0]?.standardUncertainty).toBeCloseTo(380 * 23.6e-6 * 0.6, 12);
});

// OpenStax College Physics (2012), example 13.3: 1275 m of steel from -15 °C to 40 °C, 12e-6/K, 0.84 m; here a millionth of it, from 20 °C up and down.
// ISO 1:2016: sizes hold at 20 °C (from memory), whatever the coefficients.
it("iso1-20c: part and scales at 20 °C change nothing, and at any other temperature something", () => {
  const shiftAt = (temperature: string) =>
    evaluateDocument(plate({ part: body(temperature, "23.6"), scale: body("20", "11.5") })).stack("corner", "span", "thisPart").deviation;
  expect(shiftAt("20")).toBe(0);
  expect(Math.abs(shiftAt("20.1"))).toBeGreaterThan(0);
  expect(Math.abs(shiftAt("19.9"))).toBeGreaterThan(0);
});

it("steel of 1275 mm grows by 0.84 mm per 1000 over 55 K", () => {
  const at = (temperature: string) =>
    evaluateDocument(plate({ part: body(temperature, "12"), scale: body("20", "12") })).stack("corner", "span", "thisPart").deviation;
  // 35 K down is beyond a workshop: 55 K as 20 K above and 15 K below 20 °C, and the rest in proportion.
  const perKelvin = (at("5") - at("40")) / 35 / 380;
  expect(perKelvin * 55 * 1275).toBeCloseTo(0.84, 2);
});

it("expansion acts about the touched edge, wherever the part lies in the machine", () => {
  fc.assert(
    fc.property(fc.double({ min: -500, max: 500, noNaN: true }), fc.double({ min: -300, max: 300, noNaN: true }), (x, y) => {
      const stack = evaluateDocument(plate(warm, { x, y })).stack("corner", "far hole", "thisPart");
      // The far hole is 390 mm from the edge; what is touched shrinks with it, less products of both (1e-8).
      expect(stack.deviation).toBeCloseTo((390 * -0.049552) / 380, 5);
    }),
    { numRuns: 20 },
  );
});

it("part and scales of one kind at one temperature change nothing", () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 40, noNaN: true }), fc.double({ min: 1, max: 25, noNaN: true }), (temperature, coefficient) => {
      const same = body(String(temperature), String(coefficient));
      expect(evaluateDocument(plate({ part: same, scale: same })).stack("corner", "span", "thisPart").deviation).toBeCloseTo(0, 9);
    }),
    { numRuns: 20 },
  );
});

it.each([
  ["part.temperature", { ...warm, part: body("79.7", "23.6") }, "not to be expected"],
  ["part.coefficient", { ...warm, part: body("26.5", "0.0000236") }, "not to be expected"],
  ["scale.temperature", { part: warm.part }, "both the part and the scales"],
  ["part.temperatureUncertainty", { ...warm, part: body("26.5", "23.6", "-1") }, "cannot be negative"],
])("refuses %s at its place, and withholds every result", (entry, heat, what) => {
  const evaluation = evaluateDocument(plate(heat));
  expect(evaluation.problems.find(({ at }) => at === `heat.${entry}`)?.what).toContain(what);
  expect(evaluation.strategies.every(({ evaluation: { ok } }) => !ok)).toBe(true);
});

describe("entries of heat are formulas over cells", () => {
  const cells = [
    { ...cell("shop", "22 degC"), family: "heat" as const },
    cell("rise", "4.5 K"),
    cell("measured", "26.5 degC ± 0.6 degC"),
    cell("steel", "11.5e-6 / (1 K)"),
  ];
  const named = (heat: Partial<Heat>) => evaluateDocument({ ...plate(heat), ledger: cells });

  it("give what the same numbers give", () => {
    const plain = evaluateDocument(plate(warm)).stack("corner", "span", "thisPart");
    const byNames = named({
      part: body("shop + rise", "47.2 / 2", "0.3 * 2", "1.18"),
      scale: body("shop", "steel", "600 mK", "0.05 * steel"),
    });
    expect(byNames.problems).toEqual([]);
    const stack = byNames.stack("corner", "span", "thisPart");
    expect(stack.deviation).toBeCloseTo(plain.deviation, 12);
    expect(stack.components[0]?.standardUncertainty).toBeCloseTo(plain.components[0]?.standardUncertainty as number, 12);
  });

  it("bring the doubt of a cell along, in the place of their own, and beside it are refused", () => {
    const heat = { part: body("measured", "23.6"), scale: body("20", "11.5") };
    const stack = named(heat).stack("corner", "span", "thisPart");
    // 380 mm · 23.6e-6/K · 0.6 K.
    expect(stack.components[0]?.standardUncertainty).toBeCloseTo(380 * 23.6e-6 * 0.6, 9);
    expect(stack.components[0]?.contributions.map(({ source }) => source.id)).toEqual(["cell measured"]);
    const twice = named({ ...heat, part: body("measured", "23.6", "0.5") });
    expect(twice.problems.map(({ at, what }) => `${at}: ${what}`)).toContain(
      "heat.part.temperatureUncertainty: the doubt is stated twice, here and in part.temperature",
    );
  });

  it("follow a cell that is renamed", () => {
    const renamed = renameBlock(
      { ...plate({ part: body("shop", "23.6"), scale: body("20", "11.5") }), ledger: cells },
      "shop",
      "hall",
      new Map(),
    );
    expect(renamed.ok && renamed.value.heat.part.temperature).toBe("hall");
  });
});
