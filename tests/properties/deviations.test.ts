import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import type { Stack } from "../../lib/tolerance/stack.ts";
import { documentFrom, must, typed } from "./setups.ts";

// Many evaluations a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

// What a zero does to the drawing's features, by the trade's formulas: lost motion, datum mismatch, position used,
// chance. Written out here from the trade, not from the code.

const runs = { numRuns: 40 };
const micrometres = (least: number, most: number) => fc.integer({ min: least * 1000, max: most * 1000 }).map((value) => value / 1000);

type View = "thisPart" | "batch";
const views = fc.constantFrom<View>("thisPart", "batch");

function stackOf(document: SetupDocument, strategy: string, characteristic: string, view: View): Stack {
  const evaluation = evaluateSetup(document);
  expect(evaluation.problems).toEqual([]);
  const found = evaluation.strategies.find(({ id }) => id === strategy)?.evaluation;
  if (found === undefined) throw new Error(`no strategy ${strategy}`);
  const stack = must(found)
    [view].stacks.map(must)
    .find((each) => each.characteristic === characteristic);
  if (stack === undefined) throw new Error(`no characteristic ${characteristic}`);
  return stack;
}

/** Signed effect of the source at its limit, along the first axis of the characteristic; 0 when it has none. */
function reachOf({ rows }: Stack, text: string): number {
  return rows.find(({ source }) => source.id.includes(text))?.reaches[0] ?? 0;
}

interface Job {
  readonly width: number;
  readonly left: number;
  readonly more: number;
  readonly b: number;
  readonly working: string;
  readonly datum: "left" | "middle";
  readonly limits: readonly [number, number];
  readonly measured?: number;
}

const jobs: fc.Arbitrary<Job> = fc.record({
  width: micrometres(40, 200),
  left: micrometres(-500, 300),
  more: micrometres(-0.09, 0.09),
  b: micrometres(0.002, 0.08),
  working: fc.constantFrom("", "+", "-"),
  datum: fc.constantFrom<"left" | "middle">("left", "middle"),
  limits: fc.tuple(micrometres(-0.3, -0.05), micrometres(0.05, 0.3)),
});

/** A plate whose drawing datum is the left face or the middle, zeroed in every way; readings of a part that is `more` wider than drawn. */
function plate({ width, left, more, b, working, datum, limits, measured }: Job): SetupDocument {
  return documentFrom({
    part: {
      elements: [
        { id: "left", kind: "face", outward: "-X", datum: datum === "left" ? "B" : "" },
        { id: "right", kind: "face", outward: "+X" },
        { id: "middle", kind: "middle", of: ["left", "right"], datum: datum === "middle" ? "B" : "" },
        { id: "slot", kind: "face", outward: "+X", made: "here", x: "11.5" },
      ],
      dimensions: [
        {
          id: "width",
          from: "left",
          to: "right",
          nominal: typed(width),
          tolerance: `${typed(limits[0])} / +${typed(limits[1])}`,
          measured: measured === undefined ? "" : typed(measured),
          measuredUncertainty: measured === undefined ? "" : "0.004",
        },
      ],
      characteristics: [{ id: "slot", kind: "coordinate", of: "slot", tolerance: "±0.5" }],
    },
    tools: [{ id: "tip", kind: "touch probe", radius: "3", radiusUncertainty: "0.001", scatter: "0.002" }],
    machine: { lostMotion: { x: typed(b) }, working: { x: working } },
    touches: [
      { id: "l", element: "left", travelling: "+X", tool: "tip", readings: typed(left) },
      { id: "r", element: "right", travelling: "-X", tool: "tip", readings: typed(left + 6 + width + more) },
    ],
    strategies: [
      { id: "left", touches: ["l"], zero: { x: datum === "left" ? "left" : "middle" } },
      { id: "right", touches: ["r"], zero: { x: "right" } },
      { id: "middle", touches: ["l", "r"], hold: ["middle"], zero: { x: "middle" } },
      { id: "measured", touches: ["r"], sizes: "measured" },
    ],
  });
}

describe("lost motion", () => {
  // E = (b/2)(d_use - mean(d_touch)): the left face is touched moving +, the right one moving -, the mid-plane has a mean of 0.
  it.each([
    ["left", 1],
    ["right", -1],
    ["middle", 0],
  ] as const)("zero by the %s, mean direction of touching %d: |E| is at most (b/2)|d_use - mean|", (strategy, meanDirection) => {
    fc.assert(
      fc.property(jobs, fc.constantFrom(1, -1), views, (job, use, view) => {
        const stack = stackOf(plate({ ...job, working: use === 1 ? "+" : "-" }), strategy, "slot", view);
        // In this part's view the drawing's frame itself was touched: its left face moving +, its middle from both sides.
        const d = view === "batch" ? meanDirection : job.datum === "left" ? 1 : 0;
        expect(Math.abs(reachOf(stack, "lost motion"))).toBeCloseTo((job.b / 2) * Math.abs(use - d), 10);
      }),
      runs,
    );
  });

  it("with both directions of working, half the lost motion bounds it whatever the touches", () => {
    fc.assert(
      fc.property(jobs, views, fc.constantFrom("left", "right", "middle"), (job, view, strategy) => {
        const stack = stackOf(plate({ ...job, working: "" }), strategy, "slot", view);
        expect(Math.abs(reachOf(stack, "lost motion"))).toBeCloseTo(job.b / 2, 10);
      }),
      runs,
    );
  });

  it("the zero itself carries (b/2)|d_use - mean|", () => {
    fc.assert(
      fc.property(jobs, fc.constantFrom(1, -1), (job, use) => {
        const { strategies } = evaluateSetup(plate({ ...job, working: use === 1 ? "+" : "-" }));
        for (const [id, mean] of [
          ["left", 1],
          ["right", -1],
          ["middle", 0],
        ] as const) {
          const budget = must(must((strategies.find((each) => each.id === id) as (typeof strategies)[number]).evaluation).zero[0]);
          const reach = budget.contributions.find(({ source }) => source.id.includes("lost motion"))?.reach ?? 0;
          expect(reach).toBeCloseTo((job.b / 2) * Math.abs(use - mean), 10);
        }
      }),
      runs,
    );
  });
});

describe("datum mismatch", () => {
  // feature error = g (S - S_nom)
  it.each([
    ["left", "left", 0],
    ["left", "right", 1],
    ["left", "middle", 0.5],
    ["middle", "left", -0.5],
    ["middle", "right", 0.5],
    ["middle", "middle", 0],
  ] as const)("drawing datum %s, zero by the %s: g = %d", (datum, strategy, g) => {
    fc.assert(
      fc.property(jobs, (job) => {
        const document = plate({ ...job, datum });
        const [lower, upper] = job.limits;
        const batch = stackOf(document, strategy, "slot", "batch");
        expect(reachOf(batch, "dimension width")).toBeCloseTo((g * (upper - lower)) / 2, 10);
        // Asymmetric limits shift the batch's mean by the gain times their middle; symmetric ones not at all.
        expect(batch.deviation).toBeCloseTo((g * (upper + lower)) / 2, 9);
        // Both faces of this part are touched: its size is known, and its error with it.
        expect(stackOf(document, strategy, "slot", "thisPart").deviation).toBeCloseTo(g * job.more, 9);
      }),
      { ...runs, numRuns: 25 },
    );
  });

  it("symmetric limits leave the mean of the batch at zero, whatever this part measures", () => {
    fc.assert(
      fc.property(jobs, fc.constantFrom("left", "right", "middle"), (job, strategy) => {
        const document = plate({ ...job, limits: [-job.limits[1], job.limits[1]] });
        expect(stackOf(document, strategy, "slot", "batch").deviation).toBeCloseTo(0, 9);
      }),
      runs,
    );
  });

  it("a measured size leaves its own doubt in place of the tolerance, with the same gain", () => {
    fc.assert(
      fc.property(jobs, (job) => {
        const document = plate({ ...job, datum: "left", measured: job.width + job.more });
        const batch = stackOf(document, "measured", "slot", "batch");
        expect(reachOf(batch, "in the batch")).toBeCloseTo(0, 12);
        expect(Math.abs(batch.rows.find(({ source }) => source.id.includes("measured"))?.amounts[0] ?? 0)).toBeCloseTo(0.004, 12);
        expect(batch.deviation).toBeCloseTo(0, 9);
        expect(stackOf(document, "measured", "slot", "thisPart").deviation).toBeCloseTo(0, 9);
      }),
      { ...runs, numRuns: 20 },
    );
  });
});

describe("position and chance", () => {
  function hole(sigma: number, zone: number, shift: readonly [number, number] = [0, 0]): SetupDocument {
    return documentFrom({
      part: {
        elements: [
          { id: "left", kind: "face", outward: "-X", datum: "C" },
          { id: "front", kind: "face", outward: "-Y", datum: "B" },
          { id: "hole", kind: "bore", made: "here", diameter: "8", x: "30", y: "20", process: typed(sigma) },
        ],
        characteristics: [{ id: "position", kind: "position", of: "hole", tolerance: typed(zone) }],
      },
      tools: [{ id: "tip", kind: "touch probe", radius: "3", scatter: "0" }],
      touches: [
        { id: "l", element: "left", travelling: "+X", tool: "tip", readings: "-303" },
        { id: "f", element: "front", travelling: "+Y", tool: "tip", readings: "-203" },
        // The same faces again, elsewhere: this part's place is the mean of both.
        { id: "l2", element: "left", travelling: "+X", tool: "tip", readings: typed(-303 - 2 * shift[0]) },
        { id: "f2", element: "front", travelling: "+Y", tool: "tip", readings: typed(-203 - 2 * shift[1]) },
      ],
      strategies: [{ id: "s", touches: ["l", "f"] }],
    });
  }

  it("centred with equal sigma in both axes: P = 1 - exp(-T²/(8 σ²))", () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 60 }), fc.integer({ min: 20, max: 200 }), views, (sigma, zone, view) => {
        const [s, t] = [sigma / 1000, zone / 1000];
        expect(stackOf(hole(s, t), "s", "position", view).chance).toBeCloseTo(1 - Math.exp((-t * t) / (8 * s * s)), 8);
      }),
      { ...runs, numRuns: 20 },
    );
  });

  it("a shift (ex, ey) uses T = 2 √(ex² + ey²) of the zone", () => {
    const shift = fc.integer({ min: -80, max: 80 }).map((value) => value / 1000);
    fc.assert(
      fc.property(shift, shift, (ex, ey) => {
        const stack = stackOf(hole(0.01, 0.1, [ex, ey]), "s", "position", "thisPart");
        expect(stack.components.map(({ value }) => value)).toEqual([expect.closeTo(ex, 9), expect.closeTo(ey, 9)]);
        expect(stack.deviation).toBeCloseTo(2 * Math.hypot(ex, ey), 9);
        expect(stack.shares.deviation).toBeCloseTo((2 * Math.hypot(ex, ey)) / 0.1, 7);
      }),
      { ...runs, numRuns: 20 },
    );
  });
});

describe("an axis that nothing touches", () => {
  it("gives no deviation along it, and no chance of all, and says which touch is missing", () => {
    const document = documentFrom({
      part: {
        elements: [
          { id: "left", kind: "face", outward: "-X", datum: "C" },
          { id: "front", kind: "face", outward: "-Y", datum: "B" },
          { id: "hole", kind: "bore", made: "here", diameter: "8", x: "30", y: "20" },
        ],
        characteristics: [
          { id: "position", kind: "position", of: "hole", tolerance: "0.1" },
          { id: "x", kind: "coordinate", of: "hole", axis: "X", tolerance: "±0.05" },
        ],
      },
      tools: [{ id: "tip", kind: "touch probe", radius: "3", scatter: "0.001" }],
      touches: [{ id: "l", element: "left", travelling: "+X", tool: "tip", readings: "-303" }],
      strategies: [{ id: "s", touches: ["l"] }],
    });
    const { strategies } = evaluateSetup(document);
    const { zero, thisPart, batch } = must((strategies[0] as (typeof strategies)[number]).evaluation);
    expect(zero.map(({ ok }) => ok)).toEqual([true, false, false]);
    for (const judgement of [thisPart, batch]) {
      expect(judgement.stacks.map(({ ok }) => ok)).toEqual([false, true]);
      const [position] = judgement.stacks;
      expect(position?.ok === false && position.problems[0]?.remedy).toBe("add a touch that meets the part along Y");
      expect(judgement.chanceOfAll.ok).toBe(false);
    }
  });
});

describe("Z: a depth from the top", () => {
  it("a zero that is too high by e makes a depth from the datum face too small by e", () => {
    fc.assert(
      fc.property(micrometres(-0.05, 0.05), micrometres(1, 30), (e, deep) => {
        const document = documentFrom({
          part: {
            elements: [
              { id: "top", kind: "face", outward: "+Z", datum: "A" },
              { id: "floor", kind: "face", outward: "+Z", made: "here", z: typed(-deep) },
            ],
            characteristics: [{ id: "depth", kind: "depth", of: "floor", from: "top", tolerance: "±0.1" }],
          },
          tools: [{ id: "tool", kind: "tool or pin", length: "100", scatter: "0.001" }],
          touches: [
            { id: "good", element: "top", travelling: "-Z", tool: "tool", readings: typed(-200 - 2 * e) },
            { id: "high", element: "top", travelling: "-Z", tool: "tool", readings: "-200" },
          ],
          strategies: [{ id: "s", touches: ["high"] }],
        });
        // The floor's coordinate less the top's grows by e: less deep.
        expect(stackOf(document, "s", "depth", "thisPart").deviation).toBeCloseTo(e, 9);
        expect(stackOf(document, "s", "depth", "batch").deviation).toBeCloseTo(0, 9);
      }),
      { ...runs, numRuns: 20 },
    );
  });
});
