import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lobingEffect } from "../../lib/contacts/lobing.ts";
import { budgetsOf } from "../../lib/uncertainty/budget.ts";
import { correlation } from "../../lib/uncertainty/covariance.ts";
import type { Uncertain } from "../../lib/uncertainty/uncertain.ts";
import { documentFrom, open, typed } from "../properties/setups.ts";

/**
 * The least-squares circle of r(t) = A cos(kt + phase) at n even places, written out here: centre (2/n) Σ r (cos t, sin t), radius the mean of r
 * (handbook formula of the Gaussian circle for even places).
 */
function circleThrough(lobes: number, touches: number, phase: number) {
  const angles = Array.from({ length: touches }, (_, i) => (2 * Math.PI * i) / touches);
  const rise = angles.map((angle) => Math.cos(lobes * angle + phase));
  const mean = (of: (angle: number, i: number) => number) => angles.reduce((total, angle, i) => total + of(angle, i), 0) / touches;
  return {
    centre: Math.hypot(2 * mean((t, i) => (rise[i] as number) * Math.cos(t)), 2 * mean((t, i) => (rise[i] as number) * Math.sin(t))),
    radius: mean((_, i) => rise[i] as number),
  };
}

describe("lobingEffect(lobes, touches)", () => {
  it("is what the circle through the touches does, whatever the phase", () => {
    const phases = Array.from({ length: 12 }, (_, i) => (2 * Math.PI * i) / 12);
    for (let touches = 3; touches <= 16; touches++)
      for (let lobes = 2; lobes <= 40; lobes++) {
        const { centre, diameter } = lobingEffect(lobes, touches);
        for (const phase of phases) {
          const circle = circleThrough(lobes, touches, phase);
          expect(circle.centre).toBeCloseTo(centre, 10);
          expect(2 * circle.radius).toBeCloseTo(diameter * Math.cos(phase), 10);
        }
      }
  });

  // Plain cases of the trade, by the geometry of the three, four and eight places.
  it.each([
    [3, 3, 0, 2],
    [3, 4, 1, 0],
    [3, 8, 0, 0],
    [2, 3, 1, 0],
    [2, 4, 0, 0],
    [4, 3, 1, 0],
    [4, 4, 0, 2],
    [5, 4, 1, 0],
    [7, 8, 1, 0],
    [8, 8, 0, 2],
    [9, 8, 1, 0],
  ])("%i lobes on %i touches move the centre by %i and the diameter by %i amplitudes", (lobes, touches, centre, diameter) => {
    expect(lobingEffect(lobes, touches)).toEqual({ centre, diameter });
  });

  it("refuses what is no form error, and touches that fix no circle", () => {
    expect(() => lobingEffect(1, 4)).toThrow("lobes: expected a whole number of 2 or more, got 1");
    expect(() => lobingEffect(3, 2)).toThrow("touches: expected a whole number of 3 or more, got 2");
  });
});

describe("a bore whose wall is stated to be lobed", () => {
  function bore(kind: "bore" | "boss", lobes: number, touches: number, amplitude: number, start: number) {
    const off = kind === "bore" ? 15 - 3 : 15 + 3;
    return open(
      documentFrom({
        version: 2,
        part: {
          elements: [
            {
              id: "round",
              kind,
              datum: "A",
              diameter: "30",
              diameterTolerance: "±0.1",
              lobes: String(lobes),
              lobeAmplitude: typed(amplitude),
            },
          ],
        },
        tools: [{ id: "probe", kind: "touch probe", radius: "3", scatter: "0" }],
        touches: Array.from({ length: touches }, (_, i) => {
          const angle = start + (2 * Math.PI * i) / touches;
          return {
            id: `t${i}`,
            element: "round",
            travelling: "radial",
            tool: "probe",
            readings: `X${typed(-100 + off * Math.cos(angle))} Y${typed(-50 + off * Math.sin(angle))}`,
          };
        }),
        strategies: [{ id: "s", touches: Array.from({ length: touches }, (_, i) => `t${i}`), zero: { x: "round", y: "round" } }],
      }),
    );
  }

  // A fixed amount in an unknown direction: A/√2 along each axis (JCGM 101:2008, 6.4.6), and 2A/√2 in a diameter that it goes into.
  it("brings into centre and diameter what its touches take for them", () => {
    const amount = fc.integer({ min: 1, max: 40 }).map((micrometres) => micrometres / 1000);
    const cases = fc.record({
      kind: fc.constantFrom("bore", "boss") as fc.Arbitrary<"bore" | "boss">,
      lobes: fc.integer({ min: 2, max: 12 }),
      touches: fc.constantFrom(3, 4, 5, 8),
      amount,
      start: fc.integer({ min: 0, max: 6000 }).map((thousandths) => thousandths / 1000),
    });
    fc.assert(
      fc.property(cases, ({ kind, lobes, touches, amount: amplitude, start }) => {
        const { solution } = bore(kind, lobes, touches, amplitude, start);
        const { fromReadings, frame } = solution("s");
        const [x, y, size] = budgetsOf([fromReadings.zero[0], fromReadings.zero[1], frame.sizes[0] as Uncertain]);
        const effect = lobingEffect(lobes, touches);
        expect(x?.standardUncertainty).toBeCloseTo((effect.centre * amplitude) / Math.SQRT2, 9);
        expect(y?.standardUncertainty).toBeCloseTo((effect.centre * amplitude) / Math.SQRT2, 9);
        expect(size?.standardUncertainty).toBeCloseTo((effect.diameter * amplitude) / Math.SQRT2, 9);
        if (x && y && effect.centre === 1) expect(correlation(x, y)).toBeCloseTo(0, 9);
      }),
      { numRuns: 60 },
    );
  });

  it.each([
    [{ lobes: "3", lobeAmplitude: "" }, "part.elements.round.lobeAmplitude", "how far the lobes rise is missing"],
    [{ lobes: "", lobeAmplitude: "0.01" }, "part.elements.round.lobes", "depends on how many lobes it has"],
    [{ lobes: "1", lobeAmplitude: "0.01" }, "part.elements.round.lobes", "lobes are counted"],
    [{ lobes: "2.5", lobeAmplitude: "0.01" }, "part.elements.round.lobes", "lobes are counted"],
    [{ lobes: "three", lobeAmplitude: "0.01" }, "part.elements.round.lobes", "does not belong to a number"],
    [{ lobes: "3", lobeAmplitude: "-0.01" }, "part.elements.round.lobeAmplitude", "this cannot be negative"],
    [{ kind: "face", outward: "+X", lobes: "3" }, "part.elements.round.lobes", "only a round wall has lobes"],
  ])("%o is told at its place", (entries, at, what) => {
    const opened = () =>
      open(
        documentFrom({
          version: 2,
          part: { elements: [{ id: "round", kind: "bore", diameter: "30", ...entries }] },
          tools: [],
          touches: [],
          strategies: [],
        }),
      );
    expect(opened).toThrow(at);
    expect(opened).toThrow(what);
  });
});
