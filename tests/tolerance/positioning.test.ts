import { expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { documentFrom, must } from "../properties/setups.ts";

/** A bore at 0 touched four times and a face at -80; nothing is in doubt but the machine's scale, 0.1 mm over 100. */
const { strategies } = evaluateSetup(
  documentFrom({
    part: {
      elements: [
        { id: "bore", kind: "bore", diameter: "20", datum: "A", x: "0", y: "0" },
        { id: "left", kind: "face", outward: "-X" },
        { id: "hole", kind: "bore", made: "here", diameter: "6", x: "-70", y: "0" },
      ],
      dimensions: [{ id: "edge", from: "bore", to: "left", axis: "X", nominal: "-80", tolerance: "±0.1" }],
      characteristics: [
        { id: "hole X", kind: "coordinate", of: "hole", axis: "X", tolerance: "±0.02" },
        { id: "wall", kind: "distance", of: "hole", from: "left", axis: "X", tolerance: "±0.05" },
      ],
    },
    tools: [{ id: "probe", kind: "touch probe", radius: "3", scatterFrom: "stated", scatter: "0" }],
    machine: { positioning: "0.1", positioningOver: "100" },
    touches: [
      { id: "b1", element: "bore", travelling: "+X", tool: "probe", readings: "7", y: "0" },
      { id: "b2", element: "bore", travelling: "-X", tool: "probe", readings: "-7", y: "0" },
      { id: "b3", element: "bore", travelling: "+Y", tool: "probe", readings: "7", x: "0" },
      { id: "b4", element: "bore", travelling: "-Y", tool: "probe", readings: "-7", x: "0" },
      { id: "l", element: "left", travelling: "+X", tool: "probe", readings: "-83", y: "0" },
    ],
    strategies: [
      { id: "by the bore", touches: ["b1", "b2", "b3", "b4"], zero: { x: "bore", y: "bore" } },
      { id: "by the face", touches: ["l"], zero: { x: "left" } },
    ],
  }),
);
const stacks = strategies.map(({ evaluation }) => must(evaluation));
const doubt = (strategy: number, view: "thisPart" | "batch", characteristic: number) =>
  must(
    (stacks[strategy] as (typeof stacks)[number])[view].stacks[characteristic] as never as {
      ok: true;
      value: { components: { standardUncertainty: number }[] };
    },
  ).components[0]?.standardUncertainty;

// By hand: the scale errs by ±0.001 per mm (rectangular, u = 0.001/√3) over the way between the metal that places the part and the cut. "To" here
// is the half-width over the stated length.
const perMillimetre = 0.001 / Math.sqrt(3);

it.each([0, 1])(
  "the hole of this part is 70 mm from the bore that places it, whichever face the zero came from (strategy %d)",
  (strategy) => {
    expect(doubt(strategy, "thisPart", 0)).toBeCloseTo(70 * perMillimetre, 9);
  },
);

it.each([0, 1])("the wall of this part is measured from a face that was touched 10 mm from the cut (strategy %d)", (strategy) => {
  expect(doubt(strategy, "thisPart", 1)).toBeCloseTo(10 * perMillimetre, 9);
});

it("in the batch the way counts from the strategy's own touches", () => {
  expect(doubt(0, "batch", 0)).toBeCloseTo(70 * perMillimetre, 9);
  // From the face, whose own place varies by ±0.1 mm, normal with its limits at three standard deviations.
  expect(doubt(1, "batch", 0)).toBeCloseTo(Math.hypot(10 * perMillimetre, 0.1 / 3), 9);
  expect(doubt(1, "batch", 1)).toBeCloseTo(10 * perMillimetre, 9);
});

it("the zero is a coordinate of the machine's own scale: positioning is no doubt of it", () => {
  for (const { zero } of stacks) expect(must(zero[0]).standardUncertainty).toBeCloseTo(0, 12);
});
