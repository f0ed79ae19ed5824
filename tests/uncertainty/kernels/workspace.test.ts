import fc from "fast-check";
import { afterEach, describe, expect, it, vi } from "vitest";
import { borrowWorkspace } from "../../../lib/uncertainty/kernels/workspace.ts";
import type { Source } from "../../../lib/uncertainty/source.ts";
import type { SourceDistribution } from "../../../lib/uncertainty/sourceDistribution.ts";
import { blockSize } from "../../../lib/uncertainty/trials/blockWords.ts";
import { runBlocks } from "../../../lib/uncertainty/trials/runTrials.ts";
import { writeTally } from "../../../lib/uncertainty/trials/tallyText.ts";
import { TrialModel, type TrialOutput } from "../../../lib/uncertainty/trials/trialModel.ts";
import type { TrialTally } from "../../../lib/uncertainty/trials/trialTally.ts";
import { fromSource, sum, unary } from "../../../lib/uncertainty/uncertain.ts";
import { descriptionOf, trialOutputsOf } from "../../bench/models.ts";
import { formulas, sourceOf, taped } from "../../properties/expressions.ts";

/** The bits of all results in one block, as the plain loops or the workspace compute them. */
function bitsOf(model: TrialModel, block: number): BigUint64Array[] {
  return model.runBlock(block).map((column) => new BigUint64Array(column.slice().buffer));
}

function expectSameBits(outputs: readonly TrialOutput[], blocks: readonly number[], seed = 7): void {
  const plain = new TrialModel(outputs, seed, { usesWorkspace: false });
  const fast = new TrialModel(outputs, seed);
  for (const block of blocks) expect(bitsOf(fast, block)).toEqual(bitsOf(plain, block));
}

const of = (id: string, distribution: SourceDistribution, more: Partial<Source> = {}) =>
  fromSource({ ...sourceOf(id, 0.25), distribution, ...more });
const output = (name: string, value: TrialOutput["value"]): TrialOutput => ({ name, value, centre: value.value, scale: 1 });

it("there is a workspace here: what is compared below is not the plain loops with themselves", () => {
  expect(borrowWorkspace(blockSize)).toBeDefined();
});

describe("the workspace computes what the plain loops compute, to the last bit", () => {
  it("whole models: a stack, and a part with ten holes", () => {
    for (const name of ["L", "N", "N2"] as const) expectSameBits(trialOutputsOf(descriptionOf(name)), [0, 1, 12345, 2 ** 40]);
  });

  it("every distribution, also where sources share an estimate of scatter", () => {
    const t: SourceDistribution = { shape: "scaledT", scale: 0.3, degreesOfFreedom: 4 };
    const distributions: SourceDistribution[] = [
      { shape: "normal", standardDeviation: 2 },
      { shape: "rectangular", halfWidth: 3 },
      { shape: "triangular", halfWidth: 0.1 },
      { shape: "trapezoidal", halfWidth: 1, topRatio: 0.4 },
      { shape: "arcsine", halfWidth: 1e-3 },
      t,
      { shape: "normal", standardDeviation: 0 },
    ];
    const values = distributions.map((distribution, k) => of(`source ${k}`, distribution));
    const shared = ["a", "b", "c"].map((id) => of(id, t, { degreesOfFreedom: 4, varianceEstimate: "scatter" }));
    expectSameBits(
      [...values, ...shared].map((value, k) => output(`result ${k}`, value)),
      [0, 3],
    );
  });

  it("any formula", () => {
    const inputs = [0.3, -1.2, 2.5, 4].map((estimate, k) => fromSource(sourceOf(`input ${k}`, estimate, 0.2)));
    fc.assert(
      fc.property(fc.array(formulas, { minLength: 1, maxLength: 6 }), (some) => {
        expectSameBits(
          some.map((formula, k) => ({ name: `result ${k}`, value: taped(formula, inputs), centre: 0, scale: 1 })),
          [5],
        );
      }),
      { numRuns: 150 },
    );
  });

  it("counts and sums of the tally", () => {
    // A value may lie beyond all cells (narrow), or be none (the root of what is sometimes below 0).
    const x = of("x", { shape: "normal", standardDeviation: 1 });
    const outputs: TrialOutput[] = [
      output("usual", x),
      { ...output("narrow", x.plus(x)), scale: 0.1 },
      { name: "root", value: unary("squareRoot", x.plus(of("y", { shape: "rectangular", halfWidth: 0.5 }))), centre: 1, scale: 1 },
    ];
    const tallies = [true, false].map((usesWorkspace) => {
      const model = new TrialModel(outputs, 2, { usesWorkspace });
      return writeTally([...runBlocks(model, 0, 9)].at(-1) as TrialTally);
    });
    expect(tallies[0]).toBe(tallies[1]);
    expect(JSON.parse(tallies[0] as string).outputs.map((each: { failed: number }) => each.failed > 0)).toEqual([false, false, true]);
  });
});

describe("a loan of the workspace", () => {
  const model = (id: string, sources: number, usesWorkspace = true) =>
    new TrialModel(
      [output(id, sum(Array.from({ length: sources }, (_, k) => of(`${id} ${k}`, { shape: "normal", standardDeviation: 1 }))))],
      1,
      { usesWorkspace },
    );

  it("ends when another model borrows it, however large, and the first goes on as if it were alone", () => {
    const [first, alone] = [model("first", 3), model("first", 3, false)];
    for (const [block, others] of [2, 300, 40].entries()) {
      model(`other ${others}`, others).runBlock(0);
      expect(bitsOf(first, block)).toEqual(bitsOf(alone, block));
    }
  });

  it("holds more tables than there is room for", () => {
    const values = Array.from({ length: 80 }, (_, k) => of(`t ${k}`, { shape: "scaledT", scale: 1, degreesOfFreedom: 3 + k / 4 }));
    expectSameBits([output("sum", sum(values))], [0, 1]);
  });
});

describe("without WebAssembly", () => {
  afterEach(() => {
    vi.unstubAllGlobals();
    vi.resetModules();
  });

  const forbidden = class {
    constructor() {
      throw new Error("refused by the policy of the page");
    }
  };

  it.each([
    ["where the engine has none", undefined],
    ["where the page's policy forbids it", { Module: forbidden, Memory: forbidden, Instance: forbidden }],
  ])("%s the plain loops compute", async (_, stub) => {
    vi.stubGlobal("WebAssembly", stub);
    vi.resetModules();
    const fresh = await import("../../../lib/uncertainty/kernels/workspace.ts");
    expect(fresh.borrowWorkspace(blockSize)).toBeUndefined();
    const { TrialModel: Fresh } = await import("../../../lib/uncertainty/trials/trialModel.ts");
    const outputs = [output("x", of("x", { shape: "normal", standardDeviation: 1 }))];
    const [column] = new Fresh(outputs, 3).runBlock(0);
    expect([...(column as Float64Array)]).toEqual([...(new TrialModel(outputs, 3).runBlock(0)[0] as Float64Array)]);
  });
});
