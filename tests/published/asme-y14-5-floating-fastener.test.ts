import { expect, it } from "vitest";
import { locatingOf, plate } from "../fixture/plate.ts";
import { must } from "../properties/setups.ts";

// ASME Y14.5M-1994 and Y14.5-2009, nonmandatory appendix B.3, floating fasteners: T = H - F, hole 6.44 and fastener 6.00 (value from memory, recomputed).
// A pin in a hole of the part is such a fastener: by it the hole, and what is cut about it, may lie anywhere within a zone of that diameter.
it("fastener-floating: a hole of 6.44 about a pin of 6.00 floats within a zone of diameter 0.44", () => {
  const hole = (id: string, x: string, datum: string) => ({ id, kind: "bore", datum, x, y: "0", diameter: "6.44" });
  const document = plate(
    {
      locators: [
        { id: "round", kind: "round pin", element: "first", diameter: "6.00", z: "0" },
        { id: "diamond", kind: "diamond pin", element: "second", diameter: "6.00", z: "0" },
      ],
    },
    {
      elements: [hole("first", "0", "D"), hole("second", "60", "E")],
      holes: [["0", "0", "0"]],
      characteristics: [
        { id: "along X", kind: "coordinate", of: "hole 1", axis: "X", tolerance: "±0.22" },
        { id: "floats", kind: "position", of: "hole 1", tolerance: "0.44" },
      ],
    },
  );
  const [along, round] = locatingOf(document).judgement.stacks.map((stack) => must(stack));
  expect(Math.abs((along?.worstCase.upper ?? 0) - (along?.worstCase.lower ?? 0) - 0.44)).toBeLessThanOrEqual(1e-9);
  // In the plane a polygon stands for the circle of the pin in its hole, 0.008 % too far at its corners and never short.
  expect((round?.worstCase.upper ?? 0) - 0.44).toBeGreaterThanOrEqual(0);
  expect(Math.abs((round?.worstCase.upper ?? 0) - 0.44)).toBeLessThanOrEqual(0.44 * 8e-5);
});
