import { describe, expect, it } from "vitest";
import type { Vector } from "../../lib/base/vector.ts";
import { layoutOf, turnWeightsOf, weightsOf } from "../../lib/fixture/layout.ts";

// The locator matrix with rows (n, r x n) is that of Asada and By, IEEE J. Robotics and Automation RA-1 (1985) 86, and of Cai, Hu and Yuan,
// J. Manuf. Sci. Eng. 119 (1997) 376. The numbers are a closed form, not published digits: one of two side locators 80 apart is high by 0.08.
describe("the locator matrix of a 3-2-1 layout", () => {
  const points: Vector[] = [
    [10, 10, 0],
    [90, 10, 0],
    [50, 70, 0],
    [10, 0, 20],
    [90, 0, 20],
    [0, 40, 20],
  ];
  const normals: Vector[] = [
    [0, 0, 1],
    [0, 0, 1],
    [0, 0, 1],
    [0, 1, 0],
    [0, 1, 0],
    [1, 0, 0],
  ];
  const layout = layoutOf(points.map((point, i) => ({ point, normal: normals[i] as Vector })));
  const unit: Vector[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];

  it("fixture-321-jacobian: a side locator that is 0.08 high turns the part by 0.001 about Z and moves its origin by 0.04 and -0.01", () => {
    const fifth = 4;
    const shift = unit.map((axis) => 0.08 * (weightsOf(layout, [0, 0, 0], axis)?.[fifth] as number));
    const turn = unit.map((axis) => 0.08 * (turnWeightsOf(layout, axis)?.[fifth] as number));
    [0.04, -0.01, 0].forEach((expected, i) => {
      expect(shift[i]).toBeCloseTo(expected, 12);
    });
    [0, 0, 0.001].forEach((expected, i) => {
      expect(turn[i]).toBeCloseTo(expected, 12);
    });
  });

  it("all six contacts bear, none is redundant and nothing is free", () => {
    expect(layout.bearing).toEqual([0, 1, 2, 3, 4, 5]);
    expect(layout.redundant).toEqual([]);
    expect(layout.free).toEqual([]);
  });
});
