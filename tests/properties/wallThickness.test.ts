import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { judgeCharacteristic } from "../../lib/decision/judgeCharacteristic.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { verdictSentence } from "../../lib/record/verdictSentence.ts";
import type { Stack } from "../../lib/tolerance/stack.ts";
import { writerOf } from "../../notebooks/figures/displayUnit.ts";
import { stackInWords } from "../../notebooks/figures/stackInWords.ts";
import { strategyComparison } from "../../notebooks/figures/strategyComparison.ts";
import { toleranceStack } from "../../notebooks/figures/toleranceStack.ts";
import { drawn, faultsOf } from "../notebooks/figures/drawnFigure.ts";
import { documentFrom, must, typed } from "./setups.ts";

// Many evaluations a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

// Plane geometry, by hand: a wall is the distance of the centre from the face, or of the centres, less the radii.

const runs = { numRuns: 25 };
const micrometres = (least: number, most: number) => fc.integer({ min: least * 1000, max: most * 1000 }).map((value) => value / 1000);

type View = "thisPart" | "batch";

interface Job {
  readonly width: number;
  /** How much wider this part is. */
  readonly more: number;
  /** How much larger its bore is that was there before. */
  readonly larger: number;
  readonly lower: number;
  readonly upper: number;
  /** Standard uncertainty of the cut. */
  readonly cut: number;
}

const plain: Job = { width: 80, more: 0, larger: 0, lower: 0, upper: 0.02, cut: 0.01 };
const jobs: fc.Arbitrary<Job> = fc.record({
  width: micrometres(70, 200),
  more: micrometres(-0.09, 0.09),
  larger: micrometres(-0.05, 0.05),
  lower: micrometres(-0.06, -0.01),
  upper: micrometres(0.01, 0.06),
  cut: micrometres(0.002, 0.02),
});

/** Datums left and front; a bore of 10 that is there, 3-4-5 away from one of 12 that is cut here, 5 from the right face edge to edge. */
function plate({ width, more, larger, lower, upper, cut }: Job, wanted: readonly object[] = walls, extra: object = {}): SetupDocument {
  const tolerance = `${typed(lower)} / +${typed(upper)}`;
  const reach = 5 + larger / 2 - 3;
  const around = ([dx, dy]: readonly [number, number]) => `X${typed(-300 + width - 41 + dx)} Y${typed(-200 + 20 + dy)}`;
  return documentFrom({
    part: {
      elements: [
        { id: "left", kind: "face", outward: "-X", datum: "B" },
        { id: "front", kind: "face", outward: "-Y", datum: "C" },
        { id: "top", kind: "face", outward: "+Z", datum: "A" },
        { id: "right", kind: "face", outward: "+X" },
        { id: "old", kind: "bore", diameter: "10", diameterTolerance: tolerance },
        {
          id: "new",
          kind: "bore",
          made: "here",
          diameter: "12",
          diameterTolerance: tolerance,
          x: typed(width - 11),
          y: "60",
          process: typed(cut),
        },
        { id: "free", kind: "bore", made: "here", diameter: "6", x: typed(width - 60), y: "60" },
        { id: "inner", kind: "face", outward: "+X", made: "here", x: "10" },
        { id: "post", kind: "boss", made: "here", diameter: "6", diameterTolerance: "±0.1", x: typed(width - 60), y: "90" },
        { id: "loose", kind: "bore", made: "here", diameter: "50", diameterTolerance: "±0.1", x: typed(width - 41), y: "60" },
      ],
      dimensions: [
        { id: "width", from: "left", to: "right", nominal: typed(width), tolerance: "±0.1" },
        { id: "old x", from: "left", to: "old", axis: "X", nominal: typed(width - 41) },
        { id: "old y", from: "front", to: "old", axis: "Y", nominal: "20" },
      ],
      characteristics: wanted,
    },
    tools: [{ id: "tip", kind: "touch probe", radius: "3", scatter: "0" }],
    touches: [
      { id: "l", element: "left", travelling: "+X", tool: "tip", readings: "-303" },
      { id: "f", element: "front", travelling: "+Y", tool: "tip", readings: "-203" },
      { id: "r", element: "right", travelling: "-X", tool: "tip", readings: typed(-297 + width + more) },
      { id: "o1", element: "old", travelling: "radial", tool: "tip", readings: around([reach, 0]) },
      { id: "o2", element: "old", travelling: "radial", tool: "tip", readings: around([0, reach]) },
      { id: "o3", element: "old", travelling: "radial", tool: "tip", readings: around([-reach, 0]) },
      { id: "o4", element: "old", travelling: "radial", tool: "tip", readings: around([0, -reach]) },
    ],
    strategies: [
      { id: "left", touches: ["l", "f"] },
      { id: "right", touches: ["r", "f"] },
    ],
    ...extra,
  });
}

const walls = [
  { id: "edge", kind: "wall thickness", of: "new", from: "right", tolerance: "±0.2" },
  { id: "land", kind: "wall thickness", of: "new", from: "old", tolerance: "±0.2" },
  { id: "x", kind: "coordinate", of: "new", axis: "X", tolerance: "±0.2" },
];

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

function amountOf({ rows }: Stack, source: string): number {
  return rows.find((row) => row.source.id === source)?.amounts[0] ?? 0;
}

describe("wall thickness", () => {
  it("to a face follows the distance of the centre, less half of what the diameter grows", () => {
    fc.assert(
      fc.property(jobs, (job) => {
        const document = plate(job);
        const meanDiameter = (job.lower + job.upper) / 2;
        // By the left face the bore stays where it is from there, and the wall takes all that the part is wider.
        expect(stacksOf(document, "left", "thisPart")("edge").deviation).toBeCloseTo(job.more - meanDiameter / 2, 8);
        expect(stacksOf(document, "right", "thisPart")("edge").deviation).toBeCloseTo(-meanDiameter / 2, 8);
        const batch = stacksOf(document, "left", "batch")("edge");
        expect(amountOf(batch, "dimension width, in the batch")).toBeCloseTo(0.1 / 3, 9);
        expect(amountOf(batch, "new, diameter, in the batch")).toBeCloseTo(-(job.upper - job.lower) / 2 / 3 / 2, 9);
        expect(amountOf(batch, "element new, process X")).toBeCloseTo(-job.cut, 9);
        // Worst case by hand: ±0.1 of the width, 3 u of the cut, half of the half-width of the diameter's tolerance.
        const half = 0.1 + 3 * job.cut + (job.upper - job.lower) / 4;
        expect(batch.worstCase).toEqual({
          lower: expect.closeTo(-meanDiameter / 2 - half, 8),
          upper: expect.closeTo(-meanDiameter / 2 + half, 8),
        });
        expect(amountOf(stacksOf(document, "right", "batch")("edge"), "dimension width, in the batch")).toBeCloseTo(0, 9);
      }),
      runs,
    );
  });

  it("between bores is the distance of the centres less both radii, the one that is there as it was touched", () => {
    fc.assert(
      fc.property(jobs, (job) => {
        const document = plate(job);
        const meanDiameter = (job.lower + job.upper) / 2;
        // By the right face the new bore is cut `more` further to the right: 30 + more across, 40 along, with the old one where it is.
        const moved = Math.hypot(30 + job.more, 40) - 50;
        const part = stacksOf(document, "right", "thisPart")("land");
        expect(part.deviation).toBeCloseTo(moved - meanDiameter / 2 - job.larger / 2, 8);
        expect(stacksOf(document, "left", "thisPart")("land").deviation).toBeCloseTo(-meanDiameter / 2 - job.larger / 2, 8);
        const batch = stacksOf(document, "left", "batch")("land");
        expect(batch.deviation).toBeCloseTo(-meanDiameter, 8);
        // 3-4-5: the line of centres lies 0.6 along X and 0.8 along Y.
        expect(amountOf(batch, "element new, process X")).toBeCloseTo(0.6 * job.cut, 9);
        expect(amountOf(batch, "element new, process Y")).toBeCloseTo(0.8 * job.cut, 9);
        for (const bore of ["new", "old"])
          expect(amountOf(batch, `${bore}, diameter, in the batch`)).toBeCloseTo(-(job.upper - job.lower) / 12, 9);
      }),
      runs,
    );
  });

  it("is as far off as its bore's coordinate where the diameter varies evenly about nominal, with the other sign", () => {
    fc.assert(
      fc.property(jobs, (job) => {
        const document = plate({ ...job, lower: -job.upper });
        for (const strategy of ["left", "right"]) {
          const stacks = stacksOf(document, strategy, "thisPart");
          // The right face itself is `more` to the right.
          expect(stacks("edge").deviation).toBeCloseTo(job.more - stacks("x").deviation, 8);
        }
      }),
      runs,
    );
  });
});

describe("a least wall", () => {
  // By hand: nominal wall 11 - 6 = 5. Zero by the right face, u = 0.01 of the cut and 0.02/2/3/2 of the diameter about -0.005.
  const least = (below: number) =>
    plate(plain, [{ id: "edge", kind: "wall thickness", of: "new", from: "right", tolerance: `at least ${typed(5 - below)}` }]);
  const u = Math.hypot(0.01, 0.02 / 12);

  it("has no upper limit: P = Φ((mean - limit) / u)", () => {
    // Φ(1.959964) = 0.975, Φ(0) = 0.5, Φ(-0.3) = 1 - 0.617911 (tables of the normal distribution).
    for (const [z, chance] of [
      [1.959964, 0.975],
      [0, 0.5],
      [-0.3, 0.382089],
    ] as const) {
      const stack = stacksOf(least(0.005 + z * u), "right", "batch")("edge");
      expect(stack.limits.lower).toBeCloseTo(-(0.005 + z * u), 9);
      expect(stack.limits.upper).toBe(Number.POSITIVE_INFINITY);
      expect(stack.chance).toBeCloseTo(chance, 6);
      expect(stack.distribution.chanceWithin(stack.limits.lower, stack.limits.upper)).toBeCloseTo(chance, 6);
    }
  });

  it("shares tell how much of the way from the drawing's own wall down to the limit is used", () => {
    const { shares, worstCase, rootSumSquare } = stacksOf(least(0.05), "right", "batch")("edge");
    expect(shares.deviation).toBeCloseTo(0.005 / 0.05, 8);
    expect(shares.worstCase).toBeCloseTo(-worstCase.lower / 0.05, 8);
    expect(shares.rootSumSquare).toBeCloseTo(-rootSumSquare.lower / 0.05, 8);
    expect(worstCase.lower).toBeCloseTo(-(0.005 + 0.03 + 0.005), 8);
    // A part that is wider by 0.09 has a wall that is thicker, which uses nothing.
    const wide = plate({ ...plain, more: 0.09 }, [
      { id: "edge", kind: "wall thickness", of: "new", from: "right", tolerance: "at least 4.95" },
    ]);
    expect(stacksOf(wide, "left", "thisPart")("edge").shares.deviation).toBe(0);
  });

  it("may name a cell of the ledger, and takes inches", () => {
    const ledger = [{ kind: "cell", id: "thinnest", entry: "4.9 mm + 0.05 mm" }];
    const named = plate(plain, [{ id: "edge", kind: "wall thickness", of: "new", from: "right", tolerance: "at least thinnest" }], {
      ledger,
    });
    expect(stacksOf(named, "right", "batch")("edge").limits.lower).toBeCloseTo(-0.05, 9);
    // 0.195 in = 4.953 mm.
    const inches = plate(plain, [{ id: "edge", kind: "wall thickness", of: "new", from: "right", tolerance: "At least 0.195 in" }]);
    expect(stacksOf(inches, "right", "batch")("edge").limits.lower).toBeCloseTo(-0.047, 9);
  });

  it("is decided on its one side", () => {
    const stack = stacksOf(least(0.05), "right", "thisPart")("edge");
    const rule = { name: "guarded acceptance", guard: { by: "probability", probability: 0.95 } } as const;
    const { verdict, limits } = must(judgeCharacteristic(stack, { ok: true, value: rule }));
    expect(verdict).toBe("accepted");
    // Φ⁻¹(0.95) = 1.644854.
    expect(must(limits).accepted).toEqual({ lower: expect.closeTo(-0.05 + 1.644854 * u, 5), upper: Number.POSITIVE_INFINITY });
    expect(verdictSentence(stack, { ok: true, value: rule }, (millimetres) => millimetres.toFixed(4))).toMatch(
      /accepted from -0\.03\d\d, a guard band of 0\.01\d\d\.$/,
    );
  });

  it("is told and drawn without an upper limit", () => {
    const document = least(0.05);
    const evaluation = evaluateSetup(document);
    const stack = stacksOf(document, "right", "batch")("edge");
    expect(summaryText(evaluation)).toMatch(/^ {2}edge +from -0\.05 /m);
    expect(stackInWords(stack, writerOf("mm"))[0]).toMatch(/^Lower limit −0\.05 mm of the drawing's own wall, no upper one\. Root/);
    const figure = drawn((environment) => toleranceStack(stack, { title: "edge", unit: "mm", width: 520 }, environment));
    expect(faultsOf(figure)).toEqual([]);
    expect(figure.words).toContain("−0.05 mm");
    const compared = drawn((environment) => strategyComparison(evaluation, { view: "batch", unit: "mm", width: 700 }, environment));
    expect(faultsOf(compared)).toEqual([]);
    const plainData = plainResults(evaluation);
    expect(JSON.parse(JSON.stringify(plainData))).toStrictEqual(plainData);
    expect(JSON.stringify(plainData)).toMatch(/"kind":"wall thickness","unit":"mm","limits":\{"lower":-0\.0[45]\d*,"upper":null\}/);
  });
});

describe("what no wall can be of is refused at its entry", () => {
  it.each([
    ["left", "right", "±0.1", "of", "a wall begins at a bore"],
    ["post", "right", "±0.1", "of", "a wall begins at a bore"],
    ["new", "post", "±0.1", "from", "a wall ends at an upright face or at another bore"],
    ["new", "top", "±0.1", "from", "a wall ends at an upright face or at another bore"],
    ["new", "new", "±0.1", "from", "a wall ends at an upright face or at another bore"],
    ["new", "free", "±0.1", "from", 'a wall is as thick as the diameter of "free" leaves it, and nothing limits that'],
    ["free", "right", "±0.1", "of", 'a wall is as thick as the diameter of "free" leaves it, and nothing limits that'],
    ["new", "loose", "±0.1", "from", 'the drawing leaves no metal between "new" and "loose"'],
    ["new", "inner", "±0.1", "from", 'the drawing leaves no metal between "new" and "inner"'],
    ["new", "right", "at least 5", "tolerance", "the drawing's own wall leaves no room for this limit"],
    ["new", "right", "at least 0", "tolerance", "the drawing's own wall leaves no room for this limit"],
    ["new", "right", "at least", "tolerance", "the least wall is missing"],
    ["new", "right", "", "tolerance", "the tolerance is missing"],
    ["new", "right", "H7", "tolerance", "a tolerance class stands for nothing without a nominal size"],
  ])("of %s to %s, tolerance %j", (of, from, tolerance, entry, what) => {
    const { problems } = evaluateSetup(plate(plain, [{ id: "wanted", kind: "wall thickness", of, from, tolerance }]));
    const found = problems.filter(({ at }) => at.startsWith("part.characteristics.wanted"));
    expect(found.map((each) => each.what)).toContain(what);
    expect(found.find((each) => each.what === what)?.at).toBe(`part.characteristics.wanted.${entry}`);
  });
});
