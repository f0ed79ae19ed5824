import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import type { Stack } from "../../lib/tolerance/stack.ts";
import { documentFrom, must, typed } from "./setups.ts";

// Many evaluations a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

// What the drawing demands of one element with respect to another. The zones are those of ISO 1101: coaxiality a cylinder about the other axis,
// T = 2 √(ex² + ey²); symmetry two planes half the width to either side of the other middle. Formulas written out here by hand.

const runs = { numRuns: 25 };
const micrometres = (least: number, most: number) => fc.integer({ min: least * 1000, max: most * 1000 }).map((value) => value / 1000);

type View = "thisPart" | "batch";
const views = ["thisPart", "batch"] as const;

function stacksOf(document: SetupDocument, strategy: string, view: View): (id: string) => Stack {
  const evaluation = evaluateSetup(document);
  expect(evaluation.problems).toEqual([]);
  const found = evaluation.strategies.find(({ id }) => id === strategy)?.evaluation;
  if (found === undefined) throw new Error(`no strategy ${strategy}`);
  const stacks = must(found)[view].stacks.map(must);
  return (id) => {
    const stack = stacks.find(({ characteristic }) => characteristic === id);
    if (stack === undefined) throw new Error(`no characteristic ${id}`);
    return stack;
  };
}

/** Signed effect of the source at its limit by component; 0 when it has none. */
function reachOf({ rows }: Stack, text: string, component = 0): number {
  return rows.find(({ source }) => source.id.includes(text))?.reaches[component] ?? 0;
}

interface CoverJob {
  /** How far this part's bore is off its place by the dimensions. */
  readonly off: readonly [number, number];
  /** All readings together. */
  readonly shift: readonly [number, number];
  /** Standard uncertainties of the two cuts. */
  readonly cuts: readonly [number, number];
}

/** A bore with datum letter, counterbored here, and a stepped hole that is cut here as a whole; zero by the corner or by the bore. */
function cover({ off: [ex, ey], shift: [sx, sy], cuts: [wide, narrow] }: CoverJob, zone = 0.1): SetupDocument {
  const centre = [-270 + ex + sx, -180 + ey + sy] as const;
  // A probe of radius 3 in a bore of 20: its centre goes 7 to every side.
  const around = ([dx, dy]: readonly [number, number]) => `X${typed(centre[0] + dx)} Y${typed(centre[1] + dy)}`;
  return documentFrom({
    part: {
      elements: [
        { id: "bore", kind: "bore", diameter: "20", datum: "B" },
        { id: "left", kind: "face", outward: "-X" },
        { id: "front", kind: "face", outward: "-Y" },
        { id: "counterbore", kind: "bore", made: "here", diameter: "28" },
        { id: "step", kind: "bore", made: "here", diameter: "12", x: "40", y: "10", process: typed(wide) },
        { id: "through", kind: "bore", made: "here", diameter: "8", x: "40", y: "10", process: typed(narrow) },
      ],
      dimensions: [
        { id: "from left", from: "left", to: "bore", axis: "X", nominal: "30", tolerance: "±0.1" },
        { id: "from front", from: "front", to: "bore", axis: "Y", nominal: "20", tolerance: "±0.06" },
      ],
      characteristics: [
        { id: "counterbore", kind: "coaxiality", of: "counterbore", from: "bore", tolerance: typed(zone) },
        { id: "step", kind: "coaxiality", of: "step", from: "through", tolerance: typed(zone) },
        { id: "where", kind: "position", of: "through", tolerance: "0.2" },
      ],
    },
    tools: [{ id: "tip", kind: "touch probe", radius: "3", radiusUncertainty: "0.001", scatter: "0.002", eccentricity: "0.003" }],
    touches: [
      { id: "l", element: "left", travelling: "+X", tool: "tip", readings: typed(-303 + sx) },
      { id: "f", element: "front", travelling: "+Y", tool: "tip", readings: typed(-203 + sy) },
      { id: "b1", element: "bore", travelling: "radial", tool: "tip", readings: around([7, 0]) },
      { id: "b2", element: "bore", travelling: "radial", tool: "tip", readings: around([0, 7]) },
      { id: "b3", element: "bore", travelling: "radial", tool: "tip", readings: around([-7, 0]) },
      { id: "b4", element: "bore", travelling: "radial", tool: "tip", readings: around([0, -7]) },
    ],
    strategies: [
      { id: "corner", touches: ["l", "f"] },
      { id: "bore", touches: ["b1", "b2", "b3", "b4"] },
    ],
  });
}

const coverJobs: fc.Arbitrary<CoverJob> = fc.record({
  off: fc.tuple(micrometres(-0.08, 0.08), micrometres(-0.08, 0.08)),
  shift: fc.tuple(micrometres(-40, 40), micrometres(-40, 40)),
  cuts: fc.tuple(micrometres(0.005, 0.04), micrometres(0.005, 0.04)),
});

describe("coaxiality", () => {
  it("to a datum axis uses T = 2 √(ex² + ey²) by the faces that are off it, and nothing by the bore itself", () => {
    fc.assert(
      fc.property(coverJobs, (job) => {
        const [ex, ey] = job.off;
        const document = cover(job);
        const byCorner = stacksOf(document, "corner", "thisPart")("counterbore");
        // The corner puts the programme where the bore should be; the bore is (ex, ey) beyond it.
        expect(byCorner.components.map(({ value }) => value)).toEqual([expect.closeTo(-ex, 8), expect.closeTo(-ey, 8)]);
        expect(byCorner.deviation).toBeCloseTo(2 * Math.hypot(ex, ey), 8);
        expect(byCorner.shares.deviation).toBeCloseTo((2 * Math.hypot(ex, ey)) / 0.1, 6);
        expect(stacksOf(document, "bore", "thisPart")("counterbore").deviation).toBeCloseTo(0, 8);
        const batch = stacksOf(document, "corner", "batch")("counterbore");
        expect([reachOf(batch, "dimension from left"), reachOf(batch, "dimension from front", 1)].map(Math.abs)).toEqual([
          expect.closeTo(0.1, 10),
          expect.closeTo(0.06, 10),
        ]);
        const own = stacksOf(document, "bore", "batch")("counterbore");
        expect([reachOf(own, "dimension from left"), reachOf(own, "dimension from front", 1)]).toEqual([
          expect.closeTo(0, 10),
          expect.closeTo(0, 10),
        ]);
      }),
      runs,
    );
  });

  it("of two axes cut here keeps nothing but the two cuts: P = 1 - exp(-T²/(8 (s₁² + s₂²)))", () => {
    fc.assert(
      fc.property(coverJobs, fc.constantFrom(...views), fc.constantFrom("corner", "bore"), (job, view, strategy) => {
        const stack = stacksOf(cover(job), strategy, view)("step");
        const [s1, s2] = job.cuts;
        expect(stack.deviation).toBeCloseTo(0, 9);
        expect(stack.effects.map(({ source }) => source.family)).toEqual(["process", "process", "process", "process"]);
        expect(stack.chance).toBeCloseTo(1 - Math.exp(-(0.1 ** 2) / (8 * (s1 ** 2 + s2 ** 2))), 8);
        // By hand: per axis √((3 s₁)² + (3 s₂)²), and 3 s₁ + 3 s₂ at once.
        expect(stack.rootSumSquare.upper).toBeCloseTo(2 * 3 * Math.hypot(s1, s2) * Math.SQRT2, 8);
        expect(stack.worstCase.upper).toBeCloseTo(2 * 3 * (s1 + s2) * Math.SQRT2, 8);
      }),
      runs,
    );
  });

  it("is the same wherever the part lies: a shift of all readings changes nothing", () => {
    fc.assert(
      fc.property(coverJobs, fc.constantFrom(...views), fc.constantFrom("corner", "bore"), (job, view, strategy) => {
        const here = stacksOf(cover({ ...job, shift: [0, 0] }), strategy, view);
        const there = stacksOf(cover(job), strategy, view);
        for (const id of ["counterbore", "step"]) {
          expect(there(id).deviation).toBeCloseTo(here(id).deviation, 8);
          expect(there(id).chance).toBeCloseTo(here(id).chance, 6);
        }
      }),
      runs,
    );
  });
});

interface PlateJob {
  readonly width: number;
  readonly more: number;
  readonly half: number;
}

const plateJobs: fc.Arbitrary<PlateJob> = fc.record({
  width: micrometres(40, 200),
  more: micrometres(-0.09, 0.09),
  half: micrometres(0.05, 0.3),
});

/** A slot to be cut in the middle of a plate that is `more` wider than drawn; its walls once as one cut and once as two. */
function plate({ width, more, half }: PlateJob, elements: readonly object[] = [], characteristics: readonly object[] = []): SetupDocument {
  return documentFrom({
    part: {
      elements: [
        { id: "left", kind: "face", outward: "-X", datum: "B" },
        { id: "right", kind: "face", outward: "+X" },
        { id: "middle", kind: "middle", of: ["left", "right"] },
        { id: "left wall", kind: "face", outward: "+X", made: "here", x: typed(width / 2 - 5), process: "0.006" },
        { id: "right wall", kind: "face", outward: "-X", made: "here", x: typed(width / 2 + 5), process: "0.008" },
        { id: "slot", kind: "middle", of: ["left wall", "right wall"], made: "here", x: typed(width / 2), process: "0.003" },
        { id: "pocket", kind: "middle", of: ["left wall", "right wall"], made: "here", x: typed(width / 2) },
        ...elements,
      ],
      dimensions: [{ id: "width", from: "left", to: "right", nominal: typed(width), tolerance: `±${typed(half)}` }],
      characteristics: [
        { id: "slot", kind: "symmetry", of: "slot", from: "middle", tolerance: "0.2" },
        { id: "pocket", kind: "symmetry", of: "pocket", from: "middle", tolerance: "0.2" },
        ...characteristics,
      ],
    },
    tools: [{ id: "tip", kind: "touch probe", radius: "3", radiusUncertainty: "0.001", scatter: "0.002" }],
    touches: [
      { id: "l", element: "left", travelling: "+X", tool: "tip", readings: "-303" },
      { id: "r", element: "right", travelling: "-X", tool: "tip", readings: typed(-297 + width + more) },
    ],
    strategies: [
      { id: "left", touches: ["l"] },
      { id: "right", touches: ["r"] },
      { id: "middle", touches: ["l", "r"], hold: ["middle"], zero: { x: "middle" } },
    ],
  });
}

describe("symmetry", () => {
  // The middle moves by half of the width; a zero at one face leaves the slot where that face is.
  it.each([
    ["left", -0.5],
    ["right", 0.5],
    ["middle", 0],
  ] as const)("zero by the %s: the width enters with the gain %d", (strategy, gain) => {
    fc.assert(
      fc.property(plateJobs, (job) => {
        const document = plate(job);
        for (const id of ["slot", "pocket"]) {
          const part = stacksOf(document, strategy, "thisPart")(id);
          expect(part.deviation).toBeCloseTo(gain * job.more, 8);
          expect(part.limits).toEqual({ lower: -0.1, upper: 0.1 });
          expect(part.shares.deviation).toBeCloseTo(Math.abs(gain * job.more) / 0.1, 6);
          expect(reachOf(stacksOf(document, strategy, "batch")(id), "dimension width")).toBeCloseTo(gain * job.half, 9);
        }
      }),
      runs,
    );
  });

  it("a middle is as uncertain as its own cut, or as the mean of its walls where it states none", () => {
    const cutsOf = (id: string) =>
      stacksOf(
        plate({ width: 80, more: 0, half: 0.1 }),
        "middle",
        "batch",
      )(id).rows.flatMap(({ source, amounts }) => (source.family === "process" ? [[source.id, amounts[0]] as const] : []));
    expect(cutsOf("slot")).toEqual([["element slot, process X", expect.closeTo(0.003, 12)]]);
    // By hand: half of each, independent.
    expect(cutsOf("pocket")).toEqual([
      ["element right wall, process X", expect.closeTo(0.004, 12)],
      ["element left wall, process X", expect.closeTo(0.003, 12)],
    ]);
  });

  it("is told as the width of its zone", () => {
    expect(summaryText(evaluateSetup(plate({ width: 80, more: 0.02, half: 0.1 })))).toMatch(/^ {2}slot +width 0\.2 /m);
    expect(summaryText(evaluateSetup(cover({ off: [0, 0], shift: [0, 0], cuts: [0, 0] })))).toMatch(/^ {2}counterbore +dia 0\.1 /m);
  });
});

describe("what no relation can be of is refused at its entry", () => {
  const more = [
    { id: "bore", kind: "bore", diameter: "6", made: "here", x: "10", y: "10" },
    { id: "other", kind: "bore", diameter: "8", made: "here", x: "10", y: "10.5" },
    { id: "aside", kind: "middle", of: ["left wall", "right wall"], made: "here", x: "7", process: "0.001" },
    { id: "unfinished", kind: "bore", made: "here", x: "10", y: "10" },
  ];
  it.each([
    ["coaxiality", "bore", "unfinished", "0.1", "from", '"unfinished" cannot be read'],
    ["coaxiality", "bore", "left", "0.1", "from", "a round zone is for an axis"],
    ["coaxiality", "slot", "bore", "0.1", "of", "a round zone is for an axis"],
    ["coaxiality", "bore", "bore", "0.1", "from", "an element has no deviation from itself"],
    ["coaxiality", "bore", "other", "0.1", "from", 'the drawing does not put "bore" and "other" at the same place along Y'],
    ["coaxiality", "bore", "nothing", "0.1", "from", "there is no readable element by this name"],
    ["coaxiality", "bore", "other", "", "tolerance", "the tolerance is missing"],
    ["coaxiality", "bore", "other", "0", "tolerance", "a zone of no size can never be met"],
    ["coaxiality", "bore", "other", "±0.1", "tolerance", undefined],
    ["symmetry", "slot", "left", "0.1", "from", "symmetry is of one middle about another"],
    ["symmetry", "left wall", "middle", "0.1", "of", "symmetry is of one middle about another"],
    ["symmetry", "middle", "middle", "0.1", "from", "an element has no deviation from itself"],
    ["symmetry", "aside", "middle", "0.1", "from", 'the drawing does not put "aside" and "middle" at the same place along X'],
    ["symmetry", "slot", "middle", "0", "tolerance", "a zone of no size can never be met"],
    ["symmetry", "slot", "middle", "-0.1", "tolerance", "this cannot be negative"],
  ])("%s of %s about %s, tolerance %j", (kind, of, from, tolerance, entry, what) => {
    const document = plate({ width: 80, more: 0, half: 0.1 }, more, [{ id: "wanted", kind, of, from, tolerance }]);
    const { problems, strategies } = evaluateSetup(document);
    const found = problems.filter(({ at }) => at === `part.characteristics.wanted.${entry}`);
    expect(found).toHaveLength(1);
    if (what !== undefined) expect(found[0]?.what).toBe(what);
    // Nobody knows such a demand to be met.
    expect(must((strategies[0] as (typeof strategies)[number]).evaluation).batch.chanceOfAll.ok).toBe(false);
  });
});
