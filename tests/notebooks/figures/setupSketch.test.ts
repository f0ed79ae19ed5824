import { describe, expect, it } from "vitest";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../../lib/evaluateSetup.ts";
import { setupSketch } from "../../../notebooks/figures/setupSketch.ts";
import { setupSketchTable } from "../../../notebooks/figures/setupSketchTable.ts";
import { planOf } from "../../../notebooks/figures/sketch/planOf.ts";
import { cover, openPlate, pocketBlock } from "../../gallery/documents.ts";
import { documentFrom } from "../../properties/setups.ts";
import { drawn, faultsOf } from "./drawnFigure.ts";

function sketch(document: SetupDocument, strategy: string, highlight?: string, width = 520) {
  const evaluation = evaluateSetup(document);
  return drawn((environment) =>
    setupSketch(evaluation, strategy, { unit: document.unit, width, ...(highlight === undefined ? {} : { highlight }) }, environment),
  );
}

describe("setupSketch(evaluation, strategy, options)", () => {
  it("draws touches of the strategy strong, the others faint, and the one stood upon lit", () => {
    const { root } = sketch(cover, "corner", "left");
    const titles = (look: string) => Array.from(root.querySelectorAll(`.${look} > title`), ({ textContent }) => textContent?.split(":")[0]);
    expect(titles("fig-touch-lit")).toEqual(["left"]);
    expect(titles("fig-touch-used")).toEqual(["front 1", "front 2", "top"]);
    expect(titles("fig-touch-other").sort()).toEqual(["b1", "b2", "b3", "b4", "right"]);
  });

  it("writes a name that is too long for a line on two, and cuts nothing of it", () => {
    const named = (text: string) => (text === "right" ? "right, second side" : text);
    const document = {
      ...cover,
      touches: cover.touches.map((touch) => ({ ...touch, id: named(touch.id) })),
      strategies: cover.strategies.map((each) => ({ ...each, touches: each.touches.map(named) })),
    };
    const { words } = sketch(document, "corner");
    expect(words.join(" ")).toContain("right, second side");
    expect(words.filter((word) => word.includes("…"))).toEqual([]);
  });

  it("draws a datum letter in a frame for every datum element", () => {
    const { root, words } = sketch(pocketBlock, "corner, turned");
    expect(root.querySelectorAll(".fig-letter")).toHaveLength(3);
    expect(words).toEqual(expect.arrayContaining(["A", "B", "C"]));
  });

  it("writes what the drawing says and what is here on the line of a measured size", () => {
    expect(sketch(cover, "corner").words.join("; ")).toMatch(/length 160 ±0\.3, here 160\.21/);
  });

  it("says by how much the ellipse and the skew are enlarged", () => {
    const words = sketch(cover, "corner").words.join(" ");
    expect(words).toMatch(/Ellipse: where the zero is with 95 %, drawn × \d/);
    expect(words).toMatch(/Part turned by 0\.04\d*° .* drawn × 100/);
  });

  // By hand: from (0, 0) up along (cos 60, sin 60) a line leaves a plan that ends at Y 80 where X is 80 / tan 60.
  it("draws an angled face right across the plan, with its touches and its letter", () => {
    const wedge = documentFrom({
      part: {
        elements: [
          { id: "front", kind: "face", outward: "-Y", datum: "A" },
          { id: "back", kind: "face", outward: "+Y" },
          { id: "right", kind: "face", outward: "+X" },
          { id: "slope", kind: "angled face", facing: "150", datum: "B" },
        ],
        dimensions: [
          { id: "depth", from: "front", to: "back", axis: "Y", nominal: "80", tolerance: "±0.1" },
          { id: "length", from: "slope", to: "right", axis: "X", nominal: "140", tolerance: "±0.1" },
        ],
      },
      tools: [{ id: "pin", kind: "tool or pin", radius: "3", scatter: "0.002" }],
      touches: [
        { id: "f", element: "front", travelling: "+Y", tool: "pin", readings: "-103" },
        { id: "s", element: "slope", travelling: "+X", tool: "pin", readings: "-203", y: "-80" },
      ],
      strategies: [{ id: "corner", touches: ["f", "s"] }],
      chosen: "corner",
    });
    const { setup, location } = evaluateSetup(wedge);
    const [face] = planOf(setup.part, location.located)?.angled ?? [];
    const [low, high] = [face?.from, face?.to].sort((a, b) => (a?.[1] ?? 0) - (b?.[1] ?? 0));
    expect(low?.[0]).toBeCloseTo(0, 9);
    expect(low?.[1]).toBeCloseTo(0, 9);
    expect(high?.[0]).toBeCloseTo(80 / Math.tan(Math.PI / 3), 9);
    expect(high?.[1]).toBeCloseTo(80, 9);
    const figure = sketch(wedge, "corner");
    expect(faultsOf(figure)).toEqual([]);
    expect(figure.words).toEqual(expect.arrayContaining(["s", "f", "slope", "A", "B"]));
    expect(figure.root.querySelectorAll(".fig-touch-used")).toHaveLength(2);
  });

  // An inclined face that looks along X stands at its own X, right across; a touch from above stands in the strip, one from the side in the plan.
  it("draws an inclined face at the height of its point, with its touches from the side and from above", () => {
    const wedge = (travelling: string, more: object) =>
      documentFrom({
        part: {
          elements: [
            { id: "front", kind: "face", outward: "-Y", datum: "A" },
            { id: "back", kind: "face", outward: "+Y" },
            { id: "right", kind: "face", outward: "+X" },
            { id: "top", kind: "face", outward: "+Z", datum: "C" },
            { id: "chamfer", kind: "angled face", facing: "180", inclination: "45", datum: "B", x: "5", z: "-5" },
          ],
          dimensions: [
            { id: "depth", from: "front", to: "back", axis: "Y", nominal: "80", tolerance: "±0.1" },
            { id: "length", from: "chamfer", to: "right", axis: "X", nominal: "140", tolerance: "±0.1" },
          ],
        },
        tools: [{ id: "ball", kind: "touch probe", radius: "3", length: "150", scatter: "0.002" }],
        touches: [
          { id: "f", element: "front", travelling: "+Y", tool: "ball", readings: "-103" },
          { id: "t", element: "top", travelling: "-Z", tool: "ball", readings: "-150" },
          { id: "c", element: "chamfer", travelling, tool: "ball", ...more },
        ],
        strategies: [{ id: "corner", touches: ["f", "t", "c"] }],
        chosen: "corner",
      });
    const aside = wedge("+X", { readings: "-98", z: "-158" });
    const { setup, location } = evaluateSetup(aside);
    const [face] = planOf(setup.part, location.located)?.angled ?? [];
    expect([face?.from[0], face?.to[0]]).toEqual([expect.closeTo(5, 9), expect.closeTo(5, 9)]);
    expect([face?.from[1], face?.to[1]].sort((a, b) => (a ?? 0) - (b ?? 0))).toEqual([expect.closeTo(0, 9), expect.closeTo(80, 9)]);
    for (const document of [aside, wedge("-Z", { readings: "-158", x: "-98" })]) {
      const figure = sketch(document, "corner");
      expect(faultsOf(figure)).toEqual([]);
      expect(figure.words).toEqual(expect.arrayContaining(["f", "chamfer", "A", "B"]));
      expect(figure.root.querySelectorAll(".fig-touch-used")).toHaveLength(3);
    }
  });

  it("hatches a face that is markedly rougher than the others", () => {
    const { root, words } = sketch(pocketBlock, "corner, turned");
    expect(root.querySelectorAll(".fig-rough")).toHaveLength(1);
    expect(words.join(" ")).toContain("Hatched");
  });

  it("draws a line, and no zero, where only one coordinate is known, and says what is missing", () => {
    const { root, words } = sketch(pocketBlock, "front only");
    expect([
      root.querySelectorAll(".fig-zero-line").length,
      root.querySelectorAll(".fig-zero").length,
      root.querySelectorAll(".fig-region").length,
    ]).toEqual([1, 0, 0]);
    expect(words.join(" ")).toContain("X of the zero is not known: no touch of this strategy fixes X.");
  });

  it("draws no zero for a strategy that cannot be used or is not there, and says why", () => {
    const unusable = sketch(pocketBlock, "no touch that exists");
    expect(unusable.root.querySelectorAll(".fig-zero")).toHaveLength(0);
    expect(unusable.words.join(" ")).toContain("No zero is drawn: there is no such touch");
    expect(sketch(cover, "nothing of the kind").words.join(" ")).toContain('There is no strategy "nothing of the kind"');
    expect(sketch(cover, "").words.join(" ")).toContain("No strategy is chosen");
  });

  it("says so when nothing of the part has a place", () => {
    const empty = sketch({ ...openPlate, part: { ...openPlate.part, elements: [], characteristics: [] } }, "corner");
    expect(empty.words[0]).toContain("Nothing of the part has a place in X and Y yet");
    expect(faultsOf(empty)).toEqual([]);
  });

  it("tells of a datum along Z that no touch shows", () => {
    const withoutTop = { ...pocketBlock, touches: pocketBlock.touches.filter(({ id }) => id !== "top" && id !== "ledge") };
    expect(sketch(withoutTop, "front only").words.join(" ")).toContain("Datum A is top, along Z.");
  });

  it("leaves out labels of what is not counted rather than lay them over each other", () => {
    const holes = Array.from({ length: 60 }, (_, i) => ({
      ...(openPlate.part.elements[2] as SetupDocument["part"]["elements"][number]),
      id: `hole number ${i}`,
      x: String(20 + (i % 10) * 4),
      y: String(10 + Math.floor(i / 10) * 4),
      diameter: "3",
    }));
    const figure = sketch(
      { ...openPlate, part: { ...openPlate.part, elements: [...openPlate.part.elements.slice(0, 2), ...holes], characteristics: [] } },
      "corner",
    );
    expect(figure.root.querySelectorAll("circle.fig-hole")).toHaveLength(60);
    expect(figure.words.filter((word) => word.startsWith("hole number")).length).toBeLessThan(30);
    expect(figure.words).toEqual(expect.arrayContaining(["B1", "C1"]));
    expect(faultsOf(figure)).toEqual([]);
  });

  it.each([
    ["a metre by a hand's breadth", "1000", "80"],
    ["tall and thin", "30", "900"],
    ["very small", "0.2", "0.1"],
    ["very large", "90000", "40000"],
  ])("is whole with a part that is %s", (_what, length, depth) => {
    const [front, left] = openPlate.part.elements;
    const elements = [
      front,
      left,
      { ...left, id: "right", datum: "", outward: "+X" as const },
      { ...front, id: "back", datum: "", outward: "+Y" as const },
    ] as SetupDocument["part"]["elements"];
    const size = {
      id: "length",
      from: "short edge",
      to: "right",
      nominal: length,
      tolerance: "±0.001",
      spread: "normal" as const,
      measured: "",
      measuredUncertainty: "",
      note: "",
    };
    const document = {
      ...openPlate,
      part: {
        ...openPlate.part,
        elements,
        dimensions: [size, { ...size, id: "depth", from: "long edge", to: "back", nominal: depth }],
        characteristics: [],
      },
    };
    for (const width of [320, 520]) expect(faultsOf(sketch(document, "corner", undefined, width))).toEqual([]);
  });
});

describe("planOf(part, located)", () => {
  const planOfDocument = (document: SetupDocument) => {
    const { setup, location } = evaluateSetup(document);
    return planOf(setup.part, location.located);
  };
  it("takes the faces that look outwards as the sides", () => {
    const plan = planOfDocument(pocketBlock);
    expect([...(plan?.x ?? []), ...(plan?.y ?? [])].map(({ face }) => face?.id)).toEqual(["left", "right", "front", "back"]);
    // 5 in by 2.5 in.
    expect([plan?.x[1].at, plan?.y[1].at]).toEqual([127, 63.5]);
  });
  it("takes walls that look at each other as a pocket", () => {
    const walls = planOfDocument(pocketBlock)?.inner ?? [];
    const inches = (value: number) => Math.round((value / 25.4) * 1e9) / 1e9;
    expect(walls.map(({ face, from, to }) => [face.id, inches(from), inches(to)])).toEqual([
      ["pocket left", 0.75, 1.75],
      ["pocket right", 0.75, 1.75],
      ["pocket front", 1.5, 3.5],
      ["pocket back", 1.5, 3.5],
    ]);
  });
  it("leaves sides open where no face ends the part, past the last element", () => {
    const plan = planOfDocument(openPlate);
    expect([plan?.x[0].face?.id, plan?.x[1].face, plan?.y[0].face?.id, plan?.y[1].face]).toEqual([
      "short edge",
      undefined,
      "long edge",
      undefined,
    ]);
    // The last hole ends at 174, the large one at 65.
    expect(plan?.x[1].at).toBeGreaterThan(174);
    expect(plan?.y[1].at).toBeGreaterThan(65);
  });
});

it("setupSketchTable(evaluation, strategy, options) lists touches, sizes, zero and rotation, with reasons for what is not known", () => {
  const { rows } = setupSketchTable(evaluateSetup(pocketBlock), "front only", { unit: "inch" });
  expect(rows.filter(([what]) => what === "touch, counted").map(([, name]) => name)).toEqual(["front 1"]);
  expect(rows.find(([what, name]) => what === "zero" && name === "X")?.[4]).toContain("not known: no touch of this strategy fixes X");
  expect(rows.find(([what]) => what === "rotation")?.[4]).toContain("does not look at the skew");
  expect(rows.filter(([what]) => what === "size").length).toBeGreaterThan(0);
});
