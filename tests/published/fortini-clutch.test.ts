import { describe, expect, it } from "vitest";
import { budgetsOf } from "../../lib/uncertainty/budget.ts";
import { fromSource, unary } from "../../lib/uncertainty/uncertain.ts";
import { distanceStack, link } from "../properties/stacks.ts";

const degrees = 180 / Math.PI;

/** The one-way clutch: φ = acos((a + c)/(e - c)) and b = (e - c) sin φ. */
function clutch(a: number, c: number, e: number) {
  const sources = [
    [a, 0.0125, "a"],
    [c, 0.01, "c"],
    [e, 0.0125, "e"],
  ].map(([estimate, halfWidth, id]) =>
    link(String(id), { shape: "rectangular", halfWidth: Number(halfWidth) }, { estimate: Number(estimate) }),
  );
  const [hub, roller, cage] = sources.map(fromSource) as [
    ReturnType<typeof fromSource>,
    ReturnType<typeof fromSource>,
    ReturnType<typeof fromSource>,
  ];
  const angle = unary("arccosine", hub.plus(roller).over(cage.minus(roller)));
  return { angle, length: cage.minus(roller).times(unary("sine", angle)) };
}

describe("Fortini's one-way clutch", () => {
  // Fortini, Dimensioning for Interchangeable Manufacture (1967); Chase, Gao, Magleby, J. Design and Manufacturing 5 (1995): a 27.645,
  // c 11.43, e 50.8 (value from memory, recomputed).
  it("clutch-nominal: the angle is 7.0184 degrees and the length 4.8105", () => {
    const { angle, length } = clutch(27.645, 11.43, 50.8);
    expect(Math.abs(angle.value * degrees - 7.0184)).toBeLessThanOrEqual(5.1e-5);
    expect(Math.abs(length.value - 4.8105)).toBeLessThanOrEqual(5.1e-5);
  });

  // Feng and Kusiak, Robust tolerance design, J. Manuf. Sci. Eng. 119 (1997), in diameters: 0.122 rad (value from memory, recomputed).
  it("clutch-nominal-rad: in diameters the angle is 0.122 rad", () => {
    expect(Math.abs(clutch(55.291, 22.86, 101.6).angle.value - 0.122)).toBeLessThanOrEqual(0.00051);
  });

  // Derivatives in closed form: a sanity check, not published digits.
  it("clutch-sensitivities-closed: sensitivities -0.20788, -0.41420, 0.20632; worst case 0.5340 and root sum square 0.3167 degrees", () => {
    const { angle } = clutch(27.645, 11.43, 50.8);
    const { contributions } = budgetsOf([angle])[0] as ReturnType<typeof budgetsOf>[number];
    for (const [id, expected] of [
      ["a", -0.20788],
      ["c", -0.4142],
      ["e", 0.20632],
    ] as const) {
      expect(Math.abs((contributions.find(({ source }) => source.id === id)?.sensitivity ?? 0) - expected)).toBeLessThanOrEqual(1e-5);
    }
    const { worstCase, rootSumSquare } = distanceStack(angle, -1, 1);
    expect(((worstCase.upper - worstCase.lower) / 2) * degrees).toBeCloseTo(0.534, 4);
    expect(((rootSumSquare.upper - rootSumSquare.lower) / 2) * degrees).toBeCloseTo(0.3167, 4);
  });
});
