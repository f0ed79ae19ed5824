import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../../lib/evaluateSetup.ts";
import { locatorSensitivity, sensitivityPieces } from "../../../notebooks/figures/locatorSensitivity.ts";
import { miniDocument } from "../../../notebooks/figures/miniDocument.ts";
import { cover, located, pinned } from "../../gallery/documents.ts";
import { drawn } from "./drawnFigure.ts";

const figure = (document: typeof located) => {
  const evaluation = evaluateSetup(document);
  return drawn((environment) => locatorSensitivity(evaluation, { unit: evaluation.setup.unit, width: 640 }, environment));
};
const titlesOf = (root: SVGSVGElement) => Array.from(root.querySelectorAll("g > title"), ({ textContent }) => textContent ?? "");

describe("locatorSensitivity(evaluation, options)", () => {
  it("tells how a floor follows three pads: as a plane through them does", () => {
    // Pads at (20, 20), (140, 20) and (80, 80), the floor at (80, 50): half of the third, and a quarter of each of the others. The metal off upwards
    // lifts the part, so that what is cut lies deeper in it.
    const { root } = figure(located);
    const titles = titlesOf(root).filter((title) => title.startsWith("floor follows pad"));
    expect(titles.map((title) => title.split(";")[0])).toEqual([
      "floor follows pad 1 by −0.25",
      "floor follows pad 2 by −0.25",
      "floor follows pad 3 by −0.50",
    ]);
    expect(root.querySelector("desc")?.textContent).toContain("floor follows pad 3 most, by −0.50");
  });

  it("shows a contact that is taken not to touch as such", () => {
    const { words } = figure(pinned);
    expect(words).toContain("not touching");
    expect(words.join(" ")).toContain("Not touching: the part rests on the others.");
  });

  it("says that nothing is stated", () => {
    expect(figure(cover).words).toEqual(["Nothing is stated of the fixture."]);
  });

  it("comes in pieces that hold every cell once", () => {
    const evaluation = evaluateSetup(located);
    const whole = figure(located);
    const pieces = sensitivityPieces(evaluation, { unit: "mm" }, { width: 330, height: 240 }, { document: miniDocument() });
    expect(pieces.length).toBeGreaterThan(2);
    const cells = (text: string) => text.match(/ follows [^<]* by [^<]*<\/title>/g) ?? [];
    expect(pieces.flatMap(({ outerHTML }) => cells(outerHTML)).sort()).toEqual([...cells(whole.text)].sort());
  });
});
