import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { judgeCharacteristic } from "../../lib/decision/judgeCharacteristic.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import type { Bonus, Stack } from "../../lib/tolerance/stack.ts";
import { writerOf } from "../../notebooks/figures/displayUnit.ts";
import { stackInWords } from "../../notebooks/figures/stackInWords.ts";
import { toleranceStack } from "../../notebooks/figures/toleranceStack.ts";
import { drawn, faultsOf } from "../notebooks/figures/drawnFigure.ts";
import { documentFrom, must, typed } from "./setups.ts";

// Many evaluations a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

const micrometres = (least: number, most: number) => fc.integer({ min: least * 1000, max: most * 1000 }).map((value) => value / 1000);

interface Job {
  readonly sigma: number;
  readonly zone: number;
  /** Width of the diameter's tolerance. */
  readonly width: number;
  readonly kind: "bore" | "boss";
  /** This part off the strategy's zero. */
  readonly off: number;
}

function hole({ sigma, zone, width, kind, off }: Job): SetupDocument {
  const round = { kind, made: "here", diameter: "10", x: "30", y: "20", process: typed(sigma) };
  return documentFrom({
    part: {
      elements: [
        { id: "left", kind: "face", outward: "-X", datum: "C" },
        { id: "front", kind: "face", outward: "-Y", datum: "B" },
        { ...round, id: "hole", diameterTolerance: kind === "bore" ? `0 / +${typed(width)}` : `0 / -${typed(width)}` },
        { ...round, id: "free" },
        { id: "old", kind: "bore", datum: "D", diameter: "10", diameterTolerance: "H7", x: "60", y: "20" },
      ],
      characteristics: [
        { id: "with", kind: "position at maximum material", of: "hole", tolerance: typed(zone) },
        { id: "without", kind: "position", of: "hole", tolerance: typed(zone) },
      ],
    },
    tools: [{ id: "tip", kind: "touch probe", radius: "3", scatter: "0" }],
    touches: [
      { id: "l", element: "left", travelling: "+X", tool: "tip", readings: "-303" },
      { id: "f", element: "front", travelling: "+Y", tool: "tip", readings: "-203" },
      // The same face again, elsewhere: this part's place is the mean of both.
      { id: "l2", element: "left", travelling: "+X", tool: "tip", readings: typed(-303 - 2 * off) },
    ],
    strategies: [{ id: "s", touches: ["l", "f"] }],
  });
}

function stacksOf(document: SetupDocument, view: "thisPart" | "batch"): readonly [Stack, Stack] {
  const { strategies, problems } = evaluateSetup(document);
  expect(problems).toEqual([]);
  const [first, second] = must((strategies[0] as (typeof strategies)[number]).evaluation)[view].stacks.map(must);
  return [first as Stack, second as Stack];
}

const bonusIn = (stack: Stack) => stack.bonus as Bonus;

describe("a position at maximum material", () => {
  // By hand: centred with equal σ the chance at a bonus b is 1 - exp(-(t + b)²/(8 σ²)). For b normal about m with deviation s the mean of the
  // exponential is a Gaussian integral, 2σ/√(4σ² + s²) · exp(-(t + m)²/(2 (4σ² + s²))); below a zone of no size it is left out, which 5 s
  // keep below 1e-6.
  it("averages the chance over the sizes: P = 1 - 2σ/√(4σ² + s²) exp(-(t + m)²/(2 (4σ² + s²)))", () => {
    const jobs = fc.record({
      sigma: micrometres(0.02, 0.2),
      zone: micrometres(0.1, 0.4),
      width: micrometres(0.05, 0.3),
      kind: fc.constantFrom("bore" as const, "boss" as const),
      off: fc.constant(0),
    });
    fc.assert(
      fc.property(jobs, fc.constantFrom("thisPart" as const, "batch" as const), (job, view) => {
        const [stack, plain] = stacksOf(hole(job), view);
        const { sigma, zone, width } = job;
        const [m, s] = [width / 2, width / 6];
        const variance = 4 * sigma ** 2 + s ** 2;
        const expected = 1 - ((2 * sigma) / Math.sqrt(variance)) * Math.exp(-((zone + m) ** 2) / (2 * variance));
        expect(bonusIn(stack).chance).toBeCloseTo(expected, 6);
        // No worse than without, but for the 0.135 % of sizes beyond three deviations, where there is less room than stated.
        expect(bonusIn(stack).chance).toBeGreaterThan(stack.chance - 0.00135);
        expect(bonusIn(stack).range).toEqual({ lower: 0, upper: expect.closeTo(width, 12) });
        // All else is told as if there were no modifier.
        expect(stack.chance).toBe(plain.chance);
        expect(stack.shares.worstCase).toBe(plain.shares.worstCase);
        expect(plain.bonus).toBeUndefined();
      }),
      { numRuns: 20 },
    );
  });

  // Off by 0.125, a diameter of 0.25 against a zone of 0.2, without doubt: met by those bores whose bonus is 0.05 and more. Diameters of 10 to 10.3
  // are normal about 10.15 with 0.05: 0.05 is two deviations below the middle, Φ(2) = 0.977250 (tables of the normal distribution).
  it("counts the sizes that are large enough where the place is known", () => {
    const [stack] = stacksOf(hole({ sigma: 0, zone: 0.2, width: 0.3, kind: "bore", off: 0.125 }), "thisPart");
    expect(stack.deviation).toBeCloseTo(0.25, 9);
    expect(stack.chance).toBe(0);
    expect(bonusIn(stack).chance).toBeCloseTo(0.97725, 5);
    expect(bonusIn(stack).virtualCondition).toBeCloseTo(9.8, 9);
  });

  it("is accepted by the stated zone, and else not decided before there is a size", () => {
    const rule = { ok: true, value: { name: "guarded acceptance", guard: { by: "probability", probability: 0.95 } } } as const;
    const judged = (sigma: number) =>
      judgeCharacteristic(stacksOf(hole({ sigma, zone: 0.2, width: 0.3, kind: "bore", off: 0 }), "thisPart")[0], rule);
    // Without bonus 1 - exp(-t²/(8 σ²)): 0.996 for σ 0.03, 0.865 for 0.05.
    expect(must(judged(0.03)).verdict).toBe("accepted");
    expect(judged(0.05)).toMatchObject({
      ok: false,
      problems: [{ at: "part.characteristics.with", remedy: "see the chance with the bonus of its own size" }],
    });
  });

  it("is told with what was left out, and drawn as without bonus", () => {
    const document = hole({ sigma: 0.03, zone: 0.2, width: 0.3, kind: "bore", off: 0 });
    const [stack] = stacksOf(document, "batch");
    const evaluation = evaluateSetup(document);
    const text = summaryText(evaluation).replace(/\s+/g, " ");
    expect(text).toMatch(/ with dia 0\.2 \(M\) /);
    expect(text).toContain("up to 0.3 (a boundary of diameter 9.8 that its wall must not cross)");
    expect(text).toContain("A shift by the size of a datum is not counted.");
    expect(stackInWords(stack, writerOf("mm")).join(" ")).toMatch(/all of this without bonus.*up to 0\.3 mm.*⌀ 9\.8 mm/);
    expect(faultsOf(drawn((environment) => toleranceStack(stack, { title: "hole", unit: "mm", width: 520 }, environment)))).toEqual([]);
    const plain = plainResults(evaluation);
    expect(JSON.parse(JSON.stringify(plain))).toStrictEqual(plain);
    expect(JSON.stringify(plain)).toContain('"atMaximumMaterial":{"bonus":{"lower":0,"upper":0.3},"virtualCondition":9.8,"chance":0.99');
  });

  it.each([
    ["free", "0.2", "of", 'nothing limits the diameter of "free", so there is no maximum material'],
    [
      "old",
      "0.2",
      "of",
      "the bonus is worked out for what is cut here; place and size of what is there already are known from the same touches",
    ],
    ["left", "0.2", "of", "a round zone is for an axis"],
    ["hole", "", "tolerance", "the tolerance is missing"],
    ["hole", "0", "tolerance", "a zone of no size can never be met"],
  ])("of %s with tolerance %j is refused at its entry", (of, tolerance, entry, what) => {
    const document = hole({ sigma: 0.03, zone: 0.2, width: 0.3, kind: "bore", off: 0 });
    const [wanted, other] = document.part.characteristics as [SetupDocument["part"]["characteristics"][number], object];
    const characteristics = [{ ...wanted, of, tolerance }, other] as SetupDocument["part"]["characteristics"];
    const { problems } = evaluateSetup({ ...document, part: { ...document.part, characteristics } });
    expect(problems.map((problem) => [problem.at, problem.what])).toContainEqual([`part.characteristics.with.${entry}`, what]);
  });
});
