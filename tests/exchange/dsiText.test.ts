import { JSDOM } from "jsdom";
import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { dsiText } from "../../lib/exchange/dsiText.ts";
import { escapedXml, xmlText } from "../../lib/exchange/xmlText.ts";
import { expandedUncertainty } from "../../lib/record/expandedUncertainty.ts";
import { demoEvaluation, demoNames, fewRepeats, ownCells, supposing } from "./demoEvaluations.ts";

const si = "https://ptb.de/si";
const few = evaluateSetup(fewRepeats);

/** By the parser of jsdom, which refuses what is not well-formed. */
function parsed(text: string): Document {
  const document = new new JSDOM("").window.DOMParser().parseFromString(text, "application/xml");
  expect(document.getElementsByTagName("parsererror")).toHaveLength(0);
  return document;
}

const textOf = (element: Element, name: string) => element.getElementsByTagNameNS(si, name)[0]?.textContent ?? "";
const namesOf = (element: Element) => [...element.children].map(({ localName }) => localName);

// The rules below are those of the D-SI guide (SmartCom, versions 1.3 to 2.1), from memory; its schema is in no package at hand.
describe.each(["fewRepeats", ...demoNames])("the file of D-SI of %s", (name) => {
  const document = parsed(dsiText(name === "fewRepeats" ? few : demoEvaluation(name)));
  const reals = [...document.getElementsByTagNameNS(si, "real")];

  it("is a list of real quantities in the namespace of D-SI", () => {
    expect([document.documentElement.namespaceURI, document.documentElement.localName]).toEqual([si, "list"]);
    expect(reals.length).toBeGreaterThan(0);
    expect(new Set(namesOf(document.documentElement))).toEqual(new Set(["label", "real"]));
  });

  it("has value, unit and expanded uncertainty of each in the order of the schema", () => {
    for (const real of reals) {
      expect(["label value unit", "label value unit expandedUnc"]).toContain(namesOf(real).join(" "));
      const [doubt] = real.getElementsByTagNameNS(si, "expandedUnc");
      if (doubt) expect(namesOf(doubt)).toEqual(["uncertainty", "coverageFactor", "coverageProbability", "distribution"]);
    }
  });

  it("has decimal numbers with a point, units in BIPM form, factors from 1 on and a probability up to 1", () => {
    for (const real of reals) {
      expect(textOf(real, "value")).toMatch(/^[-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?$/);
      expect(textOf(real, "unit")).toMatch(/^(?:\\milli\\metre|\\radian)$/);
      if (real.getElementsByTagNameNS(si, "expandedUnc").length === 0) continue;
      expect(Number(textOf(real, "uncertainty"))).toBeGreaterThan(0);
      expect(Number(textOf(real, "coverageFactor"))).toBeGreaterThanOrEqual(1);
      expect(Number(textOf(real, "coverageProbability"))).toBeLessThanOrEqual(1);
    }
  });
});

it("the file of D-SI tells the same numbers as the evaluation, to the last digit", () => {
  const [zero] = [...parsed(dsiText(few)).getElementsByTagNameNS(si, "real")];
  const found = few.strategies.find(({ id }) => id === "left")?.evaluation;
  if (!found?.ok || !found.value.zero[0].ok || zero === undefined) throw new Error("no zero");
  const budget = found.value.zero[0].value;
  expect(textOf(zero, "label")).toBe("zero X");
  expect(Number(textOf(zero, "value"))).toBe(budget.value);
  expect(Number(textOf(zero, "uncertainty"))).toBe(expandedUncertainty(budget).expandedUncertainty);
  expect(textOf(zero, "distribution")).toBe("Student's t");
});

// BIPM form as the D-SI guide writes it, from memory: the unit's name, and `\\tothe{n}` behind it for a power; `\\one` for a number.
it("the file of D-SI has the cells of a person's own in their units", () => {
  const reals = [...parsed(dsiText(evaluateSetup(ownCells))).getElementsByTagNameNS(si, "real")];
  const units = Object.fromEntries(reals.map((real) => [textOf(real, "label"), textOf(real, "unit")]));
  expect(units).toMatchObject({
    "cell shim": "\\milli\\metre",
    "cell area": "\\milli\\metre\\tothe{2}",
    "cell ratio": "\\one",
    "cell rate": "\\milli\\metre\\kelvin\\tothe{-1}",
    "cell gap": "\\milli\\metre",
  });
  const area = reals.find((real) => textOf(real, "label") === "cell area") as Element;
  // By hand: 12.5² mm², U = 2 · (2 · 12.5 · 0.004) mm².
  expect([Number(textOf(area, "value")), Number(textOf(area, "uncertainty"))]).toEqual([156.25, expect.closeTo(0.2, 12)]);
  expect(Object.keys(units)).not.toContain("cell wrong");
  expect(dsiText(evaluateSetup(ownCells))).toMatch(/<!-- Not known, and left out: .*cell wrong/);
});

it("the file of D-SI says in its label what is only supposed", () => {
  const labelOf = (text: string) => parsed(text).documentElement.children[0]?.textContent;
  expect(labelOf(dsiText(evaluateSetup(supposing)))).toMatch(/^SUPPOSED FOR THE MOMENT, and not as stated: shim/);
  expect(labelOf(dsiText(evaluateSetup(ownCells)))).toBe(ownCells.title);
});

it("the file of D-SI names what is not known in a comment", () => {
  expect(dsiText(few)).toMatch(/<!-- Not known, and left out: zero Y, zero Z, rotation/);
});

// XML 1.0, 2.2 (signs that are allowed), 2.4 (escapes), 2.5 (no two hyphens in a comment).
it("xmlText escapes whatever a text holds", () => {
  const hostile = "]]> </a><!-- -- \u0000\u001b\ud800 & \"'\n";
  const document = parsed(xmlText({ name: "a", attributes: { b: hostile }, children: hostile }, hostile));
  expect(document.documentElement.children).toHaveLength(0);
  const kept = ["\u0000", "\u001b", "\ud800"].reduce((text, sign) => text.replaceAll(sign, "\ufffd"), hostile);
  expect([document.documentElement.textContent, document.documentElement.getAttribute("b")]).toEqual([kept, kept]);
  expect(escapedXml("𝜇")).toBe("𝜇");
});
