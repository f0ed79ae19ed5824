import { describe, expect, it } from "vitest";
import type { Budget } from "../../lib/uncertainty/budget.ts";
import { componentsOf, locatingOf, plate, reachOf } from "../fixture/plate.ts";

// Wang Xiankui, Machinery Manufacturing Technology; Xiao Jide, Machine Tool Fixture Design: the standard table of the location error
// of a round part in a V-block per unit of its diameter's tolerance, of the axis, the upper and the lower line (values from memory, recomputed).
describe("location error of a round part in a V-block", () => {
  it.each([
    ["60", 1.0, 1.5, 0.5],
    // biome-ignore lint/suspicious/noApproximativeNumericConstant: the digits as published
    ["90", 0.707, 1.207, 0.207],
    ["120", 0.577, 1.077, 0.077],
  ])("fixture-vblock: a V of %s degrees moves the axis, the far and the near line by the published shares", (angle, axis, far, near) => {
    const tolerance = 0.1;
    const document = plate(
      { locators: [{ id: "vee", kind: "V-block", element: "shaft", facing: "+Y", angle, z: "0" }] },
      {
        elements: [{ id: "shaft", kind: "boss", datum: "D", x: "0", y: "0", diameter: "40", diameterTolerance: "±0.05" }],
        holes: [["0", "0", "0"]],
        characteristics: [{ id: "height", kind: "coordinate", of: "hole 1", axis: "Y", tolerance: "±0.1" }],
      },
    );
    const [budget] = componentsOf(locatingOf(document)) as [Budget];
    const [diameter] = budget.contributions;
    // A feature cut where the fixture is lies lower on a part that sits higher.
    const sensitivity = -(diameter?.sensitivity as number);
    const range = (share: number) => 2 * Math.abs(share) * 0.05;
    expect(budget.contributions).toHaveLength(1);
    expect(Math.abs(range(sensitivity) / tolerance - axis)).toBeLessThanOrEqual(6e-4);
    expect(Math.abs(range(sensitivity + 0.5) / tolerance - far)).toBeLessThanOrEqual(6e-4);
    expect(Math.abs(range(sensitivity - 0.5) / tolerance - near)).toBeLessThanOrEqual(6e-4);
  });
});

// The same books' example of a plate on a round and a diamond pin 59 apart: pin 12 g6 (-0.006/-0.017) and pin 11.92 (0/-0.011) in two
// holes of 12 (+0.027/0): largest clearances 0.044 and 0.118, tangent of the largest turn 0.00138, printed with three
// figures where (0.044 + 0.118)/(2 · 59) = 0.001373 (values from memory, recomputed).
describe("turn of a plate on two pins", () => {
  const hole = (id: string, x: string, datum: string) => ({
    id,
    kind: "bore",
    datum,
    x,
    y: "0",
    diameter: "12",
    diameterTolerance: "+0.027 0",
  });
  const document = plate(
    {
      locators: [
        { id: "round", kind: "round pin", element: "first", diameter: "12", diameterTolerance: "-0.006 -0.017", z: "0" },
        { id: "diamond", kind: "diamond pin", element: "second", diameter: "11.92", diameterTolerance: "0 -0.011", z: "0" },
      ],
    },
    { elements: [hole("first", "0", "D"), hole("second", "59", "E")] },
  );

  it("fixture-two-pin-rotation: the largest turn is that of the clearances together", () => {
    const turn = locatingOf(document).turns[2] as Budget;
    expect(Math.abs(Math.tan(reachOf(turn)) - 0.00138)).toBeLessThanOrEqual(1e-5);
    expect(reachOf(turn)).toBeCloseTo(0.162 / 118, 12);
  });
});
