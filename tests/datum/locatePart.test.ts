import { describe, expect, it } from "vitest";
import type { Outcome } from "../../lib/base/outcome.ts";
import { evaluateSetup, type StrategyEvaluation } from "../../lib/evaluateSetup.ts";
import type { FrameSolution } from "../../lib/frame/solveFrame.ts";
import { deviations } from "../../lib/tolerance/deviations.ts";
import type { Stack } from "../../lib/tolerance/stack.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import type { Uncertain } from "../../lib/uncertainty/uncertain.ts";
import { documentFrom, must, open } from "../properties/setups.ts";

const face = (id: string, outward: string, datum = "") => ({ id, kind: "face", outward, datum });
const probe = { id: "tip", kind: "touch probe", radius: "3", scatter: "0.001" };
const touch = (element: string, travelling: string, readings: string, more: object = {}) => ({
  id: element,
  element,
  travelling,
  tool: "tip",
  readings,
  ...more,
});

function partOf(tables: { part: object; touches: object[] }): FrameSolution {
  const document = documentFrom({ tools: [probe], strategies: [], ...tables });
  return must(open(document).location.thisPart);
}

const sizeOf = (part: FrameSolution, index: number) => budgetOf(part.sizes[index] as Uncertain);

describe("locatePart, sizes and turn", () => {
  const elements = [face("left", "-X", "A"), face("right", "+X")];
  const dimensions = [{ id: "width", from: "left", to: "right", nominal: "60", tolerance: "±0.2" }];

  // Two opposite faces touched once each, five millimetres apart along them: a part 0.1 wider than drawn, not one that is turned by a degree.
  it("locatePart(two opposite faces, places noted) measures the width and turns nothing", () => {
    const touches = [touch("left", "+X", "-303", { y: "20" }), touch("right", "-X", "-236.9", { y: "25" })];
    const part = partOf({ part: { elements, dimensions }, touches });
    expect(part.rotation.value).toBe(0);
    expect(part.determined[0]).toBe(true);
    expect(budgetOf(part.origin[0])).toMatchObject({ value: expect.closeTo(-300, 9), standardUncertainty: expect.closeTo(0.001, 9) });
    expect(sizeOf(part, 0).value).toBeCloseTo(0.1, 9);
    expect(part.sizesDetermined).toEqual([true]);
  });

  it("locatePart(...) is the same whether or not the places along the faces are noted", () => {
    const bare = partOf({ part: { elements, dimensions }, touches: [touch("left", "+X", "-303"), touch("right", "-X", "-236.9")] });
    const noted = partOf({
      part: { elements, dimensions },
      touches: [touch("left", "+X", "-303", { y: "20" }), touch("right", "-X", "-236.9", { y: "31" })],
    });
    expect(noted.origin[0].value).toBeCloseTo(bare.origin[0].value, 9);
    expect(sizeOf(noted, 0).value).toBeCloseTo(sizeOf(bare, 0).value, 9);
  });

  it("locatePart(one face touched at two places) turns the part", () => {
    const touches = [touch("left", "+X", "-303", { y: "20" }), { ...touch("left", "+X", "-302.9", { y: "120" }), id: "left again" }];
    const part = partOf({ part: { elements, dimensions }, touches });
    // tan(theta) = -0.1/100, by plain geometry.
    expect(part.rotation.value).toBeCloseTo(-Math.atan(0.001), 9);
  });
});

describe("locatePart, sizes in a chain", () => {
  const elements = [face("left", "-X", "A"), face("rib", "-X"), face("right", "+X")];
  const touches = [touch("left", "+X", "-303"), touch("right", "-X", "-196.89")];
  const chain = (measured: object) => [
    { id: "to rib", from: "left", to: "rib", nominal: "50", tolerance: "±0.2", ...measured },
    { id: "rib to right", from: "rib", to: "right", nominal: "50", tolerance: "±0.2" },
  ];

  // The total is touched to be 100.11; a dimension measured to a few micrometres keeps its value, and the other one takes what is left.
  it("locatePart(a chain with one measured size) keeps the measured size and gives the rest to the other", () => {
    const part = partOf({ part: { elements, dimensions: chain({ measured: "50.010", measuredUncertainty: "0.002" }) }, touches });
    expect(sizeOf(part, 0).value).toBeCloseTo(0.01, 3);
    expect(sizeOf(part, 1).value).toBeCloseTo(0.1, 3);
    expect(sizeOf(part, 0).standardUncertainty).toBeCloseTo(0.002, 4);
  });

  it("locatePart(a chain of two drawn sizes) shares what is left by their tolerances", () => {
    const part = partOf({ part: { elements, dimensions: chain({}) }, touches });
    expect(sizeOf(part, 0).value).toBeCloseTo(0.055, 9);
    expect(sizeOf(part, 1).value).toBeCloseTo(0.055, 9);
    expect(part.sizesDetermined).toEqual([false, false]);
  });

  it("locatePart(a chain with an exact size) lets the toleranced size take what is left", () => {
    const dimensions = [{ id: "to rib", from: "left", to: "rib", nominal: "50" }, chain({})[1] as object];
    const part = partOf({ part: { elements, dimensions }, touches });
    expect(sizeOf(part, 0).value).toBeCloseTo(0, 6);
    expect(sizeOf(part, 1).value).toBeCloseTo(0.11, 6);
  });
});

describe("locatePart, touches whose place was not noted", () => {
  const part = {
    elements: [
      face("left", "-X", "C"),
      face("right", "+X"),
      face("front", "-Y", "B"),
      { id: "hole", kind: "bore", made: "here", diameter: "8", x: "100", y: "50" },
    ],
    dimensions: [{ id: "width", from: "left", to: "right", nominal: "120", tolerance: "±0.2" }],
    characteristics: [{ id: "hole", kind: "position", of: "hole", tolerance: "0.1" }],
  };
  // A part turned by 0.01 rad about its corner at (10, 20), tool of radius 3: its true place, by plain geometry.
  const turn = 0.01;
  const at = (along: number, off: number): readonly [string, string] => [
    (10 + along * Math.cos(turn) - off * Math.sin(turn)).toFixed(12),
    (20 + along * Math.sin(turn) + off * Math.cos(turn)).toFixed(12),
  ];
  const front = (id: string, along: number) => ({ ...touch("front", "+Y", at(along, -3)[1], { x: at(along, -3)[0] }), id });
  const left = touch("left", "+X", at(-3, 30)[0], { y: at(-3, 30)[1] });
  const noted = [front("front 1", 15), front("front 2", 90), left];

  function deviationOf(touches: object[]): number[] | undefined {
    const document = documentFrom({
      part,
      tools: [probe],
      touches,
      strategies: [{ id: "s", touches: ["front 1", "front 2", "left"], rotation: "applied" }],
    });
    const { location, solution } = open(document);
    const [deviation] = deviations(solution("s"), location, "thisPart");
    return deviation?.ok ? deviation.value.map(({ value }) => value) : undefined;
  }

  it("locatePart(three noted touches) finds the turn, and the hole where it belongs", () => {
    expect(deviationOf(noted)).toEqual([expect.closeTo(0, 9), expect.closeTo(0, 9)]);
  });

  // One more touch whose place along the face nobody wrote down must not make the part look straight.
  it("locatePart(the same and one touch more, its place not noted) does not move the hole by tenths of a millimetre unseen", () => {
    const more = touch("right", "-X", at(123, 30)[0]);
    const document = documentFrom({
      part,
      tools: [probe],
      touches: [...noted, more],
      strategies: [{ id: "s", touches: ["front 1", "front 2", "left"], rotation: "applied" }],
    });
    const { problems, strategies } = evaluateSetup(document);
    expect(problems.map(({ at }) => at)).toEqual(["touches.right.y"]);
    const [stack] = must(strategies[0]?.evaluation as Outcome<StrategyEvaluation>).thisPart.stacks;
    expect(must(stack as Outcome<Stack>).deviation).toBeCloseTo(0, 9);
  });
});

describe("locatePart, names", () => {
  it("locatePart(a dimension named like a round element's diameter) keeps the two apart", () => {
    const document = documentFrom({
      part: {
        elements: [
          face("left", "-X", "B"),
          face("front", "-Y", "C"),
          { id: "bore", kind: "bore", diameter: "20", diameterTolerance: "±0.1" },
        ],
        dimensions: [
          { id: "bore, diameter", from: "left", to: "bore", axis: "X", nominal: "50", tolerance: "±0.2" },
          { id: "height", from: "front", to: "bore", axis: "Y", nominal: "30", tolerance: "±0.1" },
        ],
      },
      tools: [probe],
      touches: [touch("left", "+X", "-303")],
      strategies: [],
    });
    const { sizes } = open(document).location;
    const movements = sizes.movementsOf("bore");
    const shifted = movements.filter(({ shift }) => shift.some((along) => along !== 0));
    const grown = movements.filter(({ growth }) => growth !== 0);
    expect(shifted.map(({ size }) => sizes.sizes[size]?.nominal).sort()).toEqual([30, 50]);
    expect(grown.map(({ size }) => sizes.sizes[size]?.nominal)).toEqual([20]);
  });
});
