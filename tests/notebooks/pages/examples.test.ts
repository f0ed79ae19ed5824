import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { documentText } from "../../../lib/document/documentText.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
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
    expect(document.strategies.some(({ id }) => id === document.chosen)).toBe(true);
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
