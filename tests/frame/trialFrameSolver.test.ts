import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leastSquares } from "../../lib/base/leastSquares.ts";
import type { Vector } from "../../lib/base/vector.ts";
import type { Surface } from "../../lib/contacts/surface.ts";
import { type ContactGeometry, type Movement, poseUnknowns } from "../../lib/frame/contactResidual.ts";
import { FrameSolver, type SizeRule } from "../../lib/frame/frameSolver.ts";
import { TrialFrameSolver } from "../../lib/frame/trialFrameSolver.ts";

const plane = (point: Vector, outward: Vector): Surface => ({ kind: "plane", point, outward });
const bore: Surface = { kind: "bore", axis: [0, 0, 0], radius: 30 };
const grows: Movement[] = [{ size: 0, shift: [0, 0, 0], growth: 0.5 }];
const widens: Movement[] = [{ size: 1, shift: [1, 0, 0], growth: 0 }];

const contact = (surface: Surface, centre: Vector, travel: Vector, movements: Movement[], weight = 1): ContactGeometry => ({
  surface,
  centre,
  travel,
  movements,
  weight,
});

/** A bore touched four times, a side that its width moves, an edge at two places that count a thousandth, and the top: one more than enough. */
const contacts: ContactGeometry[] = [
  contact(bore, [327, 200, 0], [1, 0, 0], grows),
  contact(bore, [273, 200, 0], [-1, 0, 0], grows),
  contact(bore, [300, 227, 0], [0, 1, 0], grows),
  contact(bore, [300, 173, 0], [0, -1, 0], grows),
  contact(plane([80, 0, 0], [1, 0, 0]), [383, 200, 0], [-1, 0, 0], widens, 1e-3),
  contact(plane([0, -55, 0], [0, -1, 0]), [250, 142, 0], [0, 1, 0], [], 1e-3),
  contact(plane([0, -55, 0], [0, -1, 0]), [360, 142, 0], [0, 1, 0], [], 1e-3),
  contact(plane([0, 0, 10], [0, 0, 1]), [300, 200, 15], [0, 0, -1], []),
];
const reaches = [3, 3, 3, 3, 3, 3, 3, 5];
const inputsFor = (errors: readonly number[], sizes: readonly number[]) =>
  Float64Array.from([
    ...reaches.flatMap((reach, i) => [(errors[2 * i] as number) / 1000, reach + (errors[2 * i + 1] as number) / 1000]),
    ...sizes,
  ]);

const errors = fc.array(fc.integer({ min: -30, max: 30 }), { minLength: 16, maxLength: 16 });

describe.each<[string, SizeRule[]]>([
  [
    "sizes preferred",
    [
      { mode: "preferred", scale: 0.02 },
      { mode: "preferred", scale: 0.1 },
    ],
  ],
  [
    "one size free, one held",
    [
      { mode: "free", scale: 1 },
      { mode: "held", scale: 1 },
    ],
  ],
])("TrialFrameSolver, %s", (_, sizes) => {
  const estimates = inputsFor(
    Array.from({ length: 16 }, () => 0),
    [0, 0],
  );
  const reference = new FrameSolver(contacts, sizes, true);
  const start = new Float64Array(reference.outputCount);
  const linear = reference.settle(estimates, start);
  if (linear === undefined) throw new Error("no solution at the estimates");

  it("finds for inputs about the estimate what FrameSolver finds from the contacts alone", () => {
    const quick = new TrialFrameSolver(contacts, sizes, true, start, linear);
    fc.assert(
      fc.property(errors, fc.integer({ min: -90, max: 90 }), (shifts, width) => {
        const inputs = inputsFor(shifts, [0.004, width / 1000]);
        const slow = new Float64Array(reference.outputCount);
        const fast = new Float64Array(reference.outputCount);
        expect(reference.solve(inputs, slow)).toBe(true);
        expect(quick.solve(inputs, fast)).toBe(true);
        // Rounding of coordinates of some 300 mm, 6e-14 each, a thousandfold where contacts count a thousandth.
        for (const [unknown, value] of fast.entries())
          expect(Math.abs(value - (slow[unknown] as number))).toBeLessThan(unknown === 3 ? 1e-12 : 5e-11);
      }),
      { numRuns: 100 },
    );
  });

  it("does not depend on what was solved before", () => {
    const inputs = inputsFor(
      Array.from({ length: 16 }, (__, i) => ((7 * i) % 11) - 5),
      [0, 0.01],
    );
    const other = inputsFor(
      Array.from({ length: 16 }, (__, i) => ((5 * i) % 13) - 6),
      [0, -0.02],
    );
    const [first, again] = [new Float64Array(start.length), new Float64Array(start.length)];
    new TrialFrameSolver(contacts, sizes, true, start, linear).solve(inputs, first);
    const used = new TrialFrameSolver(contacts, sizes, true, start, linear);
    used.solve(other, again);
    used.solve(inputs, again);
    expect([...again]).toEqual([...first]);
  });
});

it("TrialFrameSolver leaves contacts that do not determine everything to FrameSolver", () => {
  const few = contacts.slice(4, 7);
  const sizes: SizeRule[] = [
    { mode: "preferred", scale: 0.02 },
    { mode: "preferred", scale: 0.1 },
  ];
  const inputs = Float64Array.from([0.004, 3, 0.001, 3, -0.002, 3, 0, 0.03]);
  const from = new Float64Array(poseUnknowns + 2);
  const reference = new FrameSolver(few, sizes, true);
  const linear = reference.settle(Float64Array.from([0, 3, 0, 3, 0, 3, 0, 0]), from);
  if (linear === undefined) throw new Error("no solution at the estimates");
  const [slow, fast] = [new Float64Array(6), new Float64Array(6)];
  new FrameSolver(few, sizes, true, from).solve(inputs, slow);
  expect(new TrialFrameSolver(few, sizes, true, from, linear).solve(inputs, fast)).toBe(true);
  expect([...fast]).toEqual([...slow]);
});

it("leastSquares(A, b) leaves a residual square to every column, for rows of very different weight", () => {
  const entry = fc.integer({ min: -50, max: 50 }).map((n) => n / 7);
  fc.assert(
    fc.property(fc.array(entry, { minLength: 20, maxLength: 20 }), fc.array(entry, { minLength: 5, maxLength: 5 }), (entries, right) => {
      const weights = [1, 1, 1e-3, 1e-3, 1e-3];
      const a = Float64Array.from(entries, (value, at) => (value + (at % 5 === 0 ? 20 : 0)) * (weights[Math.floor(at / 4)] as number));
      const b = Float64Array.from(right, (value, i) => value * (weights[i] as number));
      const x = new Float64Array(4);
      fc.pre(leastSquares(5, 4, a.slice(), b.slice(), x));
      const rest = b.map((value, i) => value - x.reduce((total, each, k) => total + each * (a[4 * i + k] as number), 0));
      const largest = Math.max(1, ...x.map(Math.abs));
      for (let k = 0; k < 4; k++) {
        const slope = rest.reduce((total, value, i) => total + value * (a[4 * i + k] as number), 0);
        expect(Math.abs(slope)).toBeLessThan(1e-10 * largest);
      }
    }),
    { numRuns: 200 },
  );
});
