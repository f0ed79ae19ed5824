import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { documentText } from "../../../lib/document/documentText.ts";
import { withInUse } from "../../../lib/document/operationDocument.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { evaluateOperations } from "../../../lib/evaluateOperations.ts";
import { evaluateSetup } from "../../../lib/evaluateSetup.ts";
import type { View } from "../../../lib/tolerance/deviations.ts";
import { exampleDocument, exampleNames } from "../../../notebooks/pages/demo.ts";
import { must } from "../../properties/setups.ts";

/** What a strategy of an example comes to: standard uncertainties of its zero, mm, and the chance that all is met. */
function comesTo(document: SetupDocument, id: string) {
  const { strategies, problems } = evaluateSetup(document);
  expect(problems).toEqual([]);
  const evaluation = must(strategies.find((strategy) => strategy.id === id)?.evaluation as (typeof strategies)[number]["evaluation"]);
  return {
    u: evaluation.zero.map((zero) => must(zero).standardUncertainty),
    chance: (view: View) => must(evaluation[view].chanceOfAll).chance,
  };
}

describe.each(exampleNames)("the example %s", (name) => {
  it("is worked out without a problem, is saved as it is written, and says what it teaches", () => {
    const document = exampleDocument(name);
    expect(evaluateSetup(document).problems).toEqual([]);
    expect(document.note).toMatch(/^What it teaches: /);
    expect(evaluateOperations(document)?.problems ?? []).toEqual([]);
    const inUse = document.operations.length === 0 ? [document.chosen] : document.operations.map(({ chosen }) => chosen);
    for (const chosen of inUse) expect(document.strategies.some(({ id }) => id === chosen)).toBe(true);
    const text = readFileSync(new URL(`../../../notebooks/demo/${name}.json`, import.meta.url), "utf8");
    expect(documentText(document)).toBe(text);
  });
});

it("the example of the sawn end teaches what it says: twice the doubt there, half of both in the middle", () => {
  const document = exampleDocument("sawnPlate");
  const [milled, sawn, middle] = ["milled end", "sawn end", "middle of the length"].map((id) => comesTo(document, id)) as [
    ReturnType<typeof comesTo>,
    ReturnType<typeof comesTo>,
    ReturnType<typeof comesTo>,
  ];
  // Rectangular half-widths 0.08 and 0.05 of the sawn face over √3 dominate its touch.
  const surface = Math.hypot(0.08, 0.05) / Math.sqrt(3);
  expect(sawn.u[0]).toBeCloseTo(surface, 3);
  expect(middle.u[0]).toBeCloseTo(surface / 2, 3);
  expect(milled.chance("batch")).toBeGreaterThan(0.999);
  expect(sawn.chance("batch")).toBeLessThan(middle.chance("batch"));
});

it("the example of the skewed blank teaches what it says: the same corner, and only turned coordinates meet the drawing", () => {
  const document = exampleDocument("skewedBlank");
  const [leftIn, turned] = [comesTo(document, "corner, skew left in"), comesTo(document, "corner, coordinates turned")];
  expect(leftIn.u).toEqual(turned.u);
  expect(leftIn.chance("thisPart")).toBeLessThan(0.001);
  expect(turned.chance("thisPart")).toBeGreaterThan(0.999);
});

it("the example of the casting teaches what it says: the cast back lets the thickness into the depth", () => {
  const document = exampleDocument("turnedCasting");
  const [parallels, back] = [comesTo(document, "bore, Z from the parallels"), comesTo(document, "bore, Z from the cast back")];
  expect(parallels.chance("batch")).toBeGreaterThan(0.999);
  expect(back.chance("batch")).toBeLessThan(0.5);
});

describe("the example of the nest teaches what it says", () => {
  const document = exampleDocument("nestOfFour");
  /** Variance of the hole of a part against its own face, mm², in the batch. */
  const variance = (strategy: string, part: number) => {
    const { strategies } = evaluateSetup(document);
    const evaluation = must(strategies.find(({ id }) => id === strategy)?.evaluation as (typeof strategies)[number]["evaluation"]);
    return (
      (must(evaluation.batch.stacks[part - 1] as (typeof evaluation.batch.stacks)[number]).components[0]?.standardUncertainty as number) **
      2
    );
  };
  // Pitch ±0.03 with the limits at three standard deviations; positioning ±0.006 over 300 mm, rectangular, from the touched face to the hole.
  const pitch = (0.03 / 3) ** 2;
  const positioning = (way: number) => ((0.006 / 300) * way) ** 2 / 3;

  it("by one zero the last part has the pitch of its pocket and the longer way besides", () => {
    expect(variance("one zero, on part 1", 4) - variance("one zero, on part 1", 1)).toBeCloseTo(
      pitch + positioning(205) - positioning(25),
      9,
    );
  });

  it("a zero of its own frees it from both", () => {
    expect(variance("own zero of part 4", 4)).toBeCloseTo(variance("one zero, on part 1", 1), 9);
  });

  it("a measured pitch leaves the doubt of its measurement, 0.004, and the longer way", () => {
    expect(variance("part 4 by the measured pitch", 4) - variance("one zero, on part 1", 1)).toBeCloseTo(
      0.004 ** 2 + positioning(205) - positioning(25),
      9,
    );
  });
});

it("the example of both sides teaches what it says: on the bore the first zero cancels, on the opposite face the width comes in", () => {
  const document = exampleDocument("bothSides");
  const followed = (chosen: string) => {
    const operated = evaluateOperations(withInUse(document, chosen));
    const found = operated?.finished.batch.characteristics.find(({ id }) => id === "counterbore on the bore");
    return must(found?.stack as NonNullable<typeof found>["stack"]).components[0]?.standardUncertainty as number;
  };
  const [bore, same, opposite] = ["bore of the first side", "same faces again", "opposite face"].map(followed) as [number, number, number];
  expect(bore).toBeLessThan(0.008);
  expect(bore).toBeLessThan(same);
  // The width ±0.1 with the limits at three standard deviations.
  expect(opposite).toBeGreaterThan(0.1 / 3);
  expect(same).toBeLessThan(0.1 / 3);
});

it("the example of the pins teaches what it says: on the fixture the pins' play comes in, by the top the thickness of the batch", () => {
  const document = exampleDocument("plateOnPins");
  const [fixture, touched] = [comesTo(document, "stays on the fixture"), comesTo(document, "touched in the pin holes")];
  // 10 H7 with 10 g6: 0.029 at the loosest, 0.005 at the tightest (ISO 286-2, from memory); usually half of that lies to either side of the middle.
  expect(fixture.u[0]).toBeGreaterThan(0.017 / 4);
  expect(touched.u[0]).toBeLessThan(fixture.u[0] as number);
  expect(fixture.chance("batch")).toBeGreaterThan(0.999);
  // Thickness ±0.1 with the limits at three standard deviations: P(|z| < 0.05/0.0333) = 0.866 is the most that is left of ±0.05.
  expect(touched.chance("batch")).toBeLessThan(0.867);
  expect(touched.chance("thisPart")).toBeGreaterThan(0.999);
});

describe("the example of the jaw and the stop teaches what it says", () => {
  const document = exampleDocument("jawAndStop");

  it("on the fixture what lies at the stop comes in, and nothing of where the stop stands", () => {
    const { u, chance } = comesTo(document, "jaw and stop");
    // By hand: seat 0.005 and up to 0.02 of chips at the stop; the touch of it with scatter 0.002, radius 0.0015 and late trigger ±0.003, all of one face.
    const stop = Math.hypot(0.005, 0.02 / Math.sqrt(12), 0.002, 0.0015, 0.003 / Math.sqrt(3), 0.0003);
    expect(u[0]).toBeGreaterThan(stop);
    expect(u[0]).toBeCloseTo(stop, 3);
    const locators = document.fixture.locators.map((each) => (each.id === "stop" ? { ...each, heightError: "0.5" } : each));
    const anywhere = comesTo({ ...document, fixture: { ...document.fixture, locators } }, "jaw and stop");
    expect(anywhere.u[0]).toBeCloseTo(u[0] as number, 9);
    expect(anywhere.chance("batch")).toBeCloseTo(chance("batch"), 9);
    expect(chance("batch")).toBeLessThan(0.98);
  });

  it("by the end of the plate X is free of the chips at the stop; the locators alone would not do", () => {
    expect(comesTo(document, "jaw and left end").chance("batch")).toBeGreaterThan(0.999);
    const alone = must((evaluateSetup(document).fixture as NonNullable<ReturnType<typeof evaluateSetup>["fixture"]>).located);
    const [first] = alone.judgement.stacks;
    expect(must(first as NonNullable<typeof first>).chance).toBeLessThan(0.3);
  });
});
